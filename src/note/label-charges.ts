/** Whether the charges that a label states meet, as far as its digits tell. */
import { atMost, type Decimal, type Ion, ZERO } from '../engine/index.ts';

export interface StatedIon {
  readonly ion: Ion;
  /** mmol/L. */
  readonly mmol: Decimal;
  /** Half a unit of the last place written, in mmol/L. */
  readonly half: Decimal;
}

/** `other ions 5 mEq/L`; with a sign it says which, cations above zero. */
export interface OtherIons {
  /** mEq/L, as is half a unit of its last place. */
  readonly value: Decimal;
  readonly half: Decimal;
  readonly signed: boolean;
}

/** In mEq/L. */
export interface Balance {
  readonly cations: Decimal;
  readonly anions: Decimal;
  /** Below zero for anions; null where none are declared. */
  readonly others: Decimal | null;
  /** Cations less anions, the others counted. */
  readonly apart: Decimal;
  /** Half a unit of the last place of each figure, times its charge. */
  readonly allowed: Decimal;
  /** The sign of the ions that the stated ones want for, beyond what the digits allow; null where they meet. */
  readonly short: 1 | -1 | null;
}

export function balanceOf(ions: readonly StatedIon[], otherIons: OtherIons | null): Balance {
  let [cations, anions, digits] = [ZERO, ZERO, ZERO];
  for (const { ion, mmol, half } of ions) {
    const { charge } = ion.forms[0]!;
    if (charge > 0) cations = cations.plus(mmol.times(charge));
    else anions = anions.plus(mmol.times(-charge));
    digits = digits.plus(half.times(Math.abs(charge)));
    // An ion whose charge varies with the acidity counts for as much less or more as its forms differ.
    if (ion.charge === null) digits = digits.plus(mmol);
  }
  const gap = cations.minus(anions);
  const short = atMost(gap.abs(), digits) ? null : gap.isNegative() ? 1 : -1;
  if (!otherIons) return { cations, anions, others: null, apart: gap, allowed: digits, short };
  const { value, half, signed } = otherIons;
  const others = signed ? value : value.times(gap.isNegative() ? 1 : -1);
  return { cations, anions, others, apart: gap.plus(others), allowed: digits.plus(half), short };
}
