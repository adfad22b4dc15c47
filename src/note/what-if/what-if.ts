/** Results under other figures than the one written: what depends on it is worked out anew by the same engine. */
import { type Decimal, nearAmong } from '../../engine/index.ts';
import type { Block, SourceSpan } from '../../markdown/note-text.ts';
import type { QuantityNode, WhatIfNode } from '../../notation/ast.ts';
import { keyOf } from '../../notation/index.ts';
import { Choices } from '../choices.ts';
import { Asker } from '../claims.ts';
import type { Located } from '../faults.ts';
import type { Lookups } from '../lookups.ts';
import { ANEW } from '../memo.ts';
import { workMixture } from '../mixture.ts';
import type { Entity, Scope, Shown, WorkedMixture } from '../model.ts';
import { workingOrder } from '../order.ts';
import { Bedside } from '../orders/bedside.ts';
import { type Desk, Reporter } from '../reporter.ts';
import type { ScopeFluids } from '../scope-fluids.ts';
import { type Changed, changeIn } from './change.ts';

/** So many are worked out of one note, since each goes through what depends on its figure again. */
export const MOST_WHAT_IFS = 20;

export interface WhatIfRow {
  /** The figure taken; null where none is written, and none is taken. */
  readonly value: QuantityNode | null;
  /** Whether the note itself says so. */
  readonly asWritten: boolean;
  /** One for each column; null where nothing comes out. */
  readonly answers: readonly (Shown | null)[];
  /** What stands in the way of results under this figure. */
  readonly fault: Located | null;
  /** The mixture that is changed, as it then is. */
  readonly mixture: WorkedMixture | null;
}

/** A `what if` line that was understood. Its rows are worked out when they are first asked for. */
export class WhatIf {
  /** `weight`, as written. */
  readonly figure: string;
  readonly #rows: () => readonly WhatIfRow[];
  #known: readonly WhatIfRow[] | null = null;

  constructor(
    readonly node: WhatIfNode,
    readonly block: Block,
    /** Whose figure it is. */
    readonly entity: Entity,
    figure: string,
    rows: () => readonly WhatIfRow[],
  ) {
    this.figure = figure;
    this.#rows = rows;
  }

  /** As written first, unless one of the figures is the one that is written. */
  get rows(): readonly WhatIfRow[] {
    this.#known ??= this.#rows();
    return this.#known;
  }
}

/** Null when its fault is reported, or what it is about is withheld. */
export function workWhatIf(node: WhatIfNode, block: Block, open: Entity | null, plain: Worked): WhatIf | null {
  const { fluids, bedside, desk } = plain;
  const report = new Reporter(block, desk);
  const changed = changeIn(block.text, node.change);
  if (!changed) {
    report.at(node.change.span, { code: 'misplaced', where: 'no-figure-to-change' });
    return null;
  }
  const entity = entityOf(changed, block, open, fluids, report);
  if (!entity) return null;
  const { figure, words } = changed;
  const written = figure.of === entity.kind ? figure.written(entity) : undefined;
  if (written === undefined || written === 'several') {
    const where = written === 'several' ? 'several-withdrawals' : 'no-figure-to-change';
    report.at(words.span, { code: 'misplaced', where });
    return null;
  }
  const unfit = node.values.filter((value) => !figure.suits(value.unit.unit));
  for (const value of unfit) report.dimension(value, figure.wanted, words.text, figure.fits);
  // Faults of what is asked are the line's own; those of a figure are told in its row.
  const now = new Asker(block, asked(bedside), desk).answers(node.items, entity);
  const withheld =
    (fluids.worked.get(entity) ?? bedside.patients.get(entity) ?? bedside.orders.get(entity))?.cause ?? null;
  if (unfit.length > 0 || withheld || now.every((answer) => answer === null)) return null;
  const rows = () => {
    const before = new Set(withheldIn(plain).map((withheld) => withheld.entity.header));
    const told = node.values.map((value) => {
      const taken = figure.taken(entity, value, words);
      const anew = worked(fluids, entity, taken);
      const broken = withheldIn(anew).find((withheld) => !before.has(withheld.entity.header));
      const fault = broken ? anew.desk.faults.find(({ at }) => lies(at, broken.cause)) : null;
      return { ...rowOf(node, block, taken, anew), value, asWritten: isSame(value, written), fault: fault ?? null };
    });
    if (told.some(({ asWritten }) => asWritten)) return told;
    return [{ ...rowOf(node, block, entity, plain), value: written, asWritten: true, fault: null }, ...told];
  };
  return new WhatIf(node, block, entity, words.text, rows);
}

