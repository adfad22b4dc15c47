/** A result in the unit asked, and the range that tolerances and models leave it. */
import {
  type Contents,
  Decimal,
  type Measured,
  type MeasuredRatio,
  measure,
  measureRatio,
  type Observable,
  type Reference,
  type Unit,
  ZERO,
} from '../engine/index.ts';

/** A mixture's contents, with those at each combination of its tolerances. */
export interface Held {
  readonly contents: Contents;
  readonly extremes: readonly Contents[];
}

/** The value in a unit, or a bare number where `unit` is null. */
export function resultOf(
  contents: Contents,
  observable: Observable,
  unit: Unit | null,
  reference: Reference,
): Measured | MeasuredRatio {
  return unit ? measure(contents, observable, unit, reference) : measureRatio(contents, observable);
}

/** The least and the most it comes to, by the tolerances written and by what a model may be off; null for an exact one. */
export function rangeOf(
  { contents, extremes }: Held,
  observable: Observable,
  unit: Unit | null,
  reference: Reference,
): readonly [Decimal, Decimal] | null {
  let exact = extremes.length === 0;
  const ends = [contents, ...extremes].flatMap((held) => {
    const found = resultOf(held, observable, unit, reference);
    if (!found.ok) return [];
    const within = 'within' in found && found.within ? found.within : ZERO;
    if (!within.isZero()) exact = false;
    return [found.value.minus(within), found.value.plus(within)];
  });
  return exact || ends.length === 0 ? null : [Decimal.min(...ends), Decimal.max(...ends)];
}
