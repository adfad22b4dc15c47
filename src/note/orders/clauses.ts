/** The clauses of an order: to whom, by which route, when, through what. */
import { type Decimal, findRoute, isTime, nearNames, type Route, routeNames, ZERO } from '../../engine/index.ts';
import type { SourceSpan } from '../../markdown/note-text.ts';
import type { Clause, GiveNode, Name, QuantityNode, Span } from '../../notation/ast.ts';
import type { Located } from '../faults.ts';
import type { Names } from '../fluids.ts';
import type { Lookups } from '../lookups.ts';
import type { Entity } from '../model.ts';
import type { WorkedPatient } from '../order-model.ts';
import { type Reporter, textOf } from '../reporter.ts';
import { endOf } from './schedule.ts';

type Of<K extends Clause['kind']> = Extract<Clause, { kind: K }>;

/** What an order's clauses look names up in. */
export interface ClauseSurroundings {
  readonly scope: Names;
  readonly patients: Lookups['patients'];
  /** Other orders, worked out; none that could not be read, or leads back to this one. */
  readonly orders: Lookups['orders'];
}

export class ClauseReader {
  /** The first place at fault, or null. */
  cause: SourceSpan | null = null;

  constructor(
    private readonly node: GiveNode,
    private readonly around: ClauseSurroundings,
    private readonly report: Reporter,
  ) {}

  patient(): WorkedPatient | null {
    const name = this.clause('patient')?.name;
    const entity = name && this.named(name, 'patient');
    if (!entity) return null;
    this.report.mention(name.span, { kind: 'patient', entity });
    const patient = this.around.patients.get(entity) ?? null;
    if (patient?.cause) this.cause ??= patient.cause;
    return patient;
  }

  route(): Route | null {
    const words = this.clause('route')?.route;
    if (!words) return null;
    const route = findRoute(words.key);
    if (!route) {
      this.fault(words.span, { code: 'unknown-route', found: words.text, near: nearNames(words.key, routeNames()) });
    }
    return route;
  }

  /** Hours after the first order: as written, or at the end of the order that it follows. */
  start(): Decimal {
    const from = this.clause('from')?.time;
    if (from) return this.time(from) ?? ZERO;
    const name = this.clause('after')?.name;
    const entity = name && this.named(name, 'give');
    if (!entity) return ZERO;
    this.report.mention(name.span, { kind: 'order', entity });
    const before = this.around.orders.get(entity);
    if (!before || before.cause) this.cause ??= before?.cause ?? entity.spoiledBy ?? this.report.place(name.span);
    else if (before.endless) this.fault(name.span, { code: 'after-endless', found: name.text });
    return before ? endOf(before.runs) : ZERO;
  }

  /** h, above zero. */
  duration(): QuantityNode | null {
    return this.clause('duration')?.time ?? null;
  }

  every(): Decimal | null {
    const every = this.clause('every')?.time;
    return every ? this.positive(every, this.time(every)) : null;
  }

  drops(): Decimal | null {
    const drops = this.clause('set')?.drops;
    if (!drops) return null;
    const { unit } = drops.unit;
    if (unit.dimension.over !== 'drops' || unit.dimension.under.join() !== 'volume') {
      this.cause ??= this.report.dimension(drops, 'drops', 'a set', ['drops/mL']).cause;
      return null;
    }
    return this.positive(drops, drops.number.value.times(unit.factor));
  }

  monitored(): boolean {
    return this.clause('monitored') !== null;
  }

  time(quantity: QuantityNode): Decimal | null {
    const { unit } = quantity.unit;
    if (isTime(unit)) return quantity.number.value.times(unit.factor);
    this.cause ??= this.report.dimension(quantity, 'order-time', 'an order', ['min', 'h', 'd']).cause;
    return null;
  }

  positive(quantity: QuantityNode, value: Decimal | null): Decimal | null {
    if (!value?.lte(0)) return value;
    this.fault(quantity.span, { code: 'fluid', problem: 'not-above-zero', found: textOf(quantity), carriers: [] });
    return null;
  }

  /** Something that an order has no place for. */
  unexpected(span: Span): void {
    const found = this.report.block.text.slice(span.start, span.end);
    this.fault(span, { code: 'syntax', span, problem: 'unexpected-rest', found });
  }

  fault(span: Span, fault: Located['fault']): void {
    const { cause } = this.report.at(span, fault);
    this.cause ??= cause;
  }

  private clause<K extends Clause['kind']>(kind: K): Of<K> | null {
    return (this.node.clauses.find((clause) => clause.kind === kind) as Of<K> | undefined) ?? null;
  }

  private named(name: Name, kind: 'patient' | 'give'): Entity | null {
    const found = this.around.scope.names.get(name.key);
    if (found && found !== 'duplicate' && found.kind === kind) return found;
    if (found === 'duplicate') {
      this.cause ??= this.report.place(name.span);
      return null;
    }
    const known = this.around.scope.entities.filter((entity) => entity.kind === kind && entity.name);
    // A name that is already something else is reported where it is given.
    const refused = known.find((entity) => entity.name?.key === name.key);
    if (refused && !found) {
      this.cause ??= refused.spoiledBy;
      return null;
    }
    const near = nearNames(
      name.key,
      known.map((entity) => (entity.name as Name).key),
    );
    this.fault(
      name.span,
      found
        ? { code: 'wrong-kind', found: name.text, wanted: kind, is: found.kind }
        : { code: 'unknown-name', found: name.text, near, as: kind },
    );
    return null;
  }
}
