/** A child's maintenance fluid that is hypotonic in the body. */
import {
  atMost,
  type Contents,
  type Decimal,
  decimal,
  effectiveOsmolarity,
  freeWaterHolds,
  type Reference,
  maintenance as usual,
} from '../../engine/index.ts';
import type { Unsaid } from '../order-faults.ts';
import type { WorkedOrder } from '../order-model.ts';
import type { OrderScene } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { sodiumAndPotassium } from './contents.ts';
import { held, limitOf } from './limits.ts';
import { ageGroup, inVein, unsaidWay, weightOf } from './scene.ts';

const LITRE = decimal(1000);
const HUNDRED = decimal(100);

export function hypotonicMaintenance(
  order: WorkedOrder,
  contents: Contents,
  scene: OrderScene,
  report: Reporter,
): void {
  const { rate } = order;
  const weight = weightOf(scene.patient);
  if (!rate || !weight || !inVein(order) || !isChild(scene, weight) || !freeWaterHolds(contents)) return;
  const maintenance = usual(weight).perHour;
  const share = rate.times(HUNDRED).div(maintenance);
  if (!held({ limit: 'maintenance-share', value: share, unit: '%' }, 'at least', scene)) return;
  if (!order.runs.some(({ start, end }) => isLong(end.minus(start), scene))) return;

  const limit = limitOf(scene, 'maintenance-sodium');
  const found = sodiumAndPotassium(contents).times(LITRE).div(contents.volume);
  const effective = effectiveOsmolarity(contents);
  const dilute = held({ limit: limit.id, value: found, unit: 'mmol/L' }, 'short of', scene) !== null;
  if (!dilute && !isHypotonic(effective, scene.reference)) return;
  const unsaid: readonly Unsaid[] = ageGroup(scene.patient) ? [] : ['age'];
  report.at(order.node.fluid.span, {
    code: 'hypotonic-maintenance',
    found,
    limit,
    effective,
    rate,
    maintenance,
    unsaid: [...unsaid, ...unsaidWay(order, 'blood')],
  });
}

/** A child who may be on maintenance: not one whose sodium is high and who is given water for it. */
function isChild(scene: OrderScene, weight: Decimal): boolean {
  const serum = { value: scene.patient?.facts.serum.sodium ?? null, unit: 'mmol/L' };
  if (held({ limit: 'serum-sodium-high', ...serum }, 'above', scene)) return false;
  const age = ageGroup(scene.patient);
  if (age) return age === 'child' || age === 'infant';
  return !held({ limit: 'maintenance-weight', value: weight, unit: 'kg' }, 'above', scene);
}

function isLong(hours: Decimal, scene: OrderScene): boolean {
  return held({ limit: 'maintenance-time', value: hours, unit: 'h' }, 'at least', scene) !== null;
}

function isHypotonic(effective: Decimal, { isotonicFrom }: Reference): boolean {
  return !atMost(isotonicFrom, effective);
}
