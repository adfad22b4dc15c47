/**
 * The notes that a note uses, those that they use, and so on: found step by step from what has been read so far, so that
 * the outcome is the same in whatever order notes are read.
 */
import { type Beyond, type Refusal, refusalByShape, type Unread, USE_LIMITS } from './refusal.ts';
import { type FoundNote, type Uses, usesOf } from './uses.ts';

/** The note that `path` names, as it is written in the note or policy at `from`. */
export interface Ask {
  readonly from: string;
  readonly path: string;
}

export type Answer = FoundNote | { readonly why: Unread };

/** What a path leads to; `beyond`: a bound that was met behind it, so that not all of it is read. */
export type Target = { readonly at: string; readonly beyond: Beyond | null } | { readonly why: Refusal };

/** A note that is used. */
export interface ClosureNote {
  readonly note: FoundNote;
  /** Of its blocks that share their names. */
  readonly targets: ReadonlyMap<string, Target>;
  /** Those of its paths that lead back to it, each with the paths of the way back. */
  readonly circles: ReadonlyMap<string, readonly string[]>;
  /** Whether the formulary is for it: the notes of the formulary, and those that they use, see none. */
  readonly seesFormulary: boolean;
}

/** Everything a note may draw on, as it stood at one moment. */
export interface Closure {
  readonly at: string;
  /** What its own `use` lines lead to, by path. */
  readonly targets: ReadonlyMap<string, Target>;
  /** What the formulary's paths lead to, in their order. */
  readonly formulary: ReadonlyMap<string, Target>;
  /** By `at`; the note itself among them. */
  readonly notes: ReadonlyMap<string, ClosureNote>;
}

/** The paths of a policy's formulary, and where the policy lies. */
export interface FormularyPaths {
  readonly at: string;
  readonly paths: readonly string[];
}

export type Walked =
  | { readonly done: true; readonly closure: Closure }
  /** What must be read before more can be said. */
  | { readonly done: false; readonly wanted: readonly Ask[] };

/** `uses`: of the root, where that is read already. */
export function walk(
  root: FoundNote,
  formulary: FormularyPaths | null,
  known: (ask: Ask) => Answer | null,
  uses: Uses = usesOf(root),
): Walked {
  const walker = new Walker(root, uses, formulary, known);
  walker.walk();
  return walker.wanted.length > 0 ? { done: false, wanted: walker.wanted } : { done: true, closure: walker.closure() };
}

/** At most so many notes are asked for at a time once there are as many as may be. */
const FEW = 8;

interface Node {
  readonly note: FoundNote;
  readonly depth: number;
  readonly targets: Map<string, Target>;
  /** The path of the note itself, or of the formulary, by which it was first reached. */
  readonly entry: Entry | null;
}

interface Entry {
  readonly targets: Map<string, Target>;
  readonly path: string;
}

interface Step {
  readonly from: string;
  readonly path: string;
  readonly depth: number;
  readonly targets: Map<string, Target>;
  readonly entry: Entry | null;
}

class Walker {
  readonly wanted: Ask[] = [];
  private readonly nodes = new Map<string, Node>();
  private readonly targets = new Map<string, Target>();
  private readonly formularyTargets = new Map<string, Target>();
  private readonly steps: Step[] = [];

  constructor(
    private readonly root: FoundNote,
    private readonly uses: Uses,
    private readonly formulary: FormularyPaths | null,
    private readonly known: (ask: Ask) => Answer | null,
  ) {}

  /** Breadth first, so that a note counts as deep as its shortest way is. */
  walk(): void {
    const { root, formulary } = this;
    const { shared, alone } = this.uses;
    this.nodes.set(root.at, { note: root, depth: 0, targets: new Map(), entry: null });
    this.add(root.at, [...new Set([...shared, ...alone])], 0, this.targets, null);
    if (formulary) this.add(formulary.at, [...new Set(formulary.paths)], 0, this.formularyTargets, null);
    for (let next = 0; next < this.steps.length; next++) {
      const step = this.steps[next]!;
      const target = this.step(step);
      if (target) step.targets.set(step.path, target);
      else if (this.wanted.length >= Math.max(FEW, USE_LIMITS.notes - this.nodes.size)) return;
    }
  }

