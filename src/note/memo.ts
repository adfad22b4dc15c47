/**
 * Remembers what the things of a note came to from one version of it to the next. A thing is worked out again unless its
 * block is the same and every question that was asked on the way has the same answer now; what is remembered is moved to
 * where its block stands. Only what the last version was made of is kept.
 */
import type { Block, SourceSpan } from '../markdown/note-text.ts';
import type { Located } from './faults.ts';
import { type Identities, type Lookups, Trace, traced } from './lookups.ts';
import type { Mention } from './model.ts';
import type { Policy } from './policy.ts';
import type { Desk } from './reporter.ts';

/** Something that can be worked out by itself. */
export interface Task<T> {
  readonly kind: string;
  /** A block, or a thing that was found in one; with `kind` it says which task it is. */
  readonly of: object;
  work(around: Lookups, desk: Desk): T;
  /** The result of the last version as it is in this one. */
  moved(result: T, now: Present): T;
}

/** Leads from the last version to this one. */
export interface Present {
  /** Of a place in a block that is the same. */
  place(place: SourceSpan): SourceSpan;
  /** Of a thing that a question was answered with. */
  thing<T extends object>(thing: T): T;
  /** Says what a thing is now that questions may be about, or be answered with. */
  becomes<T extends object>(before: T, now: T): T;
}

/** Works out the tasks of one version of a note, in its order. */
export interface Worker {
  do<T>(task: Task<T>, around: Lookups, desk: Desk): T;
}

/** Remembers nothing. */
export const ANEW: Worker = { do: (task, around, desk) => task.work(around, desk) };

interface Remembered {
  readonly trace: Trace;
  faults: readonly Located[];
  mentions: readonly Mention[];
  result: unknown;
  /** The last version that was made of it. */
  version: number;
}

type Shelf = Map<string, Map<object, Remembered>>;

export class Memo {
  private policy: Policy | null = null;
  private blocks: readonly Block[] = [];
  private shelf: Shelf = new Map();
  private count = 0;
  private readonly known = new Things();

  /** For the next version of the note; the one before is done with. */
  version(blocks: readonly Block[], policy: Policy): Worker {
    if (policy === this.policy) this.sweep();
    else this.shelf = new Map();
    this.count += 1;
    const version = new Version(this.shelf, this.count, this.known, this.blocks, blocks);
    this.policy = policy;
    this.blocks = blocks;
    return version;
  }

  /** Puts away what the last version was not made of. */
  private sweep(): void {
    for (const entries of this.shelf.values()) {
      for (const [key, { version }] of entries) if (version !== this.count) entries.delete(key);
    }
  }
}

/** What things are known by: what they were when they were first worked out. */
class Things implements Identities {
  private before = new Map<object, object>();
  private keys = new Map<object, object>();
  private now = new Map<object, object>();
  private blocks: readonly Block[] = [];

  turn(blocks: readonly Block[]): void {
    this.before = this.keys;
    this.keys = new Map();
    this.now = new Map();
    this.blocks = blocks;
  }

  keyOf(thing: object): object {
    return this.keys.get(thing) ?? thing;
  }

  present(key: object): object | undefined {
    return this.now.get(key);
  }

  placeKey({ start, end }: SourceSpan): readonly unknown[] {
    const block = blockAt(this.blocks, start);
    return block ? [this.keyOf(block), start - block.span.start, end - start] : [start, end];
  }

  becomes(before: object, now: object): void {
    const key = this.before.get(before) ?? before;
    this.keys.set(now, key);
    this.now.set(key, now);
  }

  /** What a thing of the last version is now. */
  since(before: object): object | undefined {
    return this.now.get(this.before.get(before) ?? before);
  }
}

class Version implements Worker, Present {
  private readonly moved = new Map<Block, Block>();
  private nearest: Block | null = null;

  constructor(
    private readonly shelf: Shelf,
    private readonly count: number,
    private readonly known: Things,
    private readonly before: readonly Block[],
    blocks: readonly Block[],
  ) {
    known.turn(blocks);
    this.pair(blocks);
  }

  do<T>(task: Task<T>, around: Lookups, desk: Desk): T {
    const entry = this.remembered(task, around) ?? this.worked(task, around);
    for (const fault of entry.faults) desk.faults.push(fault);
    for (const mention of entry.mentions) desk.mentions.push(mention);
    return entry.result as T;
  }

  place(place: SourceSpan): SourceSpan {
    const { nearest } = this;
    const inside = nearest && nearest.span.start <= place.start && place.end <= nearest.span.end;
    const block = inside ? nearest : blockAt(this.before, place.start);
    const now = block && this.moved.get(block);
    if (!now) return place;
    this.nearest = block;
    const by = now.span.start - block.span.start;
    return by === 0 ? place : { start: place.start + by, end: place.end + by };
  }

  thing<T extends object>(thing: T): T {
    return (this.known.since(thing) as T | undefined) ?? thing;
  }

  becomes<T extends object>(before: T, now: T): T {
    this.known.becomes(before, now);
    return now;
  }

  private remembered<T>(task: Task<T>, around: Lookups): Remembered | null {
    const entry = this.shelf.get(task.kind)?.get(this.known.keyOf(task.of));
    if (!entry?.trace.holds(around)) return null;
    entry.result = task.moved(entry.result as T, this);
    if (entry.faults.length > 0) entry.faults = entry.faults.map((located) => this.relocated(located));
    if (entry.mentions.length > 0) entry.mentions = entry.mentions.map((mention) => this.mention(mention));
    entry.version = this.count;
    return entry;
  }

  private worked<T>({ kind, of, work }: Task<T>, around: Lookups): Remembered {
    const trace = new Trace(this.known);
    const desk: Desk = { faults: [], mentions: [] };
    const result = work(traced(around, trace), desk);
    const entry = { trace, ...desk, result, version: this.count };
    const kept = this.shelf.get(kind) ?? new Map<object, Remembered>();
    this.shelf.set(kind, kept);
    if (trace.isLasting) kept.set(this.known.keyOf(of), entry);
    else kept.delete(this.known.keyOf(of));
    return entry;
  }

  private relocated<T extends { readonly at: SourceSpan }>(located: T): T {
    const at = this.place(located.at);
    return at === located.at ? located : { ...located, at };
  }

  private mention(mention: Mention): Mention {
    const at = this.place(mention.at);
    const { of } = mention;
    const entity = 'entity' in of ? this.thing(of.entity) : null;
    if (!entity || ('entity' in of && of.entity === entity)) return at === mention.at ? mention : { at, of };
    return { at, of: { ...of, entity } as Mention['of'] };
  }

  /** Blocks that stayed the same; of several that are alike the first goes with the first. */
  private pair(blocks: readonly Block[]): void {
    const waiting = new Map<object, Block[]>();
    for (const block of [...this.before].reverse()) {
      const alike = waiting.get(block.origin);
      if (alike) alike.push(block);
      else waiting.set(block.origin, [block]);
    }
    for (const block of blocks) {
      const before = waiting.get(block.origin)?.pop();
      if (!before) continue;
      this.moved.set(before, block);
      this.becomes(before, block);
    }
  }
}

/** The block that holds an offset; blocks stand apart and in order. */
function blockAt(blocks: readonly Block[], offset: number): Block | null {
  let [low, high] = [0, blocks.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (blocks[middle]!.span.start <= offset) low = middle + 1;
    else high = middle;
  }
  const block = blocks[low - 1];
  return block && offset <= block.span.end ? block : null;
}
