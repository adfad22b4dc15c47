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

/** The terms added up. Most of what is added up in a liquid is nothing, which costs nothing here. */
export function sumOf<T>(items: Iterable<T>, term: (item: T) => Decimal): Decimal {
  let sum = ZERO;
  for (const item of items) {
    const value = term(item);
    if (value.isZero()) continue;
    sum = sum.isZero() ? value : sum.plus(value);
  }
  return sum;
}

/** A whole number of times, which is mostly once or never: a charge, how many ions a molecule gives. */
export function manyTimes(value: Decimal, count: number): Decimal {
  if (count === 1) return value;
  return count === 0 ? ZERO : value.times(count);
}

/** Whether a and b differ by no more than rounding in the fortieth digit can explain. */
export function nearlyEqual(a: Decimal, b: Decimal): boolean {
  const off = a.minus(b);
  if (off.isZero()) return true;
  // By the powers of ten alone, as nearly always: the difference is more than the guard of the largest that a and b may be.
  if (off.e > Math.max(a.e, b.e, 0) + GUARD.e) return false;
  const scale = Decimal.max(a.abs(), b.abs(), ONE);
  return off.abs().lte(scale.times(GUARD));
}

/** `a <= b`, counting a and b as equal within the guard. */
export function atMost(a: Decimal, b: Decimal): boolean {
  return a.lte(b) || nearlyEqual(a, b);
}
