/** Ceftriaxone and calcium, both by a vein for one patient. */
import { amountOfIon, atMost, type Contents, inUnit, unit } from '../../engine/index.ts';
import type { WorkedOrder } from '../order-model.ts';
import type { OrderScene } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { CALCIUM } from './contents.ts';
import { limitOf } from './limits.ts';
import { inVein } from './scene.ts';

/** A drug is known by its name: `ceftriaxone`, `ceftriaxone sodium`. */
function isCeftriaxone({ solutes, masses, activities }: Contents): boolean {
  return [solutes, masses, activities].some((held) =>
    [...held.keys()].some(({ name }) => /\bceftriaxone\b/i.test(name)),
  );
}

export function calciumCeftriaxone(scene: OrderScene, reporterOf: (order: WorkedOrder) => Reporter): void {
  const byVein = scene.orders.filter(inVein);
  const ceftriaxone = byVein.find(({ perMl }) => perMl && isCeftriaxone(perMl));
  const hasCalcium = ({ perMl }: WorkedOrder) => perMl !== null && !amountOfIon(perMl, CALCIUM).isZero();
  const calcium = ceftriaxone && (hasCalcium(ceftriaxone) ? ceftriaxone : byVein.find(hasCalcium));
  if (!calcium) return;
  const limit = limitOf(scene, 'ceftriaxone-calcium-age');
  const age = scene.patient?.facts.age ?? null;
  const inLimit = age && inUnit({ value: age, unit: unit('y') }, limit.unit);
  reporterOf(ceftriaxone).at(ceftriaxone.node.fluid.span, {
    code: 'calcium-ceftriaxone',
    contraindicated: inLimit && atMost(inLimit, limit.value),
    mixed: calcium === ceftriaxone,
    calciumIn: calcium.fluid,
    limit,
  });
}
