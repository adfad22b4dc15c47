/** Phrases that several checks share. */
import {
  type Decimal,
  type Dimension,
  dimensionWords,
  formatDecimal,
  formatQuantity,
  type Unit,
} from '../engine/index.ts';

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

export function measures(dimension: Dimension | null): string {
  return dimension ? `measures ${dimensionWords(dimension)}` : 'has no unit';
}

/** A value with its unit; a ratio has none. */
export function valueText(value: Decimal, unit: Unit | null): string {
  return unit ? formatQuantity(value, unit.symbol) : formatDecimal(value);
}

/** ` (145 to 160 mmol/L)` behind a result that tolerances leave a range, else nothing. */
export function rangeText(range: readonly [Decimal, Decimal] | null, unit: string): string {
  return range
    ? ` (${formatDecimal(range[0])} to ${unit ? formatQuantity(range[1], unit) : formatDecimal(range[1])})`
    : '';
}
