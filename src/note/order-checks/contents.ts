/** What the checks ask of a fluid. */
import {
  amountOfIon,
  type Contents,
  type Decimal,
  decimal,
  findIon,
  type Ion,
  massOf,
  remembered,
  type Substance,
  sumOf,
  ZERO,
} from '../../engine/index.ts';

const LITRE = decimal(1000);

function ion(name: string): Ion {
  return findIon(name)!;
}

export const SODIUM = ion('sodium');
export const POTASSIUM = ion('potassium');
export const CHLORIDE = ion('chloride');
export const CALCIUM = ion('calcium');
export const MAGNESIUM = ion('magnesium');
export const PHOSPHATE = ion('phosphate');

/** mmol/L. Several checks ask the same of one fluid. */
export function perLitre(contents: Contents, of: Ion): Decimal {
  const { volume } = contents;
  if (volume.isZero()) return ZERO;
  const known = PER_LITRE(contents);
  const found = known.get(of) ?? amountOfIon(contents, of).times(LITRE).div(volume);
  known.set(of, found);
  return found;
}

const PER_LITRE = remembered((_: Contents) => new Map<Ion, Decimal>());

/** mmol of sodium and potassium. */
export function sodiumAndPotassium(contents: Contents): Decimal {
  return amountOfIon(contents, SODIUM).plus(amountOfIon(contents, POTASSIUM));
}

/** g of a family of solutes, each form by its own mass as labels count it. */
export function gramsOfFamily({ solutes }: Contents, family: string): Decimal {
  return sumOf(solutes, ([substance, mmol]) => (substance.family === family ? grams(substance, mmol) : ZERO));
}

function grams(substance: Substance, mmol: Decimal): Decimal {
  return massOf(substance, { in: 'mmol', value: mmol }) ?? ZERO;
}

/** g in 100 mL. */
export function percentOf(contents: Contents, amount: Decimal): Decimal {
  return contents.volume.isZero() || amount.isZero() ? ZERO : amount.times(100).div(contents.volume);
}

/** mL of water beyond what its sodium and potassium bind at a serum sodium above 0 mmol/L; may be below zero. */
export function freeWaterAgainst(contents: Contents, serumSodium: Decimal): Decimal {
  return contents.volume.minus(sodiumAndPotassium(contents).times(LITRE).div(serumSodium));
}
