/** Osmolality of serum from laboratory values, all in mmol/L. */
import { type Decimal, decimal } from '../decimal.ts';
import { BODIES } from '../reference.ts';

const STEP = decimal(BODIES.glucose.step.value);
const SODIUM_FALL = decimal(BODIES.glucose.sodiumFall.value);

/** mOsm/kg: 2 × sodium + glucose + urea. */
export function calculatedOsmolality({
  sodium,
  glucose,
  urea,
}: {
  readonly sodium: Decimal;
  readonly glucose: Decimal;
  readonly urea: Decimal;
}): Decimal {
  return effectiveOsmolality({ sodium, glucose }).plus(urea);
}

/** mOsm/kg: 2 × sodium + glucose. Urea crosses into cells and holds no water outside them. */
export function effectiveOsmolality({
  sodium,
  glucose,
}: {
  readonly sodium: Decimal;
  readonly glucose: Decimal;
}): Decimal {
  return sodium.times(2).plus(glucose);
}

/**
 * mmol/L that sodium would be at a glucose of 5.6 mmol/L: 1.6 more for every 5.6 above that. Unchanged below it. 2.4 instead of
 * 1.6 is an alternative, for high glucose above all.
 */
export function correctedSodium(sodium: Decimal, glucose: Decimal): Decimal {
  const above = glucose.minus(STEP);
  return above.gt(0) ? sodium.plus(above.div(STEP).times(SODIUM_FALL)) : sodium;
}
