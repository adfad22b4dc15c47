import { type FoundBlock, PlacedBlock } from './block.ts';
import { BoundReader } from './bound-reader.ts';
import { mayHoldBlocks } from './may-hold-blocks.ts';
import type { Block, BoundText, NoteText, Prose } from './note-text.ts';
import { ProseReader } from './prose.ts';
import { lengthOfHead, placed, type Stretches, stretchesOf } from './stretches.ts';

/** Finds the infusion blocks of a note. Total: any text is a note. */
export function readNote(source: string): NoteText {
  return new NoteReader().read(source);
}

/** Reads one note again and again while it is edited; what the last reading knew of what has not changed is kept. */
export class NoteReader {
  #last: Stretches | null = null;
  readonly #known: Known = { prose: new ProseReader(), bound: new BoundReader(), blocks: new KnownBlocks() };

  read(source: string): NoteText {
    this.#last = mayHoldBlocks(source) ? stretchesOf(source, this.#last) : null;
    return new ReadNote(source, this.#last, this.#known);
  }
}

/** What is kept from one version of a note to the next. */
interface Known {
  readonly prose: ProseReader;
  readonly bound: BoundReader;
  readonly blocks: KnownBlocks;
}

/** The blocks of one version, and where each stands in it. */
interface Standing {
  readonly blocks: readonly PlacedBlock[];
  readonly starts: readonly number[];
}

class KnownBlocks {
  readonly #byMap = new WeakMap<FoundBlock['map'], PlacedBlock>();
  /** That by which the blocks stand now. */
  #settled: Standing | null = null;

  of({ head, row }: Stretches): Standing {
    const blocks: PlacedBlock[] = [];
    const starts: number[] = [];
    const taken = new Set<PlacedBlock>();
    let start = head;
    for (const { length, swallowed, chunk } of row) {
      for (const found of chunk.blocks) {
        // Should a version ever bring one twice, each is to stand in its own place.
        const known = this.#byMap.get(found.map);
        const block = known && !taken.has(known) ? known : new PlacedBlock(found);
        if (!known) this.#byMap.set(found.map, block);
        taken.add(block);
        blocks.push(block);
        starts.push(start + found.at);
      }
      start += length + swallowed;
    }
    return { blocks, starts };
  }

  settle(standing: Standing): void {
    if (this.#settled === standing) return;
    const { blocks, starts } = standing;
    for (let index = 0; index < blocks.length; index += 1) blocks[index]!.start = starts[index]!;
    this.#settled = standing;
  }
}

/** What was found of one version of a note. */
class ReadNote implements NoteText {
  readonly #stretches: Stretches | null;
  readonly #known: Known;
  readonly #standing: Standing;
  #bound: BoundText | null = null;

  constructor(
    readonly source: string,
    stretches: Stretches | null,
    known: Known,
  ) {
    this.#stretches = stretches;
    this.#known = known;
    this.#standing = stretches ? known.blocks.of(stretches) : { blocks: [], starts: [] };
    this.settle();
  }

  get blocks(): readonly Block[] {
    return this.#standing.blocks;
  }

  settle(): void {
    this.#known.blocks.settle(this.#standing);
  }

  prose(): readonly Prose[] {
    return this.#stretches && this.blocks.length > 0
      ? this.#known.prose.read(this.source, placed(this.#stretches))
      : [];
  }

  bound(): BoundText {
    this.#bound ??= this.#known.bound.read(this.source, this.#stretches);
    return this.#bound;
  }
}

/** A note whose byte order mark and front matter are blank lines: every line keeps its number. */
export function withoutHead(source: string): string {
  const length = lengthOfHead(source);
  return source.slice(0, length).replace(/[^\r\n]/g, '') + source.slice(length);
}
