/** Where an infused fluid goes, by the simple rule of textbooks. */
import type { Contents } from '../contents.ts';
import { type Decimal, decimal, ZERO } from '../decimal.ts';
import { BODIES } from '../reference.ts';
import { freeWaterHolds, type Reference } from '../totals.ts';
import { freeWaterAgainst } from './serum-sodium.ts';

/**
 * mL. `isotonic` and `freeWater` are one division of the volume, `cells`, `interstitium` and `plasma` another. Free water, and
 * with it the share of cells, is below zero for a hypertonic fluid: it draws water out of them.
 */
export interface Compartments {
  readonly isotonic: Decimal;
  readonly freeWater: Decimal;
  readonly cells: Decimal;
  readonly interstitium: Decimal;
  readonly plasma: Decimal;
}

const CELLS_TO_OUTSIDE = decimal(BODIES.compartments.cellsToOutside.value);
const INTERSTITIUM_TO_PLASMA = decimal(BODIES.compartments.interstitiumToPlasma.value);
const ML_PER_LITRE = decimal(1000);

/**
 * Once dextrose is used: free water spreads two thirds into cells and a third outside, the isotonic rest stays outside. Null
 * beside colloids and molecules that the rule does not count. Potassium, which goes into cells, is counted as outside.
 */
export function compartments(contents: Contents, reference: Reference): Compartments | null {
  if (!freeWaterHolds(contents)) return null;
  return spread(contents.volume, freeWaterAgainst(contents, reference.freeWater));
}

/**
 * Before dextrose is used: its particles hold water outside cells as those of salts do. Simplified: isotonic is what the
 * particles of sodium and potassium with their anions, and of dextrose, would fill at twice the reference (308 mOsm/L by
 * default). A fluid without dextrose comes out as by `compartments`.
 */
export function compartmentsBeforeUse(contents: Contents, reference: Reference): Compartments | null {
  if (!freeWaterHolds(contents)) return null;
  const filled = reference.freeWater.gt(0)
    ? sugarOf(contents).times(ML_PER_LITRE).div(reference.freeWater.times(2))
    : ZERO;
  return spread(contents.volume, freeWaterAgainst(contents, reference.freeWater).minus(filled));
}

/** mmol of what the body burns to water. */
function sugarOf({ particles }: Contents): Decimal {
  return [...particles].reduce((sum, [{ body }, mmol]) => (body === 'becomes water' ? sum.plus(mmol) : sum), ZERO);
}

function spread(volume: Decimal, freeWater: Decimal): Compartments {
  const cells = freeWater.times(CELLS_TO_OUTSIDE).div(CELLS_TO_OUTSIDE.plus(1));
  const outside = volume.minus(cells);
  const plasma = outside.div(INTERSTITIUM_TO_PLASMA.plus(1));
  return { isotonic: volume.minus(freeWater), freeWater, cells, interstitium: outside.minus(plasma), plasma };
}
