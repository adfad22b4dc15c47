/** Orders for the tests of what stands out in them, put together by hand from `give` lines. */
import { findingOf, messageOf } from '../../../src/checks/index.ts';
import {
  DEFAULT_REFERENCE,
  type Decimal,
  decimal,
  defaultLimits,
  findRoute,
  inUnit,
  type Limits,
  ONE,
  type PatientFacts,
  type Serum,
  times,
  unit,
  ZERO,
} from '../../../src/engine/index.ts';
import { readNote } from '../../../src/markdown/index.ts';
import type { Block } from '../../../src/markdown/note-text.ts';
import type { GiveNode, QuantityNode } from '../../../src/notation/ast.ts';
import { parseBlock } from '../../../src/notation/index.ts';
import type { Located } from '../../../src/note/faults.ts';
import { workNote } from '../../../src/note/index.ts';
import { scrutiniseOrder, scrutinisePatient } from '../../../src/note/order-checks/index.ts';
import type { Run, WorkedOrder, WorkedPatient } from '../../../src/note/order-model.ts';
import type { Course, OrderScene } from '../../../src/note/orders/scene.ts';
import { type Desk, Reporter } from '../../../src/note/reporter.ts';
import { fenced } from '../../annotated.ts';

type Given<T> = { readonly [K in keyof T]?: T[K] extends Decimal | null ? number | Decimal | null : T[K] };

function decimals<T extends object>(values: Given<T>): Partial<T> {
  const entries = Object.entries(values).map(([key, value]) => [
    key,
    typeof value === 'number' ? decimal(value) : value,
  ]);
  return Object.fromEntries(entries) as Partial<T>;
}

const NO_SERUM: Serum = { sodium: null, potassium: null, glucose: null, urea: null, bicarbonate: null };

/** Ages in years, weights in kg. */
export function patient(facts: Given<Omit<PatientFacts, 'serum'>>, serum: Given<Serum> = {}): WorkedPatient {
  const nothing: PatientFacts = {
    weight: null,
    birthWeight: null,
    height: null,
    age: null,
    gestation: null,
    sex: null,
    bodyWater: null,
    serum: { ...NO_SERUM, ...decimals<Serum>(serum) },
    baseDeficit: null,
    onset: null,
    demyelinationRisk: false,
    burn: null,
    losses: [],
  };
  return {
    entity: { ...EMPTY_ENTITY, kind: 'patient' },
    name: 'adult',
    state: 'complete',
    cause: null,
    facts: { ...nothing, ...decimals<Omit<PatientFacts, 'serum'>>(facts) },
  };
}

/** In years. */
export const DAYS = (days: number): Decimal => decimal(days).div('365.25');

const EMPTY_ENTITY = {
  name: null,
  title: null,
  block: readNote(fenced('')).blocks[0] as Block,
  header: { start: 0, end: 0 },
  give: null,
  end: 0,
  body: [],
  spoiledBy: null,
};

