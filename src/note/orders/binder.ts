/** Orders: what `give` says, bound to fluids and patients and set out in time. */
import { atMost, type Decimal, times } from '../../engine/index.ts';
import type { GiveNode, QuantityNode } from '../../notation/ast.ts';
import { Choices } from '../choices.ts';
import { type BoundLiquid, FluidBinder, type Names, nameOf } from '../fluids.ts';
import { halfUnit } from '../judge.ts';
import type { Lookups } from '../lookups.ts';
import type { Task, Worker } from '../memo.ts';
import type { Assumption, Entity } from '../model.ts';
import type { WorkedOrder } from '../order-model.ts';
import { type Desk, Reporter } from '../reporter.ts';
import { ClauseReader } from './clauses.ts';
import { DoseReader, type Told } from './dose.ts';
import { type Figures, type Resolved, resolve } from './figures.ts';
import { DAY, MOST_RUNS, runsOf } from './schedule.ts';

/** Every order of a scope, in the order of the note; one that follows another is worked out after it. */
export function workOrders(
  before: Omit<Lookups, 'orders'>,
  worker: Worker,
  desk: Desk,
): ReadonlyMap<Entity, WorkedOrder> {
  const worked = new Map<Entity, WorkedOrder>();
  const around: Lookups = { ...before, orders: worked };
  for (const entity of around.scope.entities) {
    if (!entity.give || worked.has(entity)) continue;
    if (!followed(entity.give, around.scope)) {
      worked.set(entity, worker.do(ORDER, entity, around, desk));
      continue;
    }
    // An order, the one it follows, and so on: from the last of them on each is worked out after what it follows.
    const chain = new Set<Entity>();
    let next: Entity | null = entity;
    while (next?.give && !worked.has(next) && !chain.has(next)) {
      chain.add(next);
      next = followed(next.give, around.scope);
    }
    const orders = [...chain];
    if (next && chain.has(next)) circle(orders.slice(orders.indexOf(next)), desk);
    for (const order of orders.reverse()) {
      worked.set(order, worker.do(ORDER, order, around, desk));
    }
  }
  return worked;
}

const ORDER: Task<Entity, WorkedOrder> = {
  kind: 'order',
  work: (entity, around, desk) => new OrderBinder(entity, entity.give as GiveNode, around, desk).work(),
};

/** The order after which one starts, if it names one. */
function followed({ clauses }: GiveNode, { names }: Names): Entity | null {
  const after = clauses.find((clause) => clause.kind === 'after');
  const entity = after?.kind === 'after' ? names.get(after.name.key) : null;
  return entity && entity !== 'duplicate' && entity.kind === 'give' ? entity : null;
}

function circle(orders: readonly Entity[], desk: Desk): void {
  const [first] = orders;
  if (!first) return;
  const names = orders.map(({ name }) => name?.text ?? '');
  new Reporter(first.block, desk).at(first.name?.span ?? first.header, { code: 'circular-mixture', names });
}

/** An order's own figures, each as written or null. */
interface Written {
  readonly amount: Told | null;
  readonly rate: Told | null;
  readonly duration: Decimal | null;
  readonly every: Decimal | null;
  readonly count: Decimal | null;
  readonly start: Decimal;
}

class OrderBinder {
  private readonly report: Reporter;
  private readonly binder: FluidBinder;
  private readonly clauses: ClauseReader;
  private readonly assumptions: Assumption[] = [];

  constructor(
    private readonly entity: Entity,
    private readonly node: GiveNode,
    private readonly around: Lookups,
    desk: Desk,
  ) {
    this.report = new Reporter(entity.block, desk);
    this.binder = new FluidBinder({ choices: new Choices(), ...around }, this.report);
    this.clauses = new ClauseReader(this.node, around, this.report);
  }

  work(): WorkedOrder {
    const { node, clauses, entity } = this;
    clauses.cause = entity.spoiledBy;
    const fluid = this.fluid(node);
    const dropsPerMl = clauses.drops();
    for (const { tolerance } of measuredOf(node)) if (tolerance) clauses.unexpected(tolerance.span);
    const base: WorkedOrder = {
      entity,
      node,
      name: entity.name?.text ?? '',
      fluid: fluid?.name ?? nameOf(node.fluid),
      mixture: fluid && this.mixtureOf(node),
      patient: clauses.patient(),
      route: clauses.route(),
      monitored: clauses.monitored(),
      state: 'incomplete',
      cause: null,
      perMl: null,
      contents: null,
      rate: null,
      duration: null,
      endless: false,
      runs: [],
      bags: null,
      dose: null,
      dropsPerMl,
      assumptions: this.assumptions,
    };
    const start = clauses.start();
    const read = fluid ? this.read(node, fluid, base, start) : null;
    const found = read && !clauses.cause ? this.resolved(read, fluid as BoundLiquid) : null;
    const done = found && read ? this.set(base, fluid as BoundLiquid, read, found) : null;
    if (done && !clauses.cause) return done;
    return { ...base, cause: clauses.cause ?? this.report.place(entity.header) };
  }

  private fluid(node: GiveNode): BoundLiquid | null {
    const bound = this.binder.fluid(node.fluid);
    if (!bound.ok) {
      this.clauses.cause ??= bound.cause;
      return null;
    }
    if (bound.kind === 'liquid') return bound;
    const { span } = node.amount ?? node.rate ?? bound.words;
    this.clauses.fault(span, { code: 'volume-basis-missing', found: bound.words.text });
    return null;
  }

  private mixtureOf({ fluid }: GiveNode): WorkedOrder['mixture'] {
    const own = fluid.parts.length === 1 ? this.around.scope.names.get(fluid.parts[0].words.key) : null;
    return (own && own !== 'duplicate' && this.around.worked.get(own)) || null;
  }

