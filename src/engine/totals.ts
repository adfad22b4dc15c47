/** Sums over what a liquid holds: particles, charges, base, energy. Of the whole, in mmol, mEq, mOsm, kcal or g. */
import { type Contents, massOf } from './contents.ts';
import { atMost, type Decimal, decimal, manyTimes, nearlyEqual, sumOf, ZERO } from './decimal.ts';
import { type Ion, ionOf } from './ions.ts';
import { isEffective, type Particle, particleById } from './particles.ts';
import { LIMITS } from './reference.ts';
import { remembered } from './remembered.ts';
import type { Substance } from './substances.ts';

/** What free water and tonicity are measured against. */
export interface Reference {
  /** mmol/L of sodium and potassium in water that is all bound to electrolytes. */
  readonly freeWater: Decimal;
  /** mOsm/L from which a fluid is isotonic, and below which it still is. */
  readonly isotonicFrom: Decimal;
  readonly isotonicBelow: Decimal;
}

/** 154 mmol/L; 250 up to, not including, 375 mOsm/L. Sources in `shared/limits.json`. */
export const DEFAULT_REFERENCE: Reference = {
  freeWater: decimal(LIMITS.freeWaterReference.value),
  isotonicFrom: decimal(LIMITS.isotonicFrom.value),
  isotonicBelow: decimal(LIMITS.isotonicBelow.value),
};

/** What a fluid is called by its osmolarity, against plasma. */
export type Tonicity = 'hypotonic' | 'isotonic' | 'hypertonic';

const LITRE = decimal(1000);

/** The ions whose sum free water is worked out from. */
export const WATER_BINDING = { sodium: particleById('sodium')!, potassium: particleById('potassium')! };

/** Per mL; nothing per litre of nothing. */
export function perVolume(total: Decimal, volume: Decimal): Decimal {
  return volume.isZero() || total.isZero() ? ZERO : total.div(volume);
}

/** mmol of a particle. */
export function amountOfParticle(contents: Contents, particle: Particle): Decimal {
  return contents.particles.get(particle) ?? ZERO;
}

/** mmol of an ion in all its forms. */
export function amountOfIon(contents: Contents, { forms }: Ion): Decimal {
  return sumOf(forms, (form) => amountOfParticle(contents, form));
}

/** mEq of an ion: each form by its own charge. */
export function equivalentsOfIon(contents: Contents, { forms }: Ion): Decimal {
  return sumOf(forms, (form) => manyTimes(amountOfParticle(contents, form), Math.abs(form.charge)));
}

function overParticles({ particles }: Contents, weight: (particle: Particle) => number): Decimal {
  return sumOf(particles, ([particle, mmol]) => manyTimes(mmol, weight(particle)));
}

/** mOsm. */
export const osmoles = remembered((contents: Contents): Decimal => overParticles(contents, () => 1));

/** mOsm of the particles that hold water outside cells. */
export const effectiveOsmoles = remembered(
  (contents: Contents): Decimal => overParticles(contents, (particle) => (isEffective(particle) ? 1 : 0)),
);

/** mEq of positive charges. */
export function cationSum(contents: Contents): Decimal {
  return overParticles(contents, ({ charge }) => Math.max(charge, 0));
}

/** mEq of negative charges. */
export function anionSum(contents: Contents): Decimal {
  return overParticles(contents, ({ charge }) => Math.max(0 - charge, 0));
}

/**
 * mEq of strong cations less strong anions, once the body has metabolised what it can: lactate, acetate, gluconate, citrate
 * and bicarbonate leave, and so does ammonium; phosphate is no strong ion.
 */
export function strongIonDifference(contents: Contents): Decimal {
  const cations = overParticles(contents, ({ charge, strong }) => (strong ? Math.max(charge, 0) : 0));
  const anions = overParticles(contents, ({ charge, strong }) => (strong ? Math.max(0 - charge, 0) : 0));
  return nearlyEqual(cations, anions) ? ZERO : cations.minus(anions);
}

/**
 * mmol of bicarbonate that the ions are or become, less the acid that others bring. An acid brings none: what its anion
 * becomes, its protons take up. Without phosphate it is the strong ion difference, since charges balance.
 */
