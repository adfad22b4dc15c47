import type { Decimal } from './decimal.ts';
import { sameDimension, type Unit } from './units.ts';

/** A value and its unit, as written or as worked out. */
export interface Quantity {
  readonly value: Decimal;
  readonly unit: Unit;
}

/** Digits kept by a conversion: those that a sixtieth or a 4.184th, rounded in its fortieth digit, leaves right. */
const DIGITS = 36;

/** The value in another unit of the same dimension, exact to 36 digits (90 min is 1.5 h); null when dimensions differ. */
export function inUnit(quantity: Quantity, unit: Unit): Decimal | null {
  if (!sameDimension(quantity.unit.dimension, unit.dimension)) return null;
  if (quantity.unit.symbol === unit.symbol) return quantity.value;
  return quantity.value.times(quantity.unit.factor).div(unit.factor).toSignificantDigits(DIGITS);
}
