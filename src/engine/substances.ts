/** Substances that are weighed or dissolved: a salt or sugar in one crystal form, a colloid, a drug of a note's own. */
import { type Decimal, decimal, manyTimes } from './decimal.ts';
import { molarMass } from './formula.ts';
import { type Particle, particleById } from './particles.ts';
import { type Datum, FAMILY_DATA, type FamilyData, type FormData, LIMITS, type SolubilityDatum } from './reference.ts';
import { remembered } from './remembered.ts';

/** Particles that one mole of a substance gives. */
export interface Given {
  readonly particle: Particle;
  readonly count: number;
}

/** How much dissolves at one temperature. */
export interface Solubility {
  readonly celsius: Decimal;
  /** g of the anhydrous substance that saturate 100 g of water. */
  readonly gramsPer100gWater: Decimal;
  readonly source: string;
}

/** A substance in one form. One object for one substance: compare by identity. */
export interface Substance {
  readonly id: string;
  readonly name: string;
  /** Water of crystallisation after a dot: `CaCl2·2H2O`. Null for a mixture such as albumin, and for a note's own. */
  readonly formula: string | null;
  /** g/mol, the water of crystallisation included; null where there is none: mass and mmol are then never converted. */
  readonly molarMass: Decimal | null;
  /** Empty for water, and for what counts no osmoles. */
  readonly gives: readonly Given[];
  /** mL that a gram adds when it dissolves; the water of crystallisation counts as water. */
  readonly apparentVolume: Decimal;
  /** Solutes that are one in solution share a family: the hydrates of a salt; dextrose and glucose. */
  readonly family: string;
  /** By rising temperature; empty where any amount dissolves or no figure is known. */
  readonly solubility: readonly Solubility[];
  /** Strengths that a pharmacopoeia, handbook or label lists for this form. */
  readonly listedStrengths: readonly { readonly value: Decimal; readonly unit: string; readonly source: string }[];
  /** Molar mass of the anhydrous substance in g/mol, and its apparent specific volume in mL/g. */
  readonly anhydrous: { readonly molarMass: Decimal | null; readonly apparentVolume: Decimal };
  /** kcal in a gram; null where it counts as no source of energy. */
  readonly energy: Decimal | null;
  /** g of sodium chloride that lower the freezing point as much as a gram of this; null where no figure is known. */
  readonly sodiumChlorideEquivalent: Decimal | null;
  /**
   * The share dissociated at isotonic strength, 0 to 1, of a note's own that says so; it bears on the sodium chloride
   * equivalent alone. Osmolarity counts every ion, as labels do.
   */
  readonly dissociation: Decimal | null;
  /** Never weighed dry, and in no other strengths than those of its stock fluids, whose labels state the ions beside it. */
  readonly solutionOnly: boolean;
  /** Declared in a note: it may be counted by its activity. */
  readonly own: boolean;
  /** Keys into `shared/sources.json`, or the words that say there is none. */
  readonly sources: readonly string[];
}

const WATER_MASS = molarMass('H2O')!;
/** g/mL at 20 °C. */
export const WATER_DENSITY: Decimal = decimal(LIMITS.waterDensity.value);

function substanceOf(family: FamilyData, form: FormData): Substance {
  const dry = family.formula === null ? null : molarMass(family.formula)!;
  const crystalWater = WATER_MASS.times(form.waters);
  const whole = dry?.plus(crystalWater) ?? null;
  const dryVolume = decimal(family.apparentVolume.value);
  const { energy = null, sodiumChlorideEquivalent: equivalent = null } = form;
  return {
    id: form.id,
    name: form.name,
    formula: formulaOf(family, form),
    molarMass: whole,
    gives: family.gives.map(({ particle, count }) => ({ particle: particleById(particle)!, count })),
    apparentVolume: dry && whole ? dry.times(dryVolume).plus(crystalWater.div(WATER_DENSITY)).div(whole) : dryVolume,
    family: family.name,
    solubility: family.solubility.map(solubilityOf),
    listedStrengths: form.listedStrengths.map(({ value, unit, source }) => ({ value: decimal(value), unit, source })),
    anhydrous: { molarMass: dry, apparentVolume: dryVolume },
    energy: energy && decimal(energy.value),
    sodiumChlorideEquivalent: equivalent && decimal(equivalent.value),
    dissociation: null,
    solutionOnly: family.solutionOnly ?? false,
    own: false,
    sources: sourcesOf([family.apparentVolume, ...family.solubility, energy, equivalent, ...form.listedStrengths]),
  };
}

function formulaOf({ formula }: FamilyData, { waters }: FormData): string | null {
  return formula === null || waters === 0 ? formula : `${formula}·${waters === 1 ? '' : waters}H2O`;
}

function solubilityOf({ celsius, value, source }: SolubilityDatum): Solubility {
  return { celsius: decimal(celsius), gramsPer100gWater: decimal(value), source };
}

function sourcesOf(data: readonly (Datum | null)[]): readonly string[] {
  return [...new Set(data.flatMap((datum) => (datum ? [datum.source] : [])))];
}

const FAMILIES: readonly (readonly Substance[])[] = FAMILY_DATA.map((data) =>
  data.forms.map((form) => substanceOf(data, form)),
);
const ALL: readonly Substance[] = FAMILIES.flat();
const BY_ID: ReadonlyMap<string, Substance> = new Map(ALL.map((substance) => [substance.id, substance]));

/** Every built-in substance, family by family. */
export function substances(): readonly Substance[] {
  return ALL;
}

/** The built-in substance of that id, or null. */
export function substanceById(id: string): Substance | null {
  return BY_ID.get(id) ?? null;
}

/** Whether mmol of it can be told: it has a molar mass, or gives particles. */
export function isCountable({ molarMass, gives }: Substance): boolean {
  return molarMass !== null || gives.length > 0;
}

/** mEq that one mmol holds: the positive charges it gives; 0 for a molecule. */
export function equivalentsPerMole(substance: Substance): number {
  return substance.gives.reduce((sum, { particle, count }) => sum + Math.max(particle.charge, 0) * count, 0);
}

/** mOsm that one mmol gives by full dissociation, the convention of labels. */
export function osmolesPerMole(substance: Substance): number {
  return substance.gives.reduce((sum, { count }) => sum + count, 0);
}

/** g/mmol of a molar mass in g/mol. A thousandth is exact. */
const perMillimole = remembered((molar: Decimal): Decimal => molar.div(1000));

/** mmol in that many grams. */
export function mmolOfGrams(grams: Decimal, molar: Decimal): Decimal {
  return grams.div(perMillimole(molar));
}

/** g that so many mmol weigh. */
export function gramsOfMmol(mmol: Decimal, molar: Decimal): Decimal {
  return mmol.times(perMillimole(molar));
}

/** The particles of an amount of a substance, in mmol. */
export function particlesOf(substance: Substance, mmol: Decimal): ReadonlyMap<Particle, Decimal> {
  const amounts = new Map<Particle, Decimal>();
  for (const { particle, count } of substance.gives) {
    const given = manyTimes(mmol, count);
    amounts.set(particle, amounts.get(particle)?.plus(given) ?? given);
  }
  return amounts;
}
