/** What an order is looked at with: its patient, the patient's other orders, the limits. */
import { type AgeGroup, type Decimal, ageGroup as groupOf } from '../../engine/index.ts';
import type { Unsaid } from '../order-faults.ts';
import type { WorkedOrder, WorkedPatient } from '../order-model.ts';

/** Whether it goes into the blood: without a route, a vein is taken. */
export function inVein({ route }: WorkedOrder): boolean {
  return route === null || route.into === 'vein' || route.into === 'marrow';
}

/** Whether it goes into a peripheral vein, or may. */
export function mayBePeripheral({ route }: WorkedOrder): boolean {
  return route === null || (route.into === 'vein' && route.peripheral !== false);
}

export function isCentral({ route }: WorkedOrder): boolean {
  return route?.peripheral === false;
}

/** What of the way in is not written. `vein` when it matters which vein. */
export function unsaidWay({ route }: WorkedOrder, matters: 'blood' | 'vein'): readonly Unsaid[] {
  if (route === null) return ['route'];
  return matters === 'vein' && route.into === 'vein' && route.peripheral === null ? ['which-vein'] : [];
}

/** Of several orders: whether one of them does not say its route. */
export function unsaidRoutes(orders: readonly WorkedOrder[]): readonly Unsaid[] {
  return orders.some(({ route }) => route === null) ? ['route'] : [];
}

/** Null where no age is written. */
export function ageGroup(patient: WorkedPatient | null): AgeGroup | null {
  return groupOf(patient?.facts.age ?? null);
}

/** kg: the weight, or of a newborn infant without one the weight at birth. */
export function weightOf(patient: WorkedPatient | null): Decimal | null {
  if (!patient) return null;
  const { weight, birthWeight } = patient.facts;
  const taken = weight ?? (ageGroup(patient) === 'neonate' ? birthWeight : null);
  return taken?.isZero() ? null : taken;
}
