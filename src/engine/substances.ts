/** Substances that are weighed or dissolved: a salt or sugar in one crystal form. */
import { type Decimal, decimal, ZERO } from './decimal.ts';
import { molarMass } from './formula.ts';
import { nameKey } from './names.ts';
import { type Particle, particleById } from './particles.ts';
import { type Datum, FAMILY_DATA, type FamilyData, type FormData, LIMITS } from './reference.ts';

/** A salt or sugar in one crystal form. */
export interface Substance {
  readonly id: string;
  readonly name: string;
  /** Water of crystallisation after a dot: `CaCl2·2H2O`. */
  readonly formula: string;
  /** g/mol, the water of crystallisation included. */
  readonly molarMass: Decimal;
  readonly gives: readonly { readonly particle: Particle; readonly count: number }[];
  /** mL that a gram adds when it dissolves; the water of crystallisation counts as water. */
  readonly apparentVolume: Decimal;
  /** Solutes that are one in solution share a family: the hydrates of a salt; dextrose and glucose. */
  readonly family: string;
  /** g of the anhydrous substance in 100 g of water; null where any amount dissolves or no figure is known. */
  readonly solubility: {
    readonly gramsPer100gWater: Decimal;
    readonly celsius: number;
    readonly source: string;
  } | null;
  /** Strengths that a pharmacopoeia, handbook or label lists for this form. */
  readonly listedStrengths: readonly { readonly value: Decimal; readonly unit: string; readonly source: string }[];
  /** Molar mass of the anhydrous substance in g/mol, and its apparent specific volume in mL/g. */
  readonly anhydrous: { readonly molarMass: Decimal; readonly apparentVolume: Decimal };
  /** Keys into `shared/sources.json`, or the words that say there is none. */
  readonly sources: readonly string[];
}

/** Whose names an unqualified solute follows. */
export type Pharmacopoeia = 'USP' | 'Ph. Eur.';

/** What the name of a solute was taken to mean. */
export interface SoluteReading {
  readonly substance: Substance;
  /** How the form was chosen: named outright; only one exists; the pharmacopoeia's default. */
  readonly by: 'name' | 'only-form' | 'pharmacopoeia';
  /**
   * Forms that the words could equally mean when a mass is given, where the pharmacopoeia has no default (sodium acetate);
   * empty otherwise. For an amount in mmol the form does not matter.
   */
  readonly alternatives: readonly Substance[];
}

const WATER_MASS = molarMass('H2O')!;
/** g/mL at 20 °C. */
export const WATER_DENSITY: Decimal = decimal(LIMITS.waterDensity.value);

function substanceOf(family: FamilyData, form: FormData): Substance {
  const dry = molarMass(family.formula)!;
  const crystalWater = WATER_MASS.times(form.waters);
  const whole = dry.plus(crystalWater);
  const dryVolume = decimal(family.apparentVolume.value);
  const { solubility } = family;
  return {
    id: form.id,
    name: form.name,
    formula: form.waters === 0 ? family.formula : `${family.formula}·${form.waters === 1 ? '' : form.waters}H2O`,
    molarMass: whole,
    gives: family.gives.map(({ particle, count }) => ({ particle: particleById(particle)!, count })),
    apparentVolume: dry.times(dryVolume).plus(crystalWater.div(WATER_DENSITY)).div(whole),
    family: family.name,
    solubility: solubility && {
      gramsPer100gWater: decimal(solubility.value),
      celsius: Number(solubility.celsius),
      source: solubility.source,
    },
    listedStrengths: form.listedStrengths.map(({ value, unit, source }) => ({ value: decimal(value), unit, source })),
    anhydrous: { molarMass: dry, apparentVolume: dryVolume },
    sources: sourcesOf([family.apparentVolume, solubility, ...form.listedStrengths]),
  };
}

function sourcesOf(data: readonly (Datum | null)[]): readonly string[] {
  return [...new Set(data.flatMap((datum) => (datum ? [datum.source] : [])))];
}

