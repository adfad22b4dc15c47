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

/** A block at its place in the note. */
export class PlacedBlock implements Block {
  readonly text: string;
  readonly mode: BlockMode;
  readonly info: SourceSpan;
  readonly strayInfo: Block['strayInfo'];
  readonly span: SourceSpan;
  readonly closed: boolean;
  readonly origin: LineMap;
  readonly #base: number;

  constructor(block: FoundBlock, chunkStart: number) {
    const base = chunkStart + block.at;
    const placed = ({ start, end }: SourceSpan) => ({ start: base + start, end: base + end });
    this.text = block.map.text;
    this.mode = block.mode;
    this.info = placed(block.info);
    this.strayInfo = block.strayInfo.map(({ text, span }) => ({ text, span: placed(span) }));
    this.span = placed({ start: 0, end: block.length });
    this.closed = block.closed;
    this.origin = block.map;
    this.#base = base;
  }

  /** Whether it is this block, at this place. */
  is({ map, at }: FoundBlock, chunkStart: number): boolean {
    return this.origin === map && this.#base === chunkStart + at;
  }

  toSource({ start, end }: { readonly start: number; readonly end: number }): SourceSpan {
    return { start: this.#base + this.origin.toSource(start), end: this.#base + this.origin.toSource(end) };
  }

  toText(offset: number): number | null {
    return this.origin.toText(offset - this.#base);
  }
}
