/** One patient with all the orders for him, and what they do to the serum sodium. */
import {
  atMost,
  bodyWater,
  type Contents,
  type CoursePoint,
  type Decimal,
  Decimal as Decimals,
  EMPTY,
  findIon,
  freeWaterHolds,
  type Gain,
  type Into,
  type Ion,
  type Limits,
  LONGEST_COURSE,
  type Loss,
  nearlyEqual,
  plus,
  type Reference,
  type SteadyLoss,
  sodiumCourse,
  times,
  waterBindingCations,
  ZERO,
} from '../../engine/index.ts';
import type { Block } from '../../markdown/note-text.ts';
import type { Entity, WorkedNoteModel } from '../model.ts';
import type { Run, WorkedOrder, WorkedPatient } from '../order-model.ts';
import { DAY, endOf, shareBefore } from './schedule.ts';

export interface OrderScene {
  readonly patient: WorkedPatient | null;
  /** Those of the patient that are complete. */
  readonly orders: readonly WorkedOrder[];
  readonly limits: Limits;
  readonly reference: Reference;
  /** An order for the patient could not be worked out, so nothing is said of all of them together. */
  readonly withheld?: boolean;
}

/** An order with the other orders of its patient, or alone; a patient with all his orders. */
export function sceneOf(
  about: WorkedOrder | WorkedPatient,
  { complete, incomplete, adrift }: OrdersByPatient,
  unreadOrders: WorkedNoteModel['unreadOrders'],
  standards: Pick<OrderScene, 'limits' | 'reference'>,
): OrderScene {
  const patient = 'facts' in about ? about : about.patient;
  const { limits, reference } = standards;
  if (!patient) return { patient, orders: [about as WorkedOrder], limits, reference, withheld: false };
  const mayBeFor = (entity: Entity) => shareNames(entity.block, patient.entity.block);
  const withheld =
    incomplete.has(patient) ||
    adrift.some(mayBeFor) ||
    unreadOrders.some((entity) => saysTo(entity) && mayBeFor(entity));
  return { patient, orders: complete.get(patient) ?? [], limits, reference, withheld };
}

export interface OrdersByPatient {
  readonly complete: ReadonlyMap<WorkedPatient, readonly WorkedOrder[]>;
  /** Patients of whom an order could not be worked out. */
  readonly incomplete: ReadonlySet<WorkedPatient>;
  readonly adrift: readonly Entity[];
}

/** Once for all the scenes of a note. */
export function byPatient(all: readonly WorkedOrder[]): OrdersByPatient {
  const complete = new Map<WorkedPatient, WorkedOrder[]>();
  const incomplete = new Set<WorkedPatient>();
  for (const order of all) {
    const { patient, state } = order;
    if (!patient) continue;
    if (state === 'incomplete') incomplete.add(patient);
    else if (!complete.get(patient)?.push(order)) complete.set(patient, [order]);
  }
  const adrift = all.filter((order) => order.state === 'incomplete' && isAdrift(order)).map(({ entity }) => entity);
  return { complete, incomplete, adrift };
}

/** Whether it says for whom it is, by a name that is none. */
function isAdrift({ patient, node }: WorkedOrder): boolean {
  return !patient && node.clauses.some(({ kind }) => kind === 'patient');
}

/** Whether a line that could not be read may say for whom it is. */
function saysTo({ block, header }: Entity): boolean {
  return /\sto\s/i.test(block.text.slice(header.start, header.end));
}

function shareNames(a: Block, b: Block): boolean {
  return a === b || (a.mode !== 'alone' && b.mode !== 'alone');
}

/** What stands in the way of a prediction. */
export type NoCourse =
  | {
      readonly ok: false;
      readonly why: 'missing';
      readonly value: 'weight' | 'age' | 'sex' | 'height' | 'serum sodium';
    }
  /** A fluid such as mannitol or an amino acid solution, whose water goes by another rule. */
  | { readonly ok: false; readonly why: 'no-rule'; readonly order: WorkedOrder }
  | { readonly ok: false; readonly why: 'withheld' };

export interface Course {
  readonly ok: true;
  readonly points: readonly CoursePoint[];
  /** Losses of which neither sodium nor potassium is told: left out. */
  readonly notCounted: readonly Loss[];
  readonly counted: readonly Loss[];
}

/** Fluid in a circuit, the peritoneum or the bladder, or on a surface, is not in the body. */
const ABSORBED: ReadonlySet<Into> = new Set(['vein', 'marrow', 'gut', 'tissue', 'muscle']);
const [SODIUM, POTASSIUM] = ['sodium', 'potassium'].map((name) => findIon(name) as Ion) as [Ion, Ion];

