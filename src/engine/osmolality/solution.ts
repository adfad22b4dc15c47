/** What 1 mL of a solution holds. Published model: floats. */
import type { Contents } from '../contents.ts';
import { type Decimal, manyTimes, ZERO } from '../decimal.ts';
import { type Particle, particleById } from '../particles.ts';
import { FAMILY_DATA, type FamilyData, PARTICLE_DATA } from '../reference.ts';
import { remembered } from '../remembered.ts';
import type { Substance } from '../substances.ts';
import { formulaKey } from './tables.ts';

/** A particle in solution. */
export interface Species {
  readonly id: string;
  readonly name: string;
  /** Spelled as the tables spell it; empty when the particle is not known. */
  readonly formula: string;
  readonly charge: number;
  /** mol/L of solution. */
  readonly molarity: number;
  /** g/mol; 0 when the particle is not known. */
  readonly molarMass: number;
}

/** A solute in solution, without its water of crystallisation. */
export interface Solute {
  /** Id of its family, by which tables are found. */
  readonly family: string;
  readonly name: string;
  readonly gramsPerMl: number;
  /** mol/L that its ions bring; 0 for a molecule. */
  readonly ionicStrength: number;
  /** mL/g, one figure for all strengths, where there is no table. */
  readonly apparentVolume: number;
}

/** Everything in order of id, so that the order in which things were added leaves no trace in the last digits. */
export interface Solution {
  readonly solutes: readonly Solute[];
  /** Particles known from a label alone, of no solute above. */
  readonly loose: readonly Species[];
  /** Every particle, those of the solutes included. */
  readonly species: readonly Species[];
  /** mol/L. */
  readonly ionicStrength: number;
  /** g/mL of solutes and loose particles. */
  readonly gramsPerMl: number;
}

/** mol/L below which nothing is left but the last digits of a division. */
const TRACE = 1e-15;

const FAMILY_OF_FORM: ReadonlyMap<string, string> = new Map(
  FAMILY_DATA.flatMap(({ id, forms }) => forms.map((form) => [form.id, id] as const)),
);
const FORMULAS: ReadonlyMap<string, string> = new Map(
  PARTICLE_DATA.particles.map(({ id, formula }) => [id, formula === null ? '' : formulaKey(formula)]),
);

/** Families of one molecule, by the id of the particle. */
export const MOLECULES: ReadonlyMap<string, FamilyData> = new Map(
  FAMILY_DATA.flatMap((family) => {
    const [only, ...more] = family.gives;
    const molecule = only && more.length === 0 && particleById(only.particle)?.charge === 0;
    return molecule ? [[only.particle, family] as const] : [];
  }),
);

/** What 1 mL of these contents holds, or null without a volume. */
export function solutionOf(contents: Contents): Solution | null {
  return contents.volume.lte(0) ? null : perMlOf(contents);
}

/** Density and osmolality both ask. */
const perMlOf = remembered((contents: Contents): Solution => {
  const volume = contents.volume.toNumber();
  const perMl = (amount: Decimal) => (amount.isZero() ? 0 : amount.toNumber() / volume);
  const loose = new Map(contents.particles);
  const solutes: Solute[] = [];
  for (const [substance, mmol] of inOrder(contents.solutes)) {
    if (substance.id === 'water') continue;
    for (const { particle, count } of substance.gives) {
      loose.set(particle, (loose.get(particle) ?? ZERO).minus(manyTimes(mmol, count)));
    }
    const molarity = perMl(mmol);
    if (molarity > TRACE) solutes.push(soluteOf(substance, molarity));
  }
  for (const [substance, grams] of inOrder(contents.masses)) solutes.push(weighedOf(substance, perMl(grams)));
  const present = (amounts: ReadonlyMap<Particle, Decimal>) =>
    inOrder(amounts).flatMap(([particle, mmol]) => {
      const molarity = perMl(mmol);
      return molarity > TRACE ? [{ molarity, ...kindOf(particle) }] : [];
    });
  const species = present(contents.particles);
  const others = present(loose);
  return {
    solutes,
    loose: others,
    species,
    ionicStrength: ionicStrength(species.map(({ molarity, charge }) => [molarity, charge])),
    gramsPerMl: total(solutes, (solute) => solute.gramsPerMl) + total(others, gramsPerMl),
  };
});

/** g/mL of a particle. */
export function gramsPerMl({ molarity, molarMass }: Species): number {
  return (molarity * molarMass) / 1000;
}

/** Half the sum of amount times charge squared, in the unit of the amounts. */
export function ionicStrength(ions: readonly (readonly [amount: number, charge: number])[]): number {
  return total(ions, ([amount, charge]) => (amount * charge ** 2) / 2);
}

export function total<T>(items: readonly T[], amount: (item: T) => number): number {
  return items.reduce((sum, item) => sum + amount(item), 0);
}

function soluteOf(substance: Substance, molarity: number): Solute {
  const { molarMass, apparentVolume } = figuresOf(substance);
  return {
    family: FAMILY_OF_FORM.get(substance.id) ?? substance.id,
    name: substance.family,
    gramsPerMl: (molarity * molarMass) / 1000,
    ionicStrength: ionicStrength(substance.gives.map(({ particle, count }) => [molarity * count, particle.charge])),
    apparentVolume,
  };
}

/** Of the anhydrous substance, as floats. */
const figuresOf = remembered(({ anhydrous }: Substance) => ({
  molarMass: anhydrous.molarMass?.toNumber() ?? 0,
  apparentVolume: anhydrous.apparentVolume.toNumber(),
}));

/** A solute counted by its mass alone, such as albumin: it takes up room and brings no particles. */
function weighedOf({ id, name, apparentVolume }: Substance, gramsPerMl: number): Solute {
  return { family: id, name, gramsPerMl, ionicStrength: 0, apparentVolume: apparentVolume.toNumber() };
}

/** A particle as the tables know it. */
const kindOf = remembered((particle: Particle): Omit<Species, 'molarity'> => {
  const { id, name, charge, molarMass } = particle;
  const formula = particleById(id) === particle ? (FORMULAS.get(id) ?? '') : '';
  return { id, name, formula, charge, molarMass: molarMass?.toNumber() ?? 0 };
});

function inOrder<K extends { readonly id: string }, T>(amounts: ReadonlyMap<K, T>): readonly (readonly [K, T])[] {
  return [...amounts].sort(([a], [b]) => (a.id < b.id ? -1 : 1));
}