  private read(node: GiveNode, fluid: BoundLiquid, { patient, dropsPerMl }: WorkedOrder, start: Decimal): Written {
    const { clauses } = this;
    const reader = new DoseReader(node, fluid, patient, dropsPerMl, this.around, this.report);
    const taken = (quantity: QuantityNode | null, read: ReturnType<DoseReader['amount']> | null): Told | null => {
      if (!quantity || !read) return null;
      if (read.ok) return clauses.positive(quantity, read.value) ? read : null;
      clauses.cause ??= read.cause;
      return null;
    };
    const amount = taken(node.amount, node.amount && reader.amount(node.amount));
    const rate = taken(node.rate, node.rate && reader.rate(node.rate));
    const time = clauses.duration();
    const duration = time && clauses.positive(time, clauses.time(time));
    const every = clauses.every();
    return { amount, rate, duration, every, count: this.count(node, every !== null, fluid), start };
  }

  private count(node: GiveNode, repeated: boolean, { recipe }: BoundLiquid): Decimal | null {
    const { count, amount, fluid } = node;
    if (!count) return null;
    const problem = { carriers: [], found: fluid.parts[0].words.text } as const;
    if (!count.number) {
      this.clauses.fault(count.span, { code: 'misplaced', where: 'unknown-in-order' });
      return null;
    }
    if (!amount && !recipe)
      this.clauses.fault(count.span, { code: 'fluid', problem: 'recipes-of-no-mixture', ...problem });
    const { value } = count.number;
    if (value.lte(0) || (repeated && !value.isInteger())) {
      this.clauses.fault(count.span, { code: 'fluid', problem: 'no-count', carriers: [], found: count.number.text });
      return null;
    }
    return value;
  }

  /** Amount, rate and time of one run. */
  private resolved(written: Written, { recipe }: BoundLiquid): Extract<Resolved, { ok: true }>['figures'] | null {
    const { amount, rate, duration, every, count } = written;
    const { node } = this;
    const whole = recipe?.volume ?? null;
    const one = amount?.value ?? (count ? whole : null);
    // Without ‘every’ the time and the rate are those of all of it together.
    const together = count && !every ? count : null;
    if (together && duration) this.assumptions.push({ kind: 'together', count: together });
    const volume = one && together ? one.times(together) : one;
    const figures: Figures = { volume, rate: rate?.value ?? null, duration };
    const margin = (quantity: QuantityNode | null, value: Decimal | null) =>
      quantity && value && !quantity.number.value.isZero()
        ? value.times(halfUnit(quantity.number)).div(quantity.number.value.abs())
        : null;
    const margins = {
      rate: margin(node.rate, figures.rate),
      duration: margin(this.clauses.duration(), duration),
    };
    const found = resolve(figures, margins, whole);
    if (found.ok) {
      if (!amount && !count && whole && found.figures.volume?.eq(whole))
        this.assumptions.push({ kind: 'whole-recipe' });
      return found.figures;
    }
    if (found.why === 'nothing') this.clauses.fault(node.fluid.span, { code: 'order-without-amount', repeated: false });
    else this.clauses.fault((node.rate as QuantityNode).span, { code: 'rate-mismatch', ...mismatch(found.figures) });
    return null;
  }

  private set(
    base: WorkedOrder,
    { perMl, recipe }: BoundLiquid,
    { start, every, count, rate: told, amount }: Written,
    { volume, rate, duration }: Extract<Resolved, { ok: true }>['figures'],
  ): WorkedOrder | null {
    const { node } = this;
    if (volume === null && every) {
      this.clauses.fault(node.fluid.span, { code: 'order-without-amount', repeated: true });
      return null;
    }
    const endless = volume === null || (every !== null && count === null);
    const oneRun = volume ?? (rate as Decimal).times(DAY);
    const pattern = {
      start,
      duration: volume === null ? DAY : duration,
      every,
      count: count?.toNumber() ?? null,
      volume: oneRun,
    };
    const runs = runsOf(pattern, perMl);
    if (!runs) {
      const { span } = node.count ?? node;
      this.clauses.fault(span, { code: 'over-limit', span, what: 'runs', limit: MOST_RUNS });
      return null;
    }
    if (every && duration && !atMost(duration, every)) {
      this.clauses.fault(node.span, { code: 'runs-overlap', duration, every });
      return null;
    }
    const total = oneRun.times(runs.length);
    if (endless) this.assumptions.push({ kind: 'endless' });
    else if (!duration) this.assumptions.push({ kind: 'at-once' });
    if (!base.route) this.assumptions.push({ kind: 'no-route' });
    const containers = count && amount ? count : null;
    return {
      ...base,
      state: 'complete',
      perMl,
      contents: runs.length === 1 ? runs[0]!.contents : times(perMl, total),
      rate,
      duration: endless && !every ? null : duration,
      endless,
      runs,
      bags: recipe ? total.div(recipe.volume) : containers,
      dose: told?.dose ?? amount?.dose ?? null,
      assumptions: [...this.binder.assumptions, ...this.assumptions],
    };
  }
}

/** Every quantity that an order measures by, its fluid's strengths among them. */
function measuredOf({ amount, rate, fluid, clauses }: GiveNode): readonly QuantityNode[] {
  const strengths = fluid.parts.map(({ strength }) => strength);
  const times = clauses.map((clause) => ('time' in clause ? clause.time : 'drops' in clause ? clause.drops : null));
  return [amount, rate, ...strengths, ...times].filter((quantity) => quantity !== null);
}

function mismatch({ volume, rate, duration }: { [K in keyof Figures]-?: Decimal }) {
  return { amount: volume, rate, duration };
}