const FAMILIES = FAMILY_DATA.map((data) => ({ data, forms: data.forms.map((form) => substanceOf(data, form)) }));
const ALL: readonly Substance[] = FAMILIES.flatMap(({ forms }) => forms);
const BY_ID: ReadonlyMap<string, Substance> = new Map(ALL.map((substance) => [substance.id, substance]));

const READINGS: ReadonlyMap<Pharmacopoeia, ReadonlyMap<string, SoluteReading>> = new Map(
  (['USP', 'Ph. Eur.'] as const).map((pharmacopoeia) => [pharmacopoeia, readingsUnder(pharmacopoeia)]),
);

function readingsUnder(pharmacopoeia: Pharmacopoeia): ReadonlyMap<string, SoluteReading> {
  const readings = new Map<string, SoluteReading>();
  for (const { data, forms } of FAMILIES) {
    for (const name of data.names) {
      readings.set(nameKey(name.text), unqualified(forms, name.default?.[pharmacopoeia].form));
      data.forms.forEach(({ words }, index) => {
        const reading: SoluteReading = { substance: forms[index]!, by: 'name', alternatives: [] };
        for (const word of words) {
          readings.set(nameKey(`${name.text} ${word}`), reading);
          readings.set(nameKey(`${word} ${name.text}`), reading);
        }
        const { formula, id, name: full } = forms[index]!;
        if (words.length === 0) return;
        readings.set(nameKey(id), reading);
        readings.set(nameKey(full), reading);
        if (formula.includes('·')) readings.set(nameKey(formula), reading);
      });
    }
  }
  return readings;
}

function unqualified(forms: readonly Substance[], usual: string | undefined): SoluteReading {
  if (forms.length === 1) return { substance: forms[0]!, by: 'only-form', alternatives: [] };
  if (usual) return { substance: BY_ID.get(usual)!, by: 'pharmacopoeia', alternatives: [] };
  return { substance: forms[0]!, by: 'pharmacopoeia', alternatives: forms.slice(1) };
}

/** Every substance, family by family. */
export function substances(): readonly Substance[] {
  return ALL;
}

/** The substance of that id, or null. */
export function substanceById(id: string): Substance | null {
  return BY_ID.get(id) ?? null;
}

/**
 * The solute that words name: generic, pharmacopoeial and chemical names, formulas, with or without the hydrate before or
 * after (`anhydrous dextrose`, `calcium chloride dihydrate`, `cacl2·2h2o`). Null when none is known.
 */
export function findSolute(key: string, pharmacopoeia: Pharmacopoeia = 'USP'): SoluteReading | null {
  const plain = nameKey(key).replace(/[.∙⋅•*](?=\d*h2o$)/, '·');
  return READINGS.get(pharmacopoeia)!.get(plain) ?? null;
}

/** Every name a solute can be called by, as written in the data. */
export function soluteNames(): readonly string[] {
  return FAMILIES.flatMap(({ data, forms }) => [
    ...data.names.map(({ text }) => text),
    ...(forms.length > 1 ? forms.map(({ name }) => name) : []),
  ]);
}

/** mEq that one mmol holds: the positive charges it gives; 0 for a molecule. */
export function equivalentsPerMole(substance: Substance): number {
  return substance.gives.reduce((sum, { particle, count }) => sum + Math.max(particle.charge, 0) * count, 0);
}

/** mOsm that one mmol gives by full dissociation, the convention of labels. */
export function osmolesPerMole(substance: Substance): number {
  return substance.gives.reduce((sum, { count }) => sum + count, 0);
}

/** mmol in that many grams: g ÷ (g/mol) is mol. */
export function mmolOfGrams(grams: Decimal, molar: Decimal): Decimal {
  return grams.times(1000).div(molar);
}

/** g that so many mmol weigh. */
export function gramsOfMmol(mmol: Decimal, molar: Decimal): Decimal {
  return mmol.times(molar).div(1000);
}

/** The particles of an amount of a substance, in mmol by particle id. */
export function particlesOf(substance: Substance, mmol: Decimal): ReadonlyMap<string, Decimal> {
  const amounts = new Map<string, Decimal>();
  for (const { particle, count } of substance.gives) {
    amounts.set(particle.id, (amounts.get(particle.id) ?? ZERO).plus(mmol.times(count)));
  }
  return amounts;
}
