/** How fast dextrose is given by a vein, by weight: grams as labelled. */
import type { AgeGroup, Decimal } from '../../engine/index.ts';
import type { Held } from '../order-faults.ts';
import type { WorkedOrder } from '../order-model.ts';
import type { OrderScene } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { gramsOfFamily, percentOf } from './contents.ts';
import { type Candidate, held, heldForAge, perKg } from './limits.ts';
import { rateSpan } from './places.ts';
import { ageGroup, inVein, unsaidRoutes, unsaidWay, weightOf } from './scene.ts';
import { mostAtOnce, type Stream, streams } from './timeline.ts';

const LIMITS: Readonly<Record<AgeGroup, string>> = {
  adult: 'glucose-rate-adult',
  child: 'glucose-rate-child',
  infant: 'glucose-rate-infant',
  neonate: 'glucose-rate-neonate',
};

export function glucoseRate(order: WorkedOrder, scene: OrderScene, report: Reporter): void {
  const most = mostAtOnce(infusions(order, scene));
  const passed = most && tooFast(most.rate, scene);
  if (!passed) return;
  report.at(rateSpan(order.node), {
    code: 'glucose-rate',
    low: false,
    fluids: [order.fluid],
    ...passed,
    unsaid: [...passed.unsaid, ...unsaidWay(order, 'blood')],
  });
}

/** g/h of what runs long enough to be an infusion; a dose against a low glucose is none. */
function infusions(order: WorkedOrder, scene: OrderScene): readonly Stream[] {
  const { perMl } = order;
  if (!inVein(order) || !perMl) return [];
  const gramsPerMl = percentOf(perMl, gramsOfFamily(perMl, 'dextrose')).div(100);
  if (gramsPerMl.isZero()) return [];
  return streams(order, gramsPerMl).filter(
    ({ start, end }) => !held({ limit: 'glucose-rate-time', value: end.minus(start), unit: 'h' }, 'below', scene),
  );
}

function found(gramsPerHour: Decimal, { patient }: OrderScene): Pick<Candidate, 'value' | 'unit'> {
  return { value: perKg(gramsPerHour, weightOf(patient)), unit: 'g/kg/h' };
}

function tooFast(gramsPerHour: Decimal, scene: OrderScene): Held | null {
  const rate = found(gramsPerHour, scene);
  const candidates = Object.entries(LIMITS).map(([age, limit]) => ({ limit, ages: [age as AgeGroup], ...rate }));
  return heldForAge(candidates, 'beyond', scene);
}

/** Infusions of dextrose that are too fast together, or too slow for a newborn infant who lives on them. */
export function glucoseTogether(scene: OrderScene, reporterOf: (order: WorkedOrder) => Reporter): void {
  const running = scene.orders.flatMap((order) => infusions(order, scene));
  const most = mostAtOnce(running);
  if (!most) return;
  const alone = running.some(({ rate }) => tooFast(rate, scene));
  const high = alone ? null : tooFast(most.rate, scene);
  const low = livesOn(most.orders, scene)
    ? held({ limit: 'glucose-rate-neonate-low', ...found(most.rate, scene) }, 'short of', scene)
    : null;
  const passed = high ?? low;
  if (!passed) return;
  const last = most.orders[most.orders.length - 1]!;
  reporterOf(last).at(rateSpan(last.node), {
    code: 'glucose-rate',
    low: passed === low,
    fluids: most.orders.map(({ fluid }) => fluid),
    ...passed,
    unsaid: [...passed.unsaid, ...unsaidRoutes(most.orders)],
  });
}

/** A newborn infant's own infusion of dextrose, not only the fluid that a drug is in. */
function livesOn(orders: readonly WorkedOrder[], { patient }: OrderScene): boolean {
  const carriesDrug = ({ perMl }: WorkedOrder) =>
    perMl !== null &&
    [perMl.solutes, perMl.masses, perMl.activities].some((held) => [...held.keys()].some(({ own }) => own));
  return ageGroup(patient) === 'neonate' && !orders.every(carriesDrug);
}