export function reachesBody({ route }: WorkedOrder): boolean {
  return !route || ABSORBED.has(route.into);
}

/** The hour at which the last of the orders ends; of one without an end, that of a day. */
export function endOfOrders(orders: readonly WorkedOrder[]): Decimal {
  return endOf(orders.flatMap(({ runs }) => runs));
}

/** Serum sodium hour by hour, from when it was measured, with every order and every loss of known composition. */
export function courseOf({ patient, orders, withheld }: OrderScene, upTo: Decimal): Course | NoCourse | null {
  if (!patient) return null;
  if (withheld) return { ok: false, why: 'withheld' };
  const { facts } = patient;
  const { sodium } = facts.serum;
  if (!sodium) return { ok: false, why: 'missing', value: 'serum sodium' };
  const water = bodyWater(facts);
  if (!water.ok) return { ok: false, why: 'missing', value: water.missing[0] as 'weight' };
  const counted = orders.filter(reachesBody);
  const beyond = counted.find(({ contents }) => contents && !freeWaterHolds(contents));
  if (beyond) return { ok: false, why: 'no-rule', order: beyond };
  const told = facts.losses.filter(isTold);
  const hours = Decimals.min(upTo, LONGEST_COURSE);
  const points = sodiumCourse({
    bodyWater: water.litres,
    sodium,
    gains: counted.flatMap((order) => gainsOf(order, hours)),
    losses: told.map(steady),
    hours,
  });
  return { ok: true, points, counted: told, notCounted: facts.losses.filter((loss) => !isTold(loss)) };
}

/** The point at an hour, after what is given at once then; null where the course has none, or does not reach it. */
export function pointAt(points: readonly CoursePoint[], hour: Decimal): CoursePoint | null {
  let [low, high] = [0, points.length];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (atMost(points[middle]!.hour, hour)) low = middle + 1;
    else high = middle;
  }
  const point = points[low - 1];
  return point && nearlyEqual(point.hour, hour) ? point : null;
}

const COURSES = new WeakMap<OrderScene, ReturnType<typeof courseOf>>();

/**
 * What the serum sodium is predicted to be at an hour; null where no patient is named, `point` null where no water would be
 * left by then. The course up to the last end of the orders is worked out once for all questions.
 */
export function predictedAt(
  scene: OrderScene,
  hour: Decimal,
): NoCourse | { readonly ok: true; readonly point: CoursePoint | null } | null {
  let course = COURSES.get(scene);
  if (course === undefined) {
    course = courseOf(scene, Decimals.max(endOfOrders(scene.orders), DAY));
    COURSES.set(scene, course);
  }
  if (!course?.ok) return course;
  const point = pointAt(course.points, hour);
  if (point) return { ok: true, point };
  // An hour at which nothing begins or ends is no point of that course.
  const upTo = courseOf(scene, hour);
  return upTo?.ok ? { ok: true, point: pointAt(upTo.points, hour) } : upTo;
}

/** What an order brings up to an hour; one without an end goes on. */
function gainsOf({ runs, endless, perMl, rate }: WorkedOrder, hours: Decimal): readonly Gain[] {
  const gain = ({ start, end, contents }: Run): Gain => ({
    start,
    end,
    volume: contents.volume,
    cations: waterBindingCations(contents),
  });
  const [first] = runs;
  if (!endless || !first) return runs.map(gain);
  if (runs.length === 1 && rate && perMl) {
    const end = Decimals.max(hours, first.end);
    return [gain({ start: first.start, end, contents: times(perMl, rate.times(end.minus(first.start))) })];
  }
  const days = Array.from({ length: hours.div(DAY).ceil().toNumber() }, (_, day) => DAY.times(day));
  return days.flatMap((day) => runs.map((run) => gain({ ...run, start: run.start.plus(day), end: run.end.plus(day) })));
}

function isTold({ perLitre }: Loss): boolean {
  return perLitre.has(SODIUM) || perLitre.has(POTASSIUM);
}

function steady({ rate, perLitre }: Loss): SteadyLoss {
  return { rate, cations: (perLitre.get(SODIUM) ?? ZERO).plus(perLitre.get(POTASSIUM) ?? ZERO) };
}

/** What an order gives in the first 24 h. */
export function inADay({ runs }: WorkedOrder): Contents {
  return runs.reduce<Contents>((sum, run) => plus(sum, times(run.contents, shareBefore(DAY, run))), EMPTY);
}

/** All that reaches the body in the first 24 h. */
export function intakeOf({ orders }: OrderScene): Contents {
  return orders.filter(reachesBody).reduce<Contents>((sum, order) => plus(sum, inADay(order)), EMPTY);
}
