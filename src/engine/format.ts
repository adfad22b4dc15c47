/** Numbers as they are shown: a leading zero, no trailing zero, no exponent, a space before the unit. */
import type { Decimal } from './decimal.ts';

/**
 * For reading, to that many significant digits, but never fewer than the whole number has: 1010.4 is `1010`,
 * 152.48 `152`, 19.80 `19.8`, -118.7 `-119`, 0.50 `0.5`.
 */
export function formatDecimal(value: Decimal, significant = 3): string {
  const wholeDigits = wholeDigitsOf(value);
  return plain(value.toSignificantDigits(Math.max(significant, wholeDigits)));
}

/** `152 mmol/L`, `0.9 %`. */
export function formatQuantity(value: Decimal, unit: string, significant = 3): string {
  return `${formatDecimal(value, significant)} ${unit}`;
}

/** As many digits as an exact result may have and still be written out whole. */
const EXACT_DIGITS = 15;
const INEXACT_DIGITS = 9;

/** For other programs: every digit of a short result, else nine significant ones or the whole number; no exponent, no trailing zero. */
export function exactText(value: Decimal): string {
  if (value.precision() <= EXACT_DIGITS) return plain(value);
  return plain(value.toSignificantDigits(Math.max(INEXACT_DIGITS, wholeDigitsOf(value))));
}

function wholeDigitsOf(value: Decimal): number {
  return value.abs().lt(1) ? 1 : value.e + 1;
}

function plain(value: Decimal): string {
  return value.isZero() ? '0' : value.toFixed();
}
