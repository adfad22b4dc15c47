/** Amounts that were solved for, in words. */
import { formatDecimal, formatQuantity } from '../../engine/index.ts';
import type { Solved } from '../../note/index.ts';

/** Digits of a solved amount, enough to see what rounding it costs. */
const SOLVED_DIGITS = 4;

/** A solved amount: `64.11 mL`, or a bare number for a count. */
export function solvedText({ value, unit }: Solved): string {
  return unit ? formatQuantity(value, unit.symbol, SOLVED_DIGITS) : formatDecimal(value, SOLVED_DIGITS);
}

/** What can be measured of it, and what that rounding costs; null when nothing measures it. */
export function measuredText({ measured, unit, asMeasured }: Solved): string | null {
  if (!measured) return null;
  const amount = unit ? formatQuantity(measured.value, unit.symbol, SOLVED_DIGITS) : formatDecimal(measured.value);
  const gives = asMeasured.map(
    ({ observable, unit: of, value }) =>
      `${observable.name} ${of ? formatQuantity(value, of.symbol, SOLVED_DIGITS) : formatDecimal(value, SOLVED_DIGITS)}`,
  );
  return `Measured as ${amount} (${measured.with}) it gives ${gives.join(', ')}.`;
}
