/** The names that the notes of one scope's `use` lines, and the formulary, give it. */
import type { Particle } from '../../engine/index.ts';
import type { Block, SourceSpan } from '../../markdown/note-text.ts';
import type { Span } from '../../notation/ast.ts';
import type { NoteFault } from '../faults.ts';
import type { Scope } from '../model.ts';
import type { Desk, Reporter } from '../reporter.ts';
import type { Given, NotGiven, Thing, UsedNotes } from './given.ts';

/** What a name stands for that the note has from another; `from` as its path is written. */
export type Imported = { readonly from: string } & (
  | Thing
  /** Given by two notes: `at` the second `use`, where that is said; null between notes of the formulary. */
  | { readonly name: string; readonly kind: 'clash'; readonly other: string; readonly at: SourceSpan | null }
);

export interface Imports {
  get(key: string): Imported | null;
  /** Ions that the substances of used notes declare under that name, in every form. */
  particles(key: string): readonly Particle[];
  keys(): readonly string[];
  /** Whether a name that is not bound is put down to another note. */
  explains(key: string): boolean;
  /** What a name that is not bound is put down to; said once for each name, at the first place. Null: to nothing here. */
  withheld(key: string, span: Span, report: Reporter): SourceSpan | null;
}

export const NO_IMPORTS: Imports = {
  get: () => null,
  particles: () => [],
  keys: () => [],
  explains: () => false,
  withheld: () => null,
};

/** The note's own names win over used ones, and those over the formulary's. */
export function importsOf(scope: Scope, used: UsedNotes, desk: Desk): Imports {
  if (scope.uses.length === 0 && used.formulary.length === 0) return NO_IMPORTS;
  const imports = new ScopeImports(scope, desk);
  for (const { node, block } of scope.uses) {
    const at = block.place((node.kind === 'use' ? node.path : node).span);
    if (node.kind === 'use') imports.use(node.path.text, at, used.of(node.path.text, block.mode === 'alone'));
    else imports.unread(at);
  }
  imports.closeUses();
  for (const { path, given } of used.formulary) imports.take(given, path, null);
  return imports;
}

class ScopeImports implements Imports {
  private readonly bound = new Map<string, Imported>();
  private readonly ions = new Map<string, readonly Particle[]>();
  private readonly lostIons = new Map<string, string>();
  private readonly taken = new Set<Given>();
  /** Names that a `use` line gives: the formulary does not touch them. */
  private settled: ReadonlySet<string> = new Set();
  private readonly said = new Map<string, SourceSpan>();
  /** The first `use` that gives nothing: nobody knows which names it would give. */
  private missing: SourceSpan | null = null;

  constructor(
    private readonly scope: Scope,
    private readonly desk: Desk,
  ) {}

  use(path: string, at: SourceSpan, found: ReturnType<UsedNotes['of']>): void {
    if (!('given' in found)) {
      this.desk.faults.push({ at, fault: useFault(path, found) });
      this.unread(at);
      return;
    }
    if (found.beyond) this.desk.faults.push({ at, fault: { code: 'use-over-limit', path, what: found.beyond } });
    const clashes = this.take(found.given, path, at);
    if (clashes.length === 0) return;
    this.desk.faults.push({ at, fault: { code: 'used-twice', path, clashes } });
  }

  unread(at: SourceSpan): void {
    this.missing ??= at;
  }

  closeUses(): void {
    this.settled = new Set(this.bound.keys());
  }

  /** Gives the names that another note has given before. */
  take(given: Given, from: string, at: SourceSpan | null): readonly { name: string; other: string }[] {
    if (this.taken.has(given)) return [];
    this.taken.add(given);
    const clashes: { name: string; other: string }[] = [];
    for (const [key, thing] of given.names) {
      if (this.scope.names.has(key) || this.settled.has(key)) continue;
      const before = this.bound.get(key);
      const { name } = thing;
      if (before) clashes.push({ name, other: before.from });
      this.bound.set(key, before ? { kind: 'clash', name, from, other: before.from, at } : { ...thing, from });
    }
    for (const [key, particle] of given.ions) this.ions.set(key, [...(this.ions.get(key) ?? []), particle]);
    for (const key of given.lostIons) if (!this.lostIons.has(key)) this.lostIons.set(key, from);
    return clashes;
  }

  get(key: string): Imported | null {
    return this.bound.get(key) ?? null;
  }

  particles(key: string): readonly Particle[] {
    return this.ions.get(key) ?? [];
  }

  keys(): readonly string[] {
    return [...this.bound.keys()];
  }

  explains(key: string): boolean {
    const found = this.bound.get(key);
    if (this.missing || found?.kind === 'withheld' || found?.kind === 'clash') return true;
    return !found && this.lostIons.has(key) && !this.scope.names.has(key);
  }

  withheld(key: string, span: Span, report: Reporter): SourceSpan | null {
    const found = this.bound.get(key);
    const fault = found ? incomplete(found) : this.lostIon(key, report.block, span);
    if (!fault) return found?.kind === 'clash' ? found.at : this.missing;
    const said = this.said.get(key) ?? report.at(span, fault).cause;
    this.said.set(key, said);
    return said;
  }

  private lostIon(key: string, block: Block, { start, end }: Span): NoteFault | null {
    const from = this.lostIons.get(key);
    if (from === undefined || this.scope.names.has(key)) return null;
    return { code: 'incomplete-import', name: block.text.slice(start, end), from, why: 'no-results', other: null };
  }
}

/** Null for what is said elsewhere, and for what is bound. */
function incomplete(found: Imported): NoteFault | null {
  const { name, from } = found;
  if (found.kind === 'withheld') return { code: 'incomplete-import', name, from, why: found.why, other: null };
  if (found.kind !== 'clash' || found.at) return null;
  return { code: 'incomplete-import', name, from, why: 'clash', other: found.other };
}

function useFault(path: string, found: NotGiven): NoteFault {
  if ('circle' in found) return { code: 'circular-use', path, back: found.circle };
  switch (found.why) {
    case 'absolute':
    case 'address':
    case 'above':
    case 'link':
    case 'no-workspace':
      return { code: 'outside-workspace', path, why: found.why };
    case 'too-many':
    case 'too-deep':
    case 'too-large':
      return { code: 'use-over-limit', path, what: found.why };
    default:
      return { code: 'missing-note', path, why: found.why };
  }
}
