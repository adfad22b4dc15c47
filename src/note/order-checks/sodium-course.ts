/** The predicted course of the serum sodium against the limits of how fast it may change. */
import { type AgeGroup, crossing, type Decimal, decimal, steepest } from '../../engine/index.ts';
import type { Change, DemyelinationRisk, Held, OrderFault } from '../order-faults.ts';
import type { WorkedOrder, WorkedPatient } from '../order-model.ts';
import type { Course } from '../orders/scene.ts';
import { type OrderScene, reachesBody } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { freeWaterAgainst } from './contents.ts';
import { type Candidate, held, heldForAge, limitOf } from './limits.ts';
import { ageGroup } from './scene.ts';

type Direction = 'rise' | 'fall';

const [SIX_HOURS, DAY, TWO_DAYS] = [6, 24, 48].map(decimal) as [Decimal, Decimal, Decimal];
const ADULTS: readonly AgeGroup[] = ['adult'];
const CHILDREN: readonly AgeGroup[] = ['child', 'infant', 'neonate'];

/** A limit for the change within some hours; `hourly` where it is one of mmol/L/h. */
interface Pace {
  readonly limit: string;
  readonly hours: Decimal;
  readonly ages?: readonly AgeGroup[];
  readonly hourly?: true;
}

const HIGH_RISK: readonly Pace[] = [{ limit: 'sodium-rise-high-risk', hours: DAY }];
/** The one passed first is told; those of a child come first, for a patient without an age. */
const RISES: readonly Pace[] = [
  { limit: 'sodium-rise-child-day', hours: DAY, ages: CHILDREN },
  { limit: 'sodium-rise-child-two-days', hours: TWO_DAYS, ages: CHILDREN },
  { limit: 'sodium-rise-day', hours: DAY, ages: ADULTS },
  { limit: 'sodium-rise-two-days', hours: TWO_DAYS, ages: ADULTS },
  { limit: 'sodium-rise-caution', hours: DAY, ages: ADULTS },
];
/** Worth a word when it is passed, and no limit. */
const CAUTION_ONLY = 'sodium-rise-caution';
const FALLS: readonly Pace[] = [
  { limit: 'sodium-fall-child-day', hours: DAY, ages: CHILDREN },
  { limit: 'sodium-fall-child-hourly', hours: SIX_HOURS, ages: CHILDREN, hourly: true },
  { limit: 'sodium-fall-adult-day', hours: DAY, ages: ADULTS },
];

/** `courseOf` is asked only where the serum sodium is one that must not change fast. */
export function sodiumCourse(
  scene: OrderScene,
  courseOf: () => Course | null,
  reporterOf: (order: WorkedOrder) => Reporter,
): void {
  const { patient } = scene;
  const serumSodium = patient?.facts.serum.sodium ?? null;
  if (!patient || !serumSodium?.gt(0)) return;
  const start = { value: serumSodium, unit: 'mmol/L' };
  const known = { serumSodium, onset: patient.facts.onset, losses: patient.facts.losses.length > 0 };
  const at = (direction: Direction, fault: OrderFault) => {
    const order = mainOrder(scene, serumSodium, direction);
    if (order) reporterOf(order).at(order.node.fluid.span, fault);
  };
  const low = held({ limit: 'serum-sodium-low', ...start }, 'below', scene);
  if (!low && !held({ limit: 'serum-sodium-high', ...start }, 'above', scene)) return;
  const course = courseOf();
  if (!course) return;
  if (low) {
    const risk = demyelinationRisk(patient, scene);
    const passed = firstPassed(risk ? HIGH_RISK : RISES, 'rise', course, scene);
    if (passed) at('rise', { code: 'sodium-rise', risk, ...known, ...passed });
  } else {
    const passed = firstPassed(FALLS, 'fall', course, scene);
    const age = ageGroup(patient);
    if (passed) at('fall', { code: 'sodium-fall', child: age !== null && age !== 'adult', ...known, ...passed });
  }
}

/** How far a change may have gone by an hour from the start. */
export interface PaceLimit {
  /** h. */
  readonly until: Decimal;
  /** mmol/L, below zero for a fall. */
  readonly most: Decimal;
}

/** What a course is held against, for drawing, in time; of limits for the same hours the narrowest. Empty where none is. */
export function pacesOf(scene: OrderScene): readonly PaceLimit[] {
  const { patient } = scene;
  const start = { value: patient?.facts.serum.sodium ?? null, unit: 'mmol/L' };
  if (!patient) return [];
  const low = held({ limit: 'serum-sodium-low', ...start }, 'below', scene);
  if (!low && !held({ limit: 'serum-sodium-high', ...start }, 'above', scene)) return [];
  const age = ageGroup(patient);
  const paces = low && demyelinationRisk(patient, scene) ? HIGH_RISK : low ? RISES : FALLS;
  const narrowest = new Map<string, PaceLimit>();
  for (const { limit, hours, ages, hourly } of paces) {
    if (limit === CAUTION_ONLY || (age && ages && !ages.includes(age))) continue;
    const { value } = limitOf(scene, limit);
    const most = hourly ? value.times(hours) : value;
    const known = narrowest.get(hours.toString());
    if (!known || most.lt(known.most.abs())) {
      narrowest.set(hours.toString(), { until: hours, most: low ? most : most.neg() });
    }
  }
  return [...narrowest.values()].sort((a, b) => a.until.cmp(b.until));
}

interface Passed extends Held {
  readonly crossed: Decimal | null;
  readonly change: Change;
  readonly hours: Decimal;
}

function firstPassed(paces: readonly Pace[], direction: Direction, course: Course, scene: OrderScene): Passed | null {
  for (const { limit, hours, ages, hourly } of paces) {
    const change = steepest(course.points, hours)[direction];
    if (!change) continue;
    const by = change.by.abs();
    const candidate: Candidate = hourly
      ? { limit, value: by.div(hours), unit: 'mmol/L/h', ages }
      : { limit, value: by, unit: 'mmol/L', ages };
    const passed = heldForAge([candidate], 'above', scene);
    if (!passed) continue;
    const most = hourly ? passed.limit.value.times(hours) : passed.limit.value;
    const crossed = crossing(course.points, direction === 'rise' ? most : most.neg(), hours);
    return { ...passed, change: { ...change, by }, hours, crossed };
  }
  return null;
}

/** Declared, or by the laboratory values written; never inferred from anything else. */
function demyelinationRisk({ facts }: WorkedPatient, scene: OrderScene): DemyelinationRisk | null {
  if (facts.demyelinationRisk) return 'declared';
  const { sodium, potassium } = facts.serum;
  const value = (of: Decimal | null, limit: string) => ({ limit, value: of, unit: 'mmol/L' });
  if (sodium && !held(value(sodium, 'demyelination-sodium'), 'above', scene)) return 'sodium';
  return held(value(potassium, 'demyelination-potassium'), 'below', scene) ? 'potassium' : null;
}

/** The order that raises the serum sodium most, or lowers it most: by its sodium and potassium against the serum sodium. */
function mainOrder(scene: OrderScene, serumSodium: Decimal, direction: Direction): WorkedOrder | null {
  let main: { readonly order: WorkedOrder; readonly push: Decimal } | null = null;
  for (const order of scene.orders) {
    if (!order.contents || !reachesBody(order)) continue;
    const water = freeWaterAgainst(order.contents, serumSodium);
    const push = direction === 'rise' ? water.neg() : water;
    if (!main || push.gt(main.push)) main = { order, push };
  }
  return main?.order ?? null;
}
