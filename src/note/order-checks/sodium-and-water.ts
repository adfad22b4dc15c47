/** What all orders of a patient bring in a day: free water against a low sodium, sodium, fluids rich in chloride. */
import { amountOfIon, type Decimal, decimal, freeWaterHolds } from '../../engine/index.ts';
import type { Held } from '../order-faults.ts';
import type { Run, WorkedOrder } from '../order-model.ts';
import { type OrderScene, reachesBody } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { CHLORIDE, freeWaterAgainst, perLitre, SODIUM } from './contents.ts';
import { held, perKg } from './limits.ts';
import { ageGroup, inVein, weightOf } from './scene.ts';
import { mainOrder, mostWithin, pieces } from './timeline.ts';

const DAY = decimal(24);

/** The most that arrives in 24 h, and the order that brings most of it. */
function inADay(
  orders: readonly WorkedOrder[],
  amountOf: (run: Run) => Decimal,
): { readonly total: Decimal; readonly main: WorkedOrder } | null {
  const all = pieces(orders, amountOf);
  const stretch = mostWithin(DAY, all);
  const main = stretch && mainOrder(all, stretch);
  return stretch && main ? { total: stretch.total, main } : null;
}

export function freeWaterToLowSodium(scene: OrderScene, reporterOf: (order: WorkedOrder) => Reporter): void {
  const serumSodium = scene.patient?.facts.serum.sodium ?? null;
  if (!serumSodium?.gt(0) || !held({ limit: 'serum-sodium-low', value: serumSodium, unit: 'mmol/L' }, 'below', scene))
    return;
  const absorbed = scene.orders.filter((order) => reachesBody(order) && order.perMl && freeWaterHolds(order.perMl));
  const day = inADay(absorbed, ({ contents }) => freeWaterAgainst(contents, serumSodium));
  if (!day) return;
  const value = perKg(day.total, weightOf(scene.patient));
  const passed = held({ limit: 'free-water-low-sodium', value, unit: 'mL/kg/d' }, 'at least', scene);
  if (!passed) return;
  reporterOf(day.main).at(day.main.node.fluid.span, {
    code: 'hypotonic-to-low-sodium',
    freeWater: day.total,
    serumSodium,
    ...passed,
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
  const sodium = inADay(orders, ({ contents }) => amountOfIon(contents, SODIUM));
  const rich = age === 'neonate' ? [] : orders.filter((order) => isRich(order, scene));
  const chloride = inADay(rich, ({ contents }) => contents.volume);

  const perDay = sodium && perKg(sodium.total, weight);
  const highSodium = held({ limit: 'sodium-load', value: perDay, unit: 'mmol/kg/d' }, 'beyond', scene);
  const highChloride = chloride && richVolume(chloride.total, weight, scene);
  const main = (highSodium ? sodium : highChloride ? chloride : null)?.main;
  if (!main) return;
  reporterOf(main).at(main.node.fluid.span, {
    code: 'sodium-chloride-load',
    sodium: highSodium,
    chloride: highChloride,
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
