/**
 * Exact decimals for every clinical number.
 *
 * A clone of decimal.js of our own, so that nobody's settings reach ours. Forty significant digits: sums, differences
 * and products of what a note can hold are exact; a division is right to forty digits, and `nearlyEqual` and
 * `atMost` absorb its last places, so that 1/3 + 2/3 meets a limit of 1.
 */
import { Decimal as Base } from 'decimal.js';

export const Decimal = Base.clone({ precision: 40, rounding: Base.ROUND_HALF_UP, toExpNeg: -60, toExpPos: 60 });
export type Decimal = Base;

export const ZERO: Decimal = new Decimal(0);
export const ONE: Decimal = new Decimal(1);

/** Relative width below which two results count as the same: far under any measure, far over division's last digit. */
const GUARD = new Decimal('1e-30');

export function decimal(text: string | number): Decimal {
  return new Decimal(text);
}

/** Whether a and b differ by no more than rounding in the fortieth digit can explain. */
export function nearlyEqual(a: Decimal, b: Decimal): boolean {
  const scale = Decimal.max(a.abs(), b.abs(), ONE);
  return a.minus(b).abs().lte(scale.times(GUARD));
}

/** `a <= b`, counting a and b as equal within the guard. */
export function atMost(a: Decimal, b: Decimal): boolean {
  return a.lte(b) || nearlyEqual(a, b);
}
