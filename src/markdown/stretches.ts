/** A note as a row of stretches, each of which reads the same whatever stands around it. */
import { amendedChunk, type Chunk, isPlain, PLAIN, readChunk } from './chunk.ts';
import { cutsFrom, endOf } from './cuts.ts';
import { type Difference, differenceBetween } from './difference.ts';
import { BLANK_LINE } from './lines.ts';
import type { SourceSpan } from './note-text.ts';

/** What a link or a mark must hold somewhere. */
const MAY_BIND = /infusion:|\/infusion/i;

/** Without a place of its own, so that it is kept as it is while the note before it grows. */
export interface Stretch {
  /** Of what is Markdown of its own. */
  readonly length: number;
  /** Of what an open fence or raw HTML swallows behind it. */
  readonly swallowed: number;
  /** How much the parser was shown. */
  readonly shown: number;
  readonly chunk: Chunk;
  /** Whether a link or a mark in it may be bound to a result. */
  readonly mayBind: boolean;
}

/** A stretch at its place, without what it swallows. */
export interface PlacedStretch extends SourceSpan {
  readonly stretch: Stretch;
}

export interface Stretches {
  readonly source: string;
  /** The length of what comes before the first of them. */
  readonly head: number;
  readonly row: readonly Stretch[];
}

/** `before`: an earlier version of the note, whose stretches are kept where the two agree. */
export function stretchesOf(source: string, before: Stretches | null): Stretches {
  const head = lengthOfHead(source);
  if (!before) return { source, head, row: readFrom(source, head, null, null) };
  const edit = differenceBetween(before.source, source);
  const kept = before.head === head ? keptBefore(edit, before) : { count: 0, end: head };
  const old = new Walk(before);
  return { source, head, row: [...before.row.slice(0, kept.count), ...readFrom(source, kept.end, edit, old)] };
}

/** Whole stretches that the edit cannot reach: each ends where the first line of the one behind it says so. */
function keptBefore(edit: Difference, { head, row }: Stretches): { readonly count: number; readonly end: number } {
  let start = head;
  const starts: number[] = [];
  for (const { length, swallowed } of row) {
    if (start > edit.start) break;
    starts.push(start);
    start += length + swallowed;
  }
  const count = Math.max(starts.length - 2, 0);
  return { count, end: starts[count] ?? head };
}

export function placed({ head, row }: Stretches): readonly PlacedStretch[] {
  let start = head;
  return row.map((stretch) => {
    const here = { start, end: start + stretch.length, stretch };
    start = here.end + stretch.swallowed;
    return here;
  });
}

/** Goes through the stretches of the earlier version along with the reading of the later one. */
class Walk {
  index = 0;
  start: number;

  constructor(readonly before: Stretches) {
    this.start = before.head;
  }

  /** The stretch that begins at that place, if one does; places only grow. */
  at(place: number): Stretch | null {
    const { row } = this.before;
    while (this.start < place && this.index < row.length) {
      const { length, swallowed } = row[this.index]!;
      this.start += length + swallowed;
      this.index += 1;
    }
    return this.start === place ? (row[this.index] ?? null) : null;
  }

  rest(): readonly Stretch[] {
    return this.before.row.slice(this.index);
  }
}

/** Reads on from a place where a stretch begins, until what follows was read before. */
function readFrom(source: string, from: number, edit: Difference | null, old: Walk | null): Stretch[] {
  const row: Stretch[] = [];
  const longer = old ? source.length - old.before.source.length : 0;
  const editEnd = edit ? edit.start + edit.text.length : 0;
  let start = from;
  for (const cut of cutsFrom(source, from)) {
    if (cut <= start) continue;
    let known: Stretch | null = null;
    if (old && edit && start >= editEnd) {
      if (old.at(start - longer)) return row.concat(old.rest());
    } else if (old && edit && start <= edit.start) known = old.at(start);
    const chunkTo = (end: number) => chunkOf(source.slice(start, end), known, old?.before.source ?? '', start);

    let shown = cut;
    let chunk = chunkTo(cut);
    let end: number | null = cut;
    if (chunk.open !== null) {
      end = endOf(chunk.open.until, source, cut);
      // Of a block that nothing closes, only what stands before its first blank line is wanted.
      if (chunk.open.isBlock) {
        shown = end ?? endOf(BLANK_LINE, source, cut) ?? source.length;
        chunk = chunkTo(shown);
      }
    }
    const next = end ?? source.length;
    const mayBind = MAY_BIND.test(source.slice(start, cut));
    row.push({ length: cut - start, swallowed: next - cut, shown: shown - start, chunk, mayBind });
    start = next;
  }
  return row;
}

/** `known`: the stretch that began at the same place before; an edit inside its block need not be shown to the parser. */
function chunkOf(text: string, known: Stretch | null, source: string, start: number): Chunk {
  if (isPlain(text)) return PLAIN;
  if (known && known.chunk !== PLAIN) {
    const before = source.slice(start, start + known.shown);
    const chunk = before === text ? known.chunk : amendedChunk(before, known.chunk, text);
    if (chunk) return chunk;
  }
  return readChunk(text);
}

/** The length of a byte order mark and YAML front matter, which the Markdown of the note comes after. */
export function lengthOfHead(source: string): number {
  const head = /^\uFEFF?(?:---[ \t]*(?:\r\n|\n|\r)(?:[\s\S]*?(?:\r\n|\n|\r))??---[ \t]*(?:\r\n|\n|\r|$))?/.exec(source);
  return head![0].length;
}
