/** What all orders of a patient bring in a day: free water against a low sodium, sodium, fluids rich in chloride. */
import { amountOfIon, type Decimal, decimal, freeWaterHolds, sumOf, ZERO } from '../../engine/index.ts';
import type { Held } from '../order-faults.ts';
import type { Run, WorkedOrder } from '../order-model.ts';
import { type OrderScene, reachesBody } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { CHLORIDE, freeWaterAgainst, perLitre, SODIUM } from './contents.ts';
import { held, perKg } from './limits.ts';
import { ageGroup, inVein, weightOf } from './scene.ts';
import { mainOrder, mostWithin, pieces } from './timeline.ts';

const DAY = decimal(24);

interface Day {
  readonly total: Decimal;
  readonly passed: Held;
  /** The order that brings most of it. */
  readonly main: WorkedOrder;
}

/** The most that arrives in 24 h, where that is too much; `tooMuch` of an amount is so of any larger one. */
function inADay(
  orders: readonly WorkedOrder[],
  amountOf: (run: Run) => Decimal,
  tooMuch: (total: Decimal) => Held | null,
): Day | null {
  const all = pieces(orders, amountOf);
  // Where not even all that is ever brought is too much, no day has to be looked for.
  if (!tooMuch(sumOf(all, ({ amount }) => (amount.gt(0) ? amount : ZERO)))) return null;
  const stretch = mostWithin(DAY, all);
  const passed = stretch && tooMuch(stretch.total);
  const main = passed && mainOrder(all, stretch);
  return passed && main ? { total: stretch.total, passed, main } : null;
}

export function freeWaterToLowSodium(scene: OrderScene, reporterOf: (order: WorkedOrder) => Reporter): void {
  const serumSodium = scene.patient?.facts.serum.sodium ?? null;
  if (!serumSodium?.gt(0) || !held({ limit: 'serum-sodium-low', value: serumSodium, unit: 'mmol/L' }, 'below', scene))
    return;
  const absorbed = scene.orders.filter((order) => reachesBody(order) && order.perMl && freeWaterHolds(order.perMl));
  const weight = weightOf(scene.patient);
  const day = inADay(
    absorbed,
    ({ contents }) => freeWaterAgainst(contents, serumSodium),
    (total) =>
      held({ limit: 'free-water-low-sodium', value: perKg(total, weight), unit: 'mL/kg/d' }, 'at least', scene),
  );
  if (!day) return;
  reporterOf(day.main).at(day.main.node.fluid.span, {
    code: 'hypotonic-to-low-sodium',
    freeWater: day.total,
    serumSodium,
    ...day.passed,
  });
}

/**
 * For adults, and of sodium for newborn infants: a child's isotonic maintenance fluid brings more than 5 mmol/kg a day on
 * purpose.
 */
export function sodiumChlorideLoad(scene: OrderScene, reporterOf: (order: WorkedOrder) => Reporter): void {
  const age = ageGroup(scene.patient);
  if (age === 'child' || age === 'infant') return;
  const weight = weightOf(scene.patient);
  const orders = scene.orders.filter(inVein);
  const sodium = inADay(
    orders,
    ({ contents }) => amountOfIon(contents, SODIUM),
    (total) => held({ limit: 'sodium-load', value: perKg(total, weight), unit: 'mmol/kg/d' }, 'beyond', scene),
  );
  const rich = age === 'neonate' ? [] : orders.filter((order) => isRich(order, scene));
  const chloride = inADay(
    rich,
    ({ contents }) => contents.volume,
    (total) => richVolume(total, weight, scene),
  );
  const main = (sodium ?? chloride)?.main;
  if (!main) return;
  reporterOf(main).at(main.node.fluid.span, {
    code: 'sodium-chloride-load',
    sodium: sodium?.passed ?? null,
    chloride: chloride?.passed ?? null,
  });
}

function isRich({ perMl }: WorkedOrder, scene: OrderScene): boolean {
  const value = perMl && perLitre(perMl, CHLORIDE);
  return held({ limit: 'chloride-rich', value, unit: 'mmol/L' }, 'beyond', scene) !== null;
}

function richVolume(total: Decimal, weight: Decimal | null, scene: OrderScene): Held | null {
  return (
    held({ limit: 'chloride-rich-volume', value: total, unit: 'mL' }, 'at least', scene) ??
    held({ limit: 'chloride-rich-volume-by-weight', value: perKg(total, weight), unit: 'mL/kg' }, 'at least', scene)
  );
}
