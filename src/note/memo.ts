/**
 * Remembers what the things of a note came to from one version of it to the next. A thing is worked out again unless its
 * block is the same and every question that was asked on the way has the same answer now. Only what the last version was
 * made of is kept.
 */
import type { Block } from '../markdown/note-text.ts';
import type { Located } from './faults.ts';
import { type Lookups, Trace, traced } from './lookups.ts';
import type { Mention } from './model.ts';
import type { Policy } from './policy.ts';
import type { Desk } from './reporter.ts';
import type { UsedNotes } from './use/given.ts';
import type { WorkedBlocks } from './worked-blocks.ts';

/**
 * A way to work out something by itself, of a block or of a thing that was found in one. What it comes to holds no place but
 * such as follow their block.
 */
export interface Task<Of extends object, T> {
  readonly kind: string;
  work(of: Of, around: Lookups, desk: Desk): T;
}

/** Works out the tasks of one version of a note, in its order. */
export interface Worker {
  do<Of extends object, T>(task: Task<Of, T>, of: Of, around: Lookups, desk: Desk): T;
}

/** Remembers nothing. */
export const ANEW: Worker = { do: (task, of, around, desk) => task.work(of, around, desk) };

interface Remembered {
  readonly trace: Trace;
  readonly faults: readonly Located[];
  readonly mentions: readonly Mention[];
  readonly result: unknown;
  /** The last version that was made of it. */
  version: number;
}

/** What the blocks of a note come to rests on. */
interface Version {
  readonly blocks: readonly Block[];
  readonly policy: Policy;
  readonly used: UsedNotes;
}

export class Memo {
  private policy: Policy | null = null;
  private shelf = new Shelf();
  private last: { readonly of: Version; readonly worked: WorkedBlocks } | null = null;

  /** Works out what is not remembered, under one policy. */
  worker(policy: Policy): Worker {
    if (policy === this.policy) this.shelf.turn();
    else this.shelf = new Shelf();
    this.policy = policy;
    return this.shelf;
  }

  /** All that the last version came to, where this one rests on the same: it was edited in its prose. */
  whole(now: Version): WorkedBlocks | null {
    const { last } = this;
    if (last?.of.policy !== now.policy || last.of.blocks.length !== now.blocks.length) return null;
    if (usesOthers(now, last.worked) || usesOthers(last.of, last.worked)) return null;
    return last.of.blocks.every((block, index) => block === now.blocks[index]) ? last.worked : null;
  }

  keep(of: Version, worked: WorkedBlocks): void {
    this.last = { of, worked };
  }
}

/** What other notes withhold is said where it is first asked for, which may be in prose. */
function usesOthers({ used }: Version, { scopes }: WorkedBlocks): boolean {
  return used.formulary.length > 0 || scopes.some(({ scope }) => scope.uses.length > 0);
}

class Shelf implements Worker {
  private readonly kinds = new Map<string, Map<object, Remembered>>();
  private version = 0;

  /** For the next version: puts away what the last one was not made of. */
  turn(): void {
    for (const kept of this.kinds.values()) {
      for (const [of, { version }] of kept) if (version !== this.version) kept.delete(of);
    }
    this.version += 1;
  }

  do<Of extends object, T>(task: Task<Of, T>, of: Of, around: Lookups, desk: Desk): T {
    const known = this.kinds.get(task.kind)?.get(of);
    const entry = known?.trace.holds(around) ? known : this.worked(task, of, around);
    entry.version = this.version;
    for (const fault of entry.faults) desk.faults.push(fault);
    for (const mention of entry.mentions) desk.mentions.push(mention);
    return entry.result as T;
  }

  private worked<Of extends object, T>({ kind, work }: Task<Of, T>, of: Of, around: Lookups): Remembered {
    const trace = new Trace();
    const desk: Desk = { faults: [], mentions: [] };
    const entry = { trace, ...desk, result: work(of, traced(around, trace), desk), version: this.version };
    const kept = this.kinds.get(kind) ?? new Map<object, Remembered>();
    this.kinds.set(kind, kept);
    if (trace.isLasting) kept.set(of, entry);
    else kept.delete(of);
    return entry;
  }
}
