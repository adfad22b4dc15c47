/** Serum sodium as the body's water and its sodium and potassium make it. */
import type { Contents } from '../contents.ts';
import { type Decimal, decimal, ZERO } from '../decimal.ts';
import { BODIES, sourceTitle } from '../reference.ts';
import { amountOfParticle, WATER_BINDING } from '../totals.ts';

/** What enters or leaves the body, all of it. */
export interface Flow {
  /** L. */
  readonly volume: Decimal;
  /** mmol of sodium and potassium. */
  readonly cations: Decimal;
}

/** mmol/L, by two formulas. */
export interface PredictedSodium {
  readonly massBalance: Decimal;
  readonly regression: Decimal;
}

const { sodium: CONSTANTS } = BODIES;
const SLOPE = decimal(CONSTANTS.slope.value);
const INTERCEPT = decimal(CONSTANTS.intercept.value);
const TARGET = decimal(CONSTANTS.target.value);
const ML_PER_LITRE = decimal(1000);

/** By how much predictions missed, as root mean square in mmol/L over 12 to 30 h; to be told beside each of them. */
export const SODIUM_ERROR = {
  least: decimal(CONSTANTS.leastError.value),
  most: decimal(CONSTANTS.mostError.value),
  source: sourceTitle(CONSTANTS.mostError.source),
} as const;

/**
 * Serum sodium afterwards. Mass balance: what of sodium and potassium there was, came and went, over the water there then
 * is. Regression: the same with slope 1.03 and intercept 23.8. `bodyWater` in L, `sodium` in mmol/L. Null where no water
 * would be left, or less than no sodium.
 */
export function predictedSodium({
  bodyWater,
  sodium,
  gained,
  lost,
}: {
  readonly bodyWater: Decimal;
  readonly sodium: Decimal;
  readonly gained: Flow;
  readonly lost: Flow;
}): PredictedSodium | null {
  const water = bodyWater.plus(gained.volume).minus(lost.volume);
  if (!bodyWater.gt(0) || !water.gt(0)) return null;
  const change = gained.cations.minus(lost.cations);
  const massBalance = sodium.times(bodyWater).plus(change).div(water);
  if (massBalance.lt(0)) return null;
  const regression = sodium.plus(INTERCEPT).times(bodyWater).plus(SLOPE.times(change)).div(water).minus(INTERCEPT);
  return { massBalance, regression };
}

/** L of pure water that would bring sodium down to the target (mmol/L): body water × (sodium ÷ target - 1). None for no target. */
export function freeWaterDeficit(bodyWater: Decimal, sodium: Decimal, target: Decimal = TARGET): Decimal {
  return target.gt(0) ? bodyWater.times(sodium.div(target).minus(1)) : ZERO;
}

/** mmol/L of sodium and potassium in a fluid that by the regression leaves this serum sodium as it is. */
export function isonatric(sodium: Decimal): Decimal {
  return sodium.times(CONSTANTS.isonatricSlope.value).plus(CONSTANTS.isonatricIntercept.value);
}

/**
 * mL of electrolyte-free water in the whole of a fluid against this serum sodium (mmol/L): volume × (1 - (Na + K) ÷ sodium).
 * Below zero for what raises the sodium; none where there is no sodium to hold it against.
 */
export function freeWaterAgainst(contents: Contents, sodium: Decimal): Decimal {
  if (!sodium.gt(0)) return ZERO;
  return contents.volume.minus(waterBindingCations(contents).times(ML_PER_LITRE).div(sodium));
}

/** mmol of sodium and potassium. */
export function waterBindingCations(contents: Contents): Decimal {
  const { sodium, potassium } = WATER_BINDING;
  return amountOfParticle(contents, sodium).plus(amountOfParticle(contents, potassium));
}
