/** Phrases that several checks share. */
import {
  type Decimal,
  type Dimension,
  dimensionWords,
  formatDecimal,
  formatQuantity,
  type Unit,
} from '../engine/index.ts';
import type { FailedClaim } from '../note/faults.ts';
import type { Fix } from './check.ts';

/** `a, b or c`, each in single quotation marks when `quoted`. */
export function either(words: readonly string[], quoted = false): string {
  return joined(words, 'or', quoted);
}

/** `a, b and c`. */
export function both(words: readonly string[], quoted = false): string {
  return joined(words, 'and', quoted);
}

function joined(words: readonly string[], last: 'or' | 'and', quoted: boolean): string {
  const shown = quoted ? words.map((word) => `‘${word}’`) : [...words];
  if (shown.length < 2) return shown.join('');
  return `${shown.slice(0, -1).join(', ')} ${last} ${shown[shown.length - 1]}`;
}

/** A proposal, or what to do when nothing is near. */
export function didYouMean(near: readonly string[], otherwise: string): string {
  return near.length > 0 ? `Did you mean ${either(near, true)}?` : otherwise;
}

/** Each reading that may be meant, for the reader to choose. */
export function chosen(readings: readonly string[]): readonly Fix[] {
  return readings.map((reading) => ({ title: `Write ‘${reading}’`, replace: reading, changesNumber: true }));
}

/** What a claim would say to hold: the result to as many digits as are written, in the unit and with the tolerance written. */
export function claimed({ found, written }: FailedClaim): readonly Fix[] {
  const { decimals, text } = written.number;
  if (decimals === null) return [];
  const rounded = found.toDecimalPlaces(decimals);
  const number = rounded.isZero() ? formatDecimal(found) : rounded.toFixed(decimals);
  const replace = number + written.text.slice(text.length);
  return [{ title: `Write ‘${replace}’, as it works out`, replace, changesNumber: true }];
}

/** The same, written safely. */
export function rewritten(safe: string): readonly Fix[] {
  return [{ title: `Write ‘${safe}’`, replace: safe, changesNumber: false, preferred: true }];
}

export function measures(dimension: Dimension | null): string {
  return dimension ? `measures ${dimensionWords(dimension)}` : 'has no unit';
}

/** A value with its unit; a ratio has none. Told to three digits, or to as many as its range leaves meaning. */
export function valueText(value: Decimal, unit: Unit | null, range: readonly [Decimal, Decimal] | null = null): string {
  const digits = digitsOf(range);
  return unit ? formatQuantity(value, unit.symbol, digits) : formatDecimal(value, digits);
}

/** ` (145 to 160 mmol/L)` behind a result that tolerances leave a range, else nothing. */
export function rangeText(range: readonly [Decimal, Decimal] | null, unit: string): string {
  if (!range || range[0].eq(range[1])) return '';
  const digits = digitsOf(range);
  const [low, high] = [formatDecimal(range[0], digits), formatDecimal(range[1], digits)];
  return ` (${low} to ${high}${unit && ` ${unit}`})`;
}

/** Digits that show the width of a range: 1.004 to 1.006 takes four. */
function digitsOf(range: readonly [Decimal, Decimal] | null): number {
  if (!range) return 3;
  const width = range[1].minus(range[0]);
  if (width.isZero() || range[1].isZero()) return 3;
  const digits = Math.max(3, range[1].e - width.e + 1);
  // 999.5 to 1000.5: both ends may round to the same number.
  return formatDecimal(range[0], digits) === formatDecimal(range[1], digits) ? digits + 1 : digits;
}