  closure(): Closure {
    const { root, targets, formularyTargets } = this;
    const own = this.nodes.get(root.at)!;
    for (const path of this.uses.shared) own.targets.set(path, targets.get(path)!);
    const ofFormulary = this.behind([...formularyTargets.values()]);
    const notes = new Map<string, ClosureNote>();
    for (const [at, node] of this.nodes) {
      const circles = new Map<string, readonly string[]>();
      for (const [path, target] of node.targets) {
        const back = 'at' in target ? this.wayFrom(target.at, at) : null;
        if (back) circles.set(path, back);
      }
      notes.set(at, { note: node.note, targets: node.targets, circles, seesFormulary: !ofFormulary.has(at) });
    }
    return { at: root.at, targets, formulary: formularyTargets, notes };
  }

  /** Null when it has to be read first. */
  private step({ from, path, depth, targets, entry }: Step): Target | null {
    const shape = refusalByShape(path);
    if (shape) return { why: shape };
    const answer = this.known({ from, path });
    if (!answer) {
      this.wanted.push({ from, path });
      return null;
    }
    if ('why' in answer) return answer;
    if (answer.text.length > USE_LIMITS.size) return { why: 'too-large' };
    if (!this.nodes.has(answer.at)) {
      const beyond = this.bound(depth);
      if (beyond) return this.refuse(beyond, entry);
      const of = entry ?? { targets, path };
      const node: Node = { note: answer, depth, targets: new Map(), entry: of };
      this.nodes.set(answer.at, node);
      targets.set(path, { at: answer.at, beyond: null });
      this.add(answer.at, usesOf(answer).shared, depth, node.targets, of);
    }
    return targets.get(path) ?? { at: answer.at, beyond: null };
  }

  private add(
    from: string,
    paths: readonly string[],
    depth: number,
    targets: Map<string, Target>,
    entry: Entry | null,
  ): void {
    for (const [index, path] of paths.entries()) {
      if (index < USE_LIMITS.notes) this.steps.push({ from, path, depth: depth + 1, targets, entry });
      else targets.set(path, this.refuse('too-many', entry));
    }
  }

  /** The note itself is none of those that it uses. */
  private bound(depth: number): Beyond | null {
    if (depth > USE_LIMITS.depth) return 'too-deep';
    return this.nodes.size > USE_LIMITS.notes ? 'too-many' : null;
  }

  /** A bound that is met further on is said where the way to it begins. */
  private refuse(why: Beyond, entry: Entry | null): Target {
    const begun = entry?.targets.get(entry.path);
    if (entry && begun && 'at' in begun) entry.targets.set(entry.path, { ...begun, beyond: begun.beyond ?? why });
    return { why };
  }

  private behind(targets: readonly Target[]): ReadonlySet<string> {
    const found = new Set<string>();
    const open = [...targets];
    for (let next = 0; next < open.length; next++) {
      const target = open[next]!;
      if (!('at' in target) || found.has(target.at)) continue;
      found.add(target.at);
      open.push(...this.nodes.get(target.at)!.targets.values());
    }
    return found;
  }

  /** The paths of the shortest way from one note to another; none where they are the same, null where there is no way. */
  private wayFrom(start: string, end: string): readonly string[] | null {
    const ways = new Map<string, readonly string[]>([[start, []]]);
    for (const [at, way] of ways) {
      if (at === end) return way;
      for (const [path, target] of this.nodes.get(at)!.targets) {
        if ('at' in target && !ways.has(target.at)) ways.set(target.at, [...way, path]);
      }
    }
    return null;
  }
}
