import { PlacedBlock } from './block.ts';
import { BoundReader } from './bound-reader.ts';
import { mayHoldBlocks } from './may-hold-blocks.ts';
import type { Block, BoundText, NoteText, SourceSpan } from './note-text.ts';
import { ProseReader } from './prose.ts';
import { lengthOfHead, placed, type Stretches, stretchesOf } from './stretches.ts';

/** Finds the infusion blocks of a note. Total: any text is a note. */
export function readNote(source: string): NoteText {
  return new NoteReader().read(source);
}

/** Reads one note again and again while it is edited; what the last reading knew of what has not changed is kept. */
export class NoteReader {
  #last: Stretches | null = null;
  #blocks: readonly PlacedBlock[] = [];
  readonly #known: Known = { prose: new ProseReader(), bound: new BoundReader() };

  read(source: string): NoteText {
    this.#last = mayHoldBlocks(source) ? stretchesOf(source, this.#last) : null;
    this.#blocks = this.#last ? blocksOf(this.#last, this.#blocks) : [];
    return new ReadNote(source, this.#blocks, this.#last, this.#known);
  }
}

/** `before`: an earlier version's blocks, of which those that have not moved stay the same objects. */
function blocksOf({ head, row }: Stretches, before: readonly PlacedBlock[]): readonly PlacedBlock[] {
  const blocks: PlacedBlock[] = [];
  let start = head;
  for (const { length, swallowed, chunk } of row) {
    for (const block of chunk.blocks) {
      const known = before[blocks.length];
      blocks.push(known?.is(block, start) ? known : new PlacedBlock(block, start));
    }
    start += length + swallowed;
  }
  return blocks;
}

/** What is kept from one version of a note to the next. */
interface Known {
  readonly prose: ProseReader;
  readonly bound: BoundReader;
}

/** What was found of one version of a note. */
class ReadNote implements NoteText {
  readonly #stretches: Stretches | null;
  readonly #known: Known;
  #bound: BoundText | null = null;

  constructor(
    readonly source: string,
    readonly blocks: readonly Block[],
    stretches: Stretches | null,
    known: Known,
  ) {
    this.#stretches = stretches;
    this.#known = known;
  }

  prose(): readonly SourceSpan[] {
    return this.#stretches && this.blocks.length > 0
      ? this.#known.prose.read(this.source, placed(this.#stretches))
      : [];
  }

  bound(): BoundText {
    this.#bound ??= this.#known.bound.read(this.source, this.#stretches ? placed(this.#stretches) : []);
    return this.#bound;
  }
}

/** A note whose byte order mark and front matter are blank lines: every line keeps its number. */
export function withoutHead(source: string): string {
  const length = lengthOfHead(source);
  return source.slice(0, length).replace(/[^\r\n]/g, '') + source.slice(length);
}
