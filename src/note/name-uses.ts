/** Where the names that a note gives stand: in headers, lines, labels, links and marks. For finding and renaming them. */
import type { Block, BoundText } from '../markdown/note-text.ts';
import type { FluidNode, GiveNode, PartNode, Span, Statement, SubjectNode, WhatIfNode } from '../notation/ast.ts';
import { keyOf, parseBlock, parseFluid } from '../notation/index.ts';
import { BoundBlock } from './bound-block.ts';
import { boundTarget } from './bound-target.ts';
import type { Entity, NameUse, Scope } from './model.ts';
import { ObservableReader } from './observable-reader.ts';
import type { OwnSubstances } from './own-substances.ts';
import type { Policy } from './policy.ts';
import { Reporter } from './reporter.ts';
import type { ReadBlock } from './scope.ts';
import { changeIn } from './what-if/change.ts';

/**
 * Every place of every name that is bound in a scope, in the order of the note. Looked for in whatever could be read,
 * whether or not anything could be worked out of it; a name that was given twice is bound to nothing and has none.
 * `bound`: the prose that is bound to the scope.
 */
export function nameUses(
  blocks: readonly ReadBlock[],
  scope: Scope,
  around: { readonly own: OwnSubstances; readonly policy: Policy },
  bound: BoundText | null,
): readonly NameUse[] {
  const finders = new Map(blocks.map(({ block }) => [block, new BlockNames(block, scope, around)]));
  for (const entity of scope.entities) finders.get(entity.block)?.header(entity);
  for (const { block, syntax } of blocks) finders.get(block)?.statements(syntax.statements);
  const inProse = bound ? proseNames(bound, (block) => new BlockNames(block, scope, around)) : [];
  return [...finders.values()]
    .flatMap(({ uses }) => uses)
    .concat(inProse)
    .sort((a, b) => a.at.start - b.at.start);
}

/** Many links may refer to one definition. A target with marks of Markdown in it is left out: its parts have no place. */
function proseNames({ links, tables }: BoundText, names: (block: Block) => BlockNames): readonly NameUse[] {
  const targets = new Map(links.map((link) => [link.targetSpan.start, boundTarget(link)]));
  const inTargets = [...targets.values()].flatMap(({ name, observable, isPlaced }) => {
    if (!isPlaced) return [];
    const [named, asked] = [names(name), observable && names(observable)];
    named.subjectName({ start: 0, end: name.text.length });
    if (observable) asked?.asked(keyOf(observable.text), { start: 0, end: observable.text.length });
    return [...named.uses, ...(asked?.uses ?? [])].map((use) => ({ ...use, inTarget: true }));
  });
  const inMarks = tables.flatMap(({ statement }) => {
    const found = names(BoundBlock.at(statement.text, statement.start));
    found.statements(parseBlock(statement.text).statements);
    return found.uses;
  });
  return [...inTargets, ...inMarks];
}

class BlockNames {
  readonly uses: NameUse[] = [];
  private readonly reader: ObservableReader;

  constructor(
    private readonly block: Block,
    private readonly scope: Scope,
    private readonly around: { readonly own: OwnSubstances; readonly policy: Policy },
  ) {
    this.reader = new ObservableReader(block, new Reporter(block, { faults: [], mentions: [] }), around);
  }

  header(entity: Entity): void {
    const { name } = entity;
    if (name && this.entity(name.key) === entity) this.use(name.span, { kind: 'entity', entity }, true);
  }

  statements(statements: readonly Statement[]): void {
    for (const node of statements) this.statement(node);
  }

  private statement(node: Statement): void {
    switch (node.kind) {
      case 'addition':
        this.fluid(node.fluid);
        if (node.vehicle) this.fluid(node.vehicle.fluid);
        break;
      case 'make-up':
      case 'exchange':
        this.fluid(node.fluid);
        break;
      case 'give':
        this.order(node);
        break;
      case 'property':
        for (const { words } of node.items) this.asked(words.key, words.span);
        break;
      case 'gives':
        for (const { ion } of node.ions) this.ion(ion.key, ion.span, true);
        break;
      case 'claim':
      case 'target':
        this.subject(node.subject);
        break;
      case 'show':
        for (const item of node.items) this.subject(item);
        break;
      case 'what-if':
        this.changed(node);
        for (const item of node.items) this.subject(item);
        break;
      case 'compare':
        for (const fluid of node.fluids) this.fluid(fluid);
        for (const words of node.observables) this.asked(words.key, words.span);
        break;
    }
  }

  private order({ fluid, rateOf, clauses }: GiveNode): void {
    this.fluid(fluid);
    if (rateOf) this.asked(rateOf.key, rateOf.span);
    for (const clause of clauses) {
      if (clause.kind === 'patient' || clause.kind === 'after') this.named(clause.name.key, clause.name.span);
    }
  }

  private fluid({ parts }: FluidNode): void {
    for (const part of parts) this.part(part);
  }

  private part({ words, as }: PartNode): void {
    if (!as) this.named(words.key, words.span);
    else {
      this.ion(words.key, words.span, false);
      this.named(as.key, as.span);
    }
  }

  /** The name before the figure that is taken otherwise. */
  private changed({ change }: WhatIfNode): void {
    const name = changeIn(this.block.text, change)?.name;
    if (!name) return;
    const written = this.block.text.slice(name.start, name.end).trimEnd();
    this.named(keyOf(written), { start: name.start, end: name.start + written.length });
  }

  /** A name or a fluid, and what is asked of it. */
  private subject(node: SubjectNode): void {
    const found = this.reader.split(node);
    if (!found) return;
    const { rest } = found;
    const start = rest?.end ?? node.span.start;
    this.asked(keyOf(this.block.text.slice(start, node.span.end)), { start, end: node.span.end });
    if (rest) this.subjectName(rest);
  }

  /** A name, or a fluid written out. */
  subjectName(rest: Span): void {
    const written = this.block.text.slice(rest.start, rest.end);
    if (this.named(keyOf(written), { start: rest.start, end: rest.start + written.trimEnd().length })) return;
    const fluid = parseFluid(this.block.text, rest);
    if (fluid) this.fluid(fluid);
  }

  /** A substance or an ion of the note's own that is asked for. */
  asked(key: string, span: Span): void {
    if (this.around.own.substance(key)) this.named(key, span);
    else this.ion(key, span, false);
  }

  private named(key: string, span: Span): boolean {
    const entity = this.entity(key);
    if (entity) this.use(span, { kind: 'entity', entity }, false);
    return entity !== null;
  }

  private ion(key: string, span: Span, gives: boolean): void {
    if (!this.around.own.ion(key)) return;
    this.use(span, { kind: 'ion', key }, gives);
  }

  private entity(key: string): Entity | null {
    const found = this.scope.names.get(key);
    return found && found !== 'duplicate' ? found : null;
  }

  private use(span: Span, of: NameUse['of'], gives: boolean): void {
    this.uses.push({ at: this.block.toSource(span), of, gives, inTarget: false });
  }
}