export function bicarbonatePrecursors(contents: Contents): Decimal {
  return overParticles(contents, ({ base }) => base);
}

/** kcal, by the labels' factors for sugars, glycerol and amino acids; lactate and other anions do not count. */
export function energy(contents: Contents): Decimal {
  return weighed(contents, (substance) => substance.energy ?? ZERO);
}

/**
 * The name of what has no known sodium chloride equivalent: a solute, or an ion that is known from a label only. Null when
 * the whole has one.
 */
export function withoutEquivalent(contents: Contents): string | null {
  const counted = [...contents.solutes, ...contents.masses];
  const missing = counted.find(([substance, amount]) => !amount.isZero() && !equivalentOf(substance));
  return missing?.[0].name ?? fromLabel(contents)?.name ?? null;
}

/** A particle of which there is more than the solutes give. */
function fromLabel({ solutes, particles }: Contents): Particle | null {
  for (const [particle, mmol] of particles) {
    let given = ZERO;
    for (const [{ gives }, amount] of solutes) {
      for (const part of gives) if (part.particle === particle) given = given.plus(amount.times(part.count));
    }
    if (!nearlyEqual(mmol, given)) return particle;
  }
  return null;
}

/** g of sodium chloride that lower the freezing point as the solutes together do. */
export function sodiumChlorideEquivalent(contents: Contents): Decimal {
  return weighed(contents, (substance) => equivalentOf(substance) ?? ZERO);
}

function equivalentOf(substance: Substance): Decimal | null {
  return substance.id === 'water' ? ZERO : substance.sodiumChlorideEquivalent;
}

/** The mass of each solute times what a gram of it counts for; a mass that is not known counts for nothing. */
function weighed({ solutes, masses }: Contents, perGram: (substance: Substance) => Decimal): Decimal {
  const dissolved = [...solutes].map(([substance, value]) => ({ substance, amount: { in: 'mmol', value } as const }));
  const weighedOut = [...masses].map(([substance, value]) => ({ substance, amount: { in: 'g', value } as const }));
  return sumOf([...dissolved, ...weighedOut], ({ substance, amount }) => {
    const each = perGram(substance);
    return each.isZero() ? ZERO : (massOf(substance, amount)?.times(each) ?? ZERO);
  });
}

/** mOsm/L, every particle counted once as if fully dissociated: the convention of labels. */
export const osmolarity = remembered(
  (contents: Contents): Decimal => perVolume(osmoles(contents), contents.volume).times(LITRE),
);

/** mOsm/L of the particles that hold water outside cells: all but dextrose, urea and glycerol. */
export const effectiveOsmolarity = remembered(
  (contents: Contents): Decimal => perVolume(effectiveOsmoles(contents), contents.volume).times(LITRE),
);

/** Electrolyte-free water in mL/L: 1000 × (1 - (Na + K) ÷ reference). Below zero for a hypertonic fluid. */
export function freeWaterPerLitre(contents: Contents, reference: Reference): Decimal {
  if (contents.volume.isZero()) return ZERO;
  const { sodium, potassium } = WATER_BINDING;
  const cations = amountOfParticle(contents, sodium).plus(amountOfParticle(contents, potassium));
  const perLitre = cations.times(LITRE).div(contents.volume);
  return LITRE.minus(perLitre.times(LITRE).div(reference.freeWater));
}

/**
 * Whether the rule of free water says where the water goes: not beside colloids, nor beside molecules that hold water outside
 * cells (mannitol, glycine, amino acids) and that it does not count.
 */
export function freeWaterHolds(contents: Contents): boolean {
  const heldBack = ([particle, mmol]: readonly [Particle, Decimal]) =>
    !mmol.isZero() && isEffective(particle) && !ionOf(particle);
  const colloid = ([{ own }, grams]: readonly [Substance, Decimal]) => !own && !grams.isZero();
  return ![...contents.particles].some(heldBack) && ![...contents.masses].some(colloid);
}

/** The class of an osmolarity in mOsm/L. */
export function tonicity(mOsmPerLitre: Decimal, reference: Reference): Tonicity {
  if (!atMost(reference.isotonicFrom, mOsmPerLitre)) return 'hypotonic';
  return atMost(reference.isotonicBelow, mOsmPerLitre) ? 'hypertonic' : 'isotonic';
}
