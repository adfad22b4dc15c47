import type { Fence } from './flow.ts';
import { LineMap, type PlacedLine } from './line-map.ts';
import { isBlank, linesOf } from './lines.ts';
import type { Block, BlockMode, SourceSpan } from './note-text.ts';

/** Any place where an infusion block may begin: the cheap question before the parser is asked. */
export const BLOCK_BEGINS = /(?:`{3}|~{3})[ \t]*infusion(?![^\s])/i;

/** A line that would open an infusion block were it not inside one: the fence that closes there was meant for it. */
const OPENS_ANOTHER = /^[\s>*+\-.)\d]*(?:`{3,}|~{3,})[ \t]*infusion(?![^\s])/i;

/** A block with offsets of its own, so that it can be kept while the text around it changes. */
export interface FoundBlock {
  /** Where its first mark stands in the chunk; every other place counts from there. */
  readonly at: number;
  readonly map: LineMap;
  readonly mode: BlockMode;
  readonly info: SourceSpan;
  readonly strayInfo: Block['strayInfo'];
  readonly length: number;
  readonly closed: boolean;
}

/** The infusion block that a fence of the chunk makes; null for any other code. */
export function blockOf(chunk: string, fence: Fence): FoundBlock | null {
  const at = fence.opening.start;
  const after = fence.opening.end;
  const { end: lineEnd, next } = linesOf(chunk, after).next().value ?? { end: after, next: after };
  const words = wordsOf(chunk, after, lineEnd).map(({ text, start }) => ({
    text,
    span: { start: start - at, end: start - at + text.length },
  }));
  const first = words[0];
  if (first?.text.toLowerCase() !== 'infusion') return null;

  const info = { start: first.span.start, end: words.at(-1)!.span.end };
  const lines = contentOf(chunk, fence, next).map((line) => ({ ...line, start: line.start - at }));
  const closed = fence.closing !== null && !lines.some((line) => OPENS_ANOTHER.test(line.text));
  const kept = closed ? lines : untilBlank(lines);
  const last = kept.at(-1);
  const contentEnd = last === undefined ? info.end : last.start + last.text.length - last.padding;
  const says = (mode: BlockMode) => words.some(({ text }) => text.toLowerCase() === mode);
  return {
    at,
    map: new LineMap(kept, info.end),
    mode: says('skip') ? 'skip' : says('alone') ? 'alone' : 'shared',
    info,
    strayInfo: words.slice(1).filter(({ text }) => !/^(?:alone|skip)$/i.test(text)),
    length: closed ? fence.closing.end - at : contentEnd,
    closed,
  };
}

/**
 * The lines between the fence's marks, or to the first blank one when nothing closes it. A line without content of its
 * own stands at its end, behind any prefix.
 */
function contentOf(chunk: string, fence: Fence, from: number): PlacedLine[] {
  const content: PlacedLine[] = [];
  let index = 0;
  for (const { end } of linesOf(chunk, from)) {
    if (fence.closing !== null && fence.closing.start <= end) break;
    const line = fence.lines[index];
    if (line !== undefined && line.start <= end) {
      index += 1;
      const text = ' '.repeat(line.padding) + chunk.slice(line.start, line.end);
      content.push({ text, start: line.start, padding: line.padding });
    } else if (fence.closing !== null) {
      content.push({ text: '', start: end, padding: 0 });
    } else {
      break;
    }
  }
  return content;
}

function untilBlank(lines: readonly PlacedLine[]): readonly PlacedLine[] {
  const blank = lines.findIndex((line) => isBlank(line.text));
  return blank < 0 ? lines : lines.slice(0, blank);
}

function wordsOf(text: string, start: number, end: number): { readonly text: string; readonly start: number }[] {
  return Array.from(text.slice(start, end).matchAll(/[^ \t]+/g), ({ 0: word, index }) => ({
    text: word,
    start: start + index,
  }));
}

/** A block at its place in the note, which is the only thing of it that ever changes. */
export class PlacedBlock implements Block {
  readonly text: string;
  readonly mode: BlockMode;
  readonly info: SourceSpan;
  readonly strayInfo: Block['strayInfo'];
  readonly closed: boolean;
  /** Where its first mark stands in the note. */
  start = 0;
  readonly #map: LineMap;
  readonly #length: number;

  constructor({ map, mode, info, strayInfo, length, closed }: FoundBlock) {
    this.text = map.text;
    this.mode = mode;
    this.info = new FollowingPlace(this, info);
    this.strayInfo = strayInfo.map(({ text, span }) => ({ text, span: new FollowingPlace(this, span) }));
    this.closed = closed;
    this.#map = map;
    this.#length = length;
  }

  get span(): SourceSpan {
    return { start: this.start, end: this.start + this.#length };
  }

  toSource({ start, end }: SourceSpan): SourceSpan {
    return { start: this.start + this.#map.toSource(start), end: this.start + this.#map.toSource(end) };
  }

  place({ start, end }: SourceSpan): SourceSpan {
    return new FollowingPlace(this, { start: this.#map.toSource(start), end: this.#map.toSource(end) });
  }

  toText(offset: number): number | null {
    return this.#map.toText(offset - this.start);
  }
}

/** A place that stays where it is in its block. */
class FollowingPlace implements SourceSpan {
  readonly #block: PlacedBlock;
  readonly #from: number;
  readonly #to: number;

  constructor(block: PlacedBlock, { start, end }: SourceSpan) {
    this.#block = block;
    this.#from = start;
    this.#to = end;
  }

  get start(): number {
    return this.#block.start + this.#from;
  }

  get end(): number {
    return this.#block.start + this.#to;
  }
}
