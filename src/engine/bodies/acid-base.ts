/** Bicarbonate that is lacking, and what leaves the acidity of blood as it is. */
import { type Decimal, decimal } from '../decimal.ts';
import { BODIES } from '../reference.ts';

const { acidBase: CONSTANTS } = BODIES;
const SPACE = decimal(CONSTANTS.space.value);

/** mEq/L of strong ion difference of a fluid that by dilution makes blood neither more acid nor less. */
export const NEUTRAL_STRONG_ION_DIFFERENCE: Decimal = decimal(CONSTANTS.neutralStrongIonDifference.value);

/**
 * mmol that would bring bicarbonate from one level to the other (mmol/L): space × weight × (target - bicarbonate), the space in
 * L/kg. Below zero where bicarbonate is above the target.
 */
export function bicarbonateDeficit({
  weight,
  bicarbonate,
  target,
  space = SPACE,
}: {
  /** kg. */
  readonly weight: Decimal;
  readonly bicarbonate: Decimal;
  readonly target: Decimal;
  readonly space?: Decimal;
}): Decimal {
  return space.times(weight).times(target.minus(bicarbonate));
}

/** L/kg in which bicarbonate seems to spread, 0.4 + 2.6 ÷ bicarbonate (mmol/L): the lower that is, the wider. Null for none. */
export function bicarbonateSpace(bicarbonate: Decimal): Decimal | null {
  if (!bicarbonate.gt(0)) return null;
  return decimal(CONSTANTS.spaceByBicarbonate.value).div(bicarbonate).plus(CONSTANTS.leastSpace.value);
}

/** mmol of bicarbonate by 0.3 × kg × base deficit (mEq/L), as in the newborn. */
export function deficitByBase(weight: Decimal, baseDeficit: Decimal): Decimal {
  return weight.times(baseDeficit).times(CONSTANTS.baseSpace.value);
}
