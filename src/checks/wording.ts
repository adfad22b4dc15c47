/** Phrases that several checks share. */
import { type Dimension, dimensionWords, formatDecimal } from '../engine/index.ts';
import type { FailedClaim } from '../note/faults.ts';
import type { Fix } from './check.ts';

export { rangeText, valueText } from '../note/result-text.ts';

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
