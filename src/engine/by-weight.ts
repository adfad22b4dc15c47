/** Strengths by weight: grams in 100 g of solution, by the solution's own estimated density. Published model: floats. */
import { type Amount, ofSolute } from './contents.ts';
import { type Decimal, decimal, ONE } from './decimal.ts';
import { density } from './osmolality/density.ts';
import { mmolOfGrams, type Substance } from './substances.ts';

/** No solute is heavier than this in 1 mL of a solution, g. */
const HEAVIEST = 3;
const HALVINGS = 60;
/** Digits that the model's figure is told to. */
const DIGITS = 6;

/**
 * g of the substance, its crystal water included, in 1 mL of a solution that holds that share of its weight; null for a
 * share that is none, or where the model has no density. `c = share × density(c)` has one answer, since a solution gains
 * less weight than what is dissolved in it.
 */
export function gramsPerMlByWeight(substance: Substance, share: Decimal): Decimal | null {
  const wanted = share.toNumber();
  if (!(wanted >= 0 && wanted < 1)) return null;
  const densityWith = (grams: number) => density(ofSolute(substance, amountOfGrams(substance, decimal(grams)), ONE));
  let [low, high] = [0, HEAVIEST];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2;
    const weight = densityWith(middle);
    if (weight.ok && middle <= wanted * weight.gramsPerMl) low = middle;
    else high = middle;
  }
  // The search ends at its own bound, or at the model's, where the answer lies beyond it.
  return high < HEAVIEST && densityWith(high).ok ? decimal(low.toPrecision(DIGITS)) : null;
}

function amountOfGrams({ molarMass }: Substance, grams: Decimal): Amount {
  return molarMass ? { in: 'mmol', value: mmolOfGrams(grams, molarMass) } : { in: 'g', value: grams };
}
