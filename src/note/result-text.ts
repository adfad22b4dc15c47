/** Results as they are told: to three digits, or to as many as their range leaves meaning. */
import {
  type Decimal,
  decimal,
  effectiveOsmolarity,
  formatDecimal,
  formatQuantity,
  type Observable,
  osmolarity,
  type Reference,
  type Tonicity,
  tonicity,
  type Unit,
  unit,
  ZERO,
} from '../engine/index.ts';
import type { WorkedComparison } from './model.ts';
import { type Held, rangeOf, resultOf } from './ranges.ts';

const HALF = decimal('0.5');

/** A value with its unit; a ratio has none. */
export function valueText(exact: Decimal, unit: Unit | null, range: readonly [Decimal, Decimal] | null = null): string {
  const digits = digitsOf(range);
  const value = settled(exact, unit);
  return unit ? formatQuantity(value, unit.symbol, digits) : formatDecimal(value, digits);
}

/** Free water in mL/L is what is left of 1000: less than half a millilitre of it is the rounding of what was taken away. */
export function toldFreeWater(perLitre: Decimal): Decimal {
  return perLitre.abs().lt(HALF) ? ZERO : perLitre;
}

/** The same of free water, or of what it leaves in cells, as a share of a whole volume. */
export function toldShare(share: Decimal, whole: Decimal): Decimal {
  return share.abs().times(1000).lt(whole.times(HALF)) ? ZERO : share;
}

/** Of all results only free water is a volume by volume. */
function settled(value: Decimal, of: Unit | null): Decimal {
  const isFreeWater = of?.dimension.over === 'volume' && of.dimension.under.includes('volume');
  return isFreeWater ? toldFreeWater(value) : value;
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

/** The class that a tonicity observable answers with; null for an observable that answers with a number. */
export function tonicityOf({ contents }: Held, observable: Observable, reference: Reference): Tonicity | null {
  if (observable.kind === 'tonicity-bag') return tonicity(osmolarity(contents), reference);
  if (observable.kind === 'tonicity-body') return tonicity(effectiveOsmolarity(contents), reference);
  return null;
}

/** A result in its own unit, with its range where tolerances leave one: `152 mmol/L`, `isotonic`. */
export function resultText(held: Held, observable: Observable, reference: Reference): string {
  return told(held, observable, reference, true);
}

/** The same without its unit, for a table that has it at the head of its column. */
export function resultCell(held: Held, observable: Observable, reference: Reference): string {
  return told(held, observable, reference, false);
}

/** A row a fluid, a column a result; the unit stands at the head of its column. */
export function comparisonCells(
  { observables, rows }: Pick<WorkedComparison, 'observables' | 'rows'>,
  reference: Reference,
): { readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  return {
    head: ['', ...observables.map(({ name, unit: of }) => (of ? `${name}, ${of}` : name))],
    rows: rows.map((row) => [row.name, ...observables.map((observable) => resultCell(row, observable, reference))]),
  };
}

function told(held: Held, observable: Observable, reference: Reference, withUnit: boolean): string {
  const asWord = tonicityOf(held, observable, reference);
  if (asWord) return asWord;
  const of = observable.unit ? unit(observable.unit) : null;
  const measured = resultOf(held.contents, observable, of, reference);
  if (!measured.ok) return measured.problem === 'not-stated' ? 'not stated' : '–';
  const range = rangeOf(held, observable, of, reference);
  const shown = withUnit ? of : null;
  return `${valueText(settled(measured.value, of), shown, range)}${rangeText(range, shown?.symbol ?? '')}`;
}