function entityOf(
  { name, words }: Changed,
  block: Block,
  open: Entity | null,
  { scope }: ScopeFluids,
  report: Reporter,
): Entity | null {
  if (!name) {
    if (!open) report.at(words.span, { code: 'misplaced', where: 'question-without-subject' });
    return open;
  }
  const written = block.text.slice(name.start, name.end).trimEnd();
  const span = { start: name.start, end: name.start + written.length };
  const found = scope.names.get(keyOf(written));
  if (found && found !== 'duplicate') {
    if (found.kind === 'patient') report.mention(span, { kind: 'patient', entity: found });
    else if (found.kind === 'give') report.mention(span, { kind: 'order', entity: found });
    else if (found.kind !== 'substance') report.mention(span, { kind: 'mixture', entity: found });
    return found;
  }
  // A name given twice is reported where it is given.
  if (!found)
    report.at(span, {
      code: 'unknown-name',
      found: written,
      near: nearAmong(keyOf(written), [...scope.names.keys()]),
      as: 'named',
    });
  return null;
}

/** A scope worked out, and where its faults went. */
export interface Worked {
  readonly fluids: ScopeFluids;
  readonly bedside: Bedside;
  readonly desk: Desk;
}

/** The scope with one entity otherwise than written; mixtures are worked out again only where one of them is changed. */
function worked(before: ScopeFluids, entity: Entity, taken: Entity): Worked {
  const desk: Desk = { faults: [], mentions: [] };
  const scope = withEntity(before.scope, entity, taken);
  const mixtures = new Map(before.worked);
  const fluids = { ...before, scope, worked: mixtures };
  if (entity.kind === 'mixture') {
    for (const mixture of workingOrder(scope).ready) mixtures.set(mixture, workMixture(mixture, fluids, desk));
  }
  return { fluids, bedside: new Bedside(fluids, ANEW, desk), desk };
}

function withEntity(scope: Scope, entity: Entity, taken: Entity): Scope {
  const names = new Map(scope.names);
  if (entity.name && names.get(entity.name.key) === entity) names.set(entity.name.key, taken);
  return { ...scope, names, entities: scope.entities.map((other) => (other === entity ? taken : other)) };
}

function rowOf(
  { items }: WhatIfNode,
  block: Block,
  entity: Entity,
  { fluids, bedside }: Worked,
): Pick<WhatIfRow, 'answers' | 'mixture'> {
  const asker = new Asker(block, asked(bedside), { faults: [], mentions: [] });
  return { answers: asker.answers(items, entity), mixture: fluids.worked.get(entity) ?? null };
}

/** Everything that has no results, and where it is at fault. */
function withheldIn({ fluids, bedside }: Worked): readonly { readonly entity: Entity; readonly cause: SourceSpan }[] {
  return [...fluids.worked.values(), ...bedside.allPatients, ...bedside.allOrders].flatMap(({ entity, cause }) =>
    cause ? [{ entity, cause }] : [],
  );
}

function lies(inner: SourceSpan, outer: SourceSpan): boolean {
  return inner.start >= outer.start && inner.end <= outer.end;
}

function asked({ around }: Bedside): Lookups & { readonly choices: Choices } {
  return { ...around, choices: new Choices() };
}

function isSame(value: QuantityNode, written: QuantityNode | null): boolean {
  return written !== null && baseOf(value).eq(baseOf(written));
}

function baseOf({ number, unit }: QuantityNode): Decimal {
  return number.value.times(unit.unit.factor);
}