/** Reads a `give` line with volumes and rates in mL; mixtures may stand in `above`. */
export function order(line: string, to: WorkedPatient | null = null, above = ''): WorkedOrder {
  const source = fenced(line);
  const block = readNote(source).blocks[0]!;
  const [node] = parseBlock(block.text).statements as [GiveNode];
  const fluid = line.slice(node.fluid.span.start, node.fluid.span.end);
  const { mixtures } = workNote(readNote(fenced(`mixture whole\n  1 L ${fluid}\n${above}`)));
  const whole = mixtures.find(({ name }) => name === 'whole')?.contents;
  if (!whole) throw new Error(`no such fluid: ${fluid}`);
  const perMl = times(whole, ONE.div(whole.volume));
  const clause = <K extends GiveNode['clauses'][number]['kind']>(kind: K) =>
    node.clauses.find((one): one is Extract<GiveNode['clauses'][number], { kind: K }> => one.kind === kind);
  const route = clause('route');
  const rateWritten = valueIn(node.rate, 'mL/h');
  const time = valueIn(clause('duration')?.time ?? null, 'h');
  const endless = rateWritten !== null && !node.amount && !time;
  const amount = valueIn(node.amount, 'mL') ?? (rateWritten ? rateWritten.times(time ?? 24) : (ZERO as Decimal));
  const duration = endless ? null : (time ?? (rateWritten ? amount.div(rateWritten) : null));
  const contents = times(perMl, amount);
  const start = valueIn(clause('from')?.time ?? null, 'h') ?? ZERO;
  const every = valueIn(clause('every')?.time ?? null, 'h');
  const count = node.count?.number?.value.toNumber() ?? 1;
  const runs: readonly Run[] = Array.from({ length: count }, (_, index) => {
    const from = start.plus((every ?? duration ?? ZERO).times(index));
    return { start: from, end: from.plus(endless ? 24 : (duration ?? ZERO)), contents };
  });
  return {
    entity: { ...EMPTY_ENTITY, kind: 'give', block },
    node,
    name: '',
    fluid,
    mixture: null,
    patient: to,
    route: route ? findRoute(route.route.text) : null,
    monitored: clause('monitored') !== undefined,
    state: 'complete',
    cause: null,
    perMl,
    contents: times(contents, decimal(count)),
    rate: rateWritten ?? (duration ? amount.div(duration) : null),
    duration,
    endless,
    runs,
    bags: null,
    dose: null,
    dropsPerMl: null,
    assumptions: [],
  };
}

function valueIn(quantity: QuantityNode | null, symbol: string): Decimal | null {
  return quantity && inUnit({ value: quantity.number.value, unit: quantity.unit.unit }, unit(symbol));
}

interface Looked {
  readonly limits?: Limits;
  readonly course?: Course | null;
  readonly above?: string;
}

/** The faults of a patient's orders, and where each stands: `potassium-rate: 300 mL/h`. */
export function lookAt(to: WorkedPatient | null, lines: readonly string[], looked: Looked = {}) {
  const { limits = defaultLimits(null), course = null, above = '' } = looked;
  const orders = lines.map((line) => order(line, to, above));
  const scene: OrderScene = { patient: to, orders, limits, reference: DEFAULT_REFERENCE };
  const faults: { readonly located: Located; readonly text: string }[] = [];
  const reporting = (one: WorkedOrder, look: (report: Reporter) => void) => {
    const desk: Desk = { faults: [], mentions: [] };
    look(new Reporter(one.entity.block, desk));
    return desk;
  };
  const keep = (one: WorkedOrder, desk: Desk) => {
    for (const located of desk.faults) {
      const { start, end } = one.node.span;
      const [from, to] = [one.entity.block.toText(located.at.start), one.entity.block.toText(located.at.end)];
      const text = one.entity.block.text.slice(Math.max(from ?? 0, start), Math.min(to ?? end, end));
      faults.push({ located, text });
    }
  };
  for (const one of orders)
    keep(
      one,
      reporting(one, (report) => scrutiniseOrder(one, scene, report)),
    );
  const desks = new Map(orders.map((one) => [one, { faults: [], mentions: [] } as Desk]));
  scrutinisePatient(
    scene,
    (one) => new Reporter(one.entity.block, desks.get(one)!),
    () => course,
  );
  for (const [one, desk] of desks) keep(one, desk);
  return faults;
}

/** `potassium-rate: 300 mL/h`, in the order found. */
export function found(to: WorkedPatient | null, lines: readonly string[], looked: Looked = {}): readonly string[] {
  return lookAt(to, lines, looked).map(({ located, text }) => `${located.fault.code}: ${text}`);
}

export function messages(to: WorkedPatient | null, lines: readonly string[], looked: Looked = {}): readonly string[] {
  return lookAt(to, lines, looked).map(({ located }) => messageOf(findingOf(located).wording));
}
