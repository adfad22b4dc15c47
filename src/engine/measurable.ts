/** What of an exact amount can be measured out: a syringe, a cylinder and a balance have steps. */
import graduations from '../../shared/graduations.json' with { type: 'json' };
import { Decimal, decimal } from './decimal.ts';
import type { Quantity } from './quantity.ts';
import { isMass, isVolume } from './units.ts';

export interface Measurable {
  /** The nearest amount that can be measured, in the unit of the exact one. */
  readonly value: Decimal;
  /** `10 mL syringe`, `balance`. */
  readonly with: string;
}

/** The nearest measurable amount of a volume in mL or a mass in g, or null for anything else or beyond every measure. */
export function measurable({ value, unit }: Quantity): Measurable | null {
  const measures = isVolume(unit) ? graduations.volume : isMass(unit) ? graduations.mass : [];
  const amount = value.times(unit.factor);
  const fitting = measures.find(({ upTo }) => amount.lte(upTo));
  if (!fitting) return null;
  const step = decimal(fitting.step);
  const steps = amount.div(step).toDecimalPlaces(0, Decimal.ROUND_HALF_UP);
  return { value: steps.times(step).div(unit.factor), with: fitting.with };
}
