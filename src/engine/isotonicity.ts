/** What a gram of a solute does to the freezing point, in grams of sodium chloride, however it was given. */
import { type Decimal, decimal, ONE } from './decimal.ts';
import { molarMass } from './formula.ts';
import { LIMITS } from './reference.ts';

/** How a note says what its own substance does to the freezing point. */
export type FreezingFigure =
  /** g of sodium chloride for a gram, as a table lists it. */
  | { readonly by: 'equivalent'; readonly grams: Decimal }
  /** °C by which a solution of that strength, in g/mL, freezes below water; in proportion at other strengths. */
  | { readonly by: 'depression'; readonly celsius: Decimal; readonly strength: Decimal }
  /** The share of it that is dissociated at isotonic strength, 0 to 1. */
  | { readonly by: 'dissociation'; readonly share: Decimal };

const SODIUM_CHLORIDE = molarMass('NaCl')!;
/** g/mL of sodium chloride, and °C below water at which it freezes. */
const ISOTONIC = decimal(LIMITS.isotonicSodiumChloride.value).div(100);
const ISOTONIC_DEPRESSION = decimal(LIMITS.isotonicDepression.value);
const SALT_DISSOCIATION = decimal(LIMITS.sodiumChlorideDissociation.value).div(100);

/** Particles that one molecule of so many ions gives when that share of it is dissociated: i = 1 + share × (ions − 1). */
export function dissociationFactor(share: Decimal, ions: number): Decimal {
  return share.times(ions - 1).plus(ONE);
}

/**
 * g of sodium chloride for a gram; null where the dissociation of something without a molar mass was given. `molar`: g/mol;
 * `ions`: how many a molecule gives.
 */
export function equivalentBy(figure: FreezingFigure, molar: Decimal | null, ions: number): Decimal | null {
  switch (figure.by) {
    case 'equivalent':
      return figure.grams;
    case 'depression':
      return figure.celsius.div(ISOTONIC_DEPRESSION).times(ISOTONIC).div(figure.strength);
    case 'dissociation': {
      const salt = dissociationFactor(SALT_DISSOCIATION, 2);
      return molar && dissociationFactor(figure.share, ions).times(SODIUM_CHLORIDE).div(salt.times(molar));
    }
  }
}
