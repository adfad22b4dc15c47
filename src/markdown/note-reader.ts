import { PlacedBlock } from './block.ts';
import { BoundReader } from './bound-reader.ts';
import { amendedChunk, type Chunk, isPlain, PLAIN, readChunk } from './chunk.ts';
import { cutPoints, endOf } from './cuts.ts';
import { BLANK_LINE } from './lines.ts';
import type { Block, BoundText, NoteText, SourceSpan } from './note-text.ts';
import { ProseReader } from './prose.ts';

/** Whether there can be a block, a bound number or a table in it: the cheap question before anything is parsed. */
export function mayHoldBlocks(source: string): boolean {
  return /infusion/i.test(source);
}

/** Finds the infusion blocks of a note. Total: any text is a note. */
export function readNote(source: string): NoteText {
  return new NoteReader().read(source);
}

/** Reads one note again and again while it is edited; what the last reading knew of unchanged chunks is kept. */
export class NoteReader {
  #chunks: ReadonlyMap<string, Chunk> = new Map();
  readonly #known: Known = { prose: new ProseReader(), bound: new BoundReader() };

  read(source: string): NoteText {
    const known = this.#chunks;
    const chunks = new Map<string, Chunk>();
    this.#chunks = chunks;
    if (!mayHoldBlocks(source)) return new ReadNote(source, [], [], this.#known);

    const chunkAt = (start: number, end: number): Chunk => {
      const text = source.slice(start, end);
      if (isPlain(text)) return PLAIN;
      const chunk = chunks.get(text) ?? known.get(text) ?? amended(text, known) ?? readChunk(text);
      chunks.set(text, chunk);
      return chunk;
    };

    const blocks: Block[] = [];
    const stretches: SourceSpan[] = [];
    let start = lengthOfHead(source);
    for (const cut of [...cutPoints(source), source.length]) {
      if (cut <= start) continue;
      let end: number | null = cut;
      let chunk = chunkAt(start, cut);
      if (chunk.open !== null) {
        end = endOf(chunk.open.until, source, cut);
        // Of a block that nothing closes, only what stands before its first blank line is wanted.
        if (chunk.open.isBlock) chunk = chunkAt(start, end ?? endOf(BLANK_LINE, source, cut) ?? source.length);
      }
      stretches.push({ start, end: cut });
      for (const block of chunk.blocks) blocks.push(new PlacedBlock(block, start));
      start = end ?? source.length;
    }
    return new ReadNote(source, blocks, stretches, this.#known);
  }
}

/** What is kept from one version of a note to the next. */
interface Known {
  readonly prose: ProseReader;
  readonly bound: BoundReader;
}

/** What was found of one version of a note. */
class ReadNote implements NoteText {
  readonly #stretches: readonly SourceSpan[];
  readonly #known: Known;

  /** `stretches`: what is Markdown of its own, without what an open fence or raw HTML swallows. */
  constructor(
    readonly source: string,
    readonly blocks: readonly Block[],
    stretches: readonly SourceSpan[],
    known: Known,
  ) {
    this.#stretches = stretches;
    this.#known = known;
  }

  prose(): readonly SourceSpan[] {
    return this.blocks.length > 0 ? this.#known.prose.read(this.source, this.#stretches) : [];
  }

  bound(): BoundText {
    return this.#known.bound.read(this.source, this.#stretches);
  }
}

/** The chunk, when it is a known one with an edit inside a block. */
function amended(text: string, known: ReadonlyMap<string, Chunk>): Chunk | null {
  for (const [before, chunk] of known) {
    const after = amendedChunk(before, chunk, text);
    if (after !== null) return after;
  }
  return null;
}

/** A note whose byte order mark and front matter are blank lines: every line keeps its number. */
export function withoutHead(source: string): string {
  const length = lengthOfHead(source);
  return source.slice(0, length).replace(/[^\r\n]/g, '') + source.slice(length);
}

/** The length of a byte order mark and YAML front matter, which the Markdown of the note comes after. */
function lengthOfHead(source: string): number {
  const head = /^\uFEFF?(?:---[ \t]*(?:\r\n|\n|\r)(?:[\s\S]*?(?:\r\n|\n|\r))??---[ \t]*(?:\r\n|\n|\r|$))?/.exec(source);
  return head![0].length;
}
