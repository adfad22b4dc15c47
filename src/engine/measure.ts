/** What a mixture is found to hold, in the unit asked. */
import { type Contents, massOf } from './contents.ts';
import { type Decimal, decimal, sumOf, ZERO } from './decimal.ts';
import { findIon, type Ion } from './ions.ts';
import type { Observable } from './observables.ts';
import { density } from './osmolality/density.ts';
import { osmolality } from './osmolality/osmolality.ts';
import type { Particle } from './particles.ts';
import { equivalentsPerMole, gramsOfMmol, isCountable, osmolesPerMole, type Substance } from './substances.ts';
import {
  amountOfIon,
  anionSum,
  bicarbonatePrecursors,
  cationSum,
  effectiveOsmoles,
  energy,
  equivalentsOfIon,
  freeWaterPerLitre,
  osmoles,
  perVolume,
  type Reference,
  sodiumChlorideEquivalent,
  strongIonDifference,
  WATER_BINDING,
  withoutEquivalent,
} from './totals.ts';
import { type Base, type Dimension, isPer, isVolume, type Unit, unit } from './units.ts';

/** Why there is no value. */
export type Unmeasured =
  /** `fits`: units, or words, that would do. */
  | {
      readonly ok: false;
      readonly problem: 'wrong-dimension';
      readonly got: Dimension | null;
      readonly fits: readonly string[];
    }
  /** A mass of an ion that does not say `elemental`; `asElement` is what it would be, in the unit asked. */
  | { readonly ok: false; readonly problem: 'elemental-or-salt'; readonly ion: Ion; readonly asElement: Decimal }
  /** mEq of an ion whose charge varies with the acidity. */
  | { readonly ok: false; readonly problem: 'equivalents-of-varying-charge'; readonly ion: Ion }
  /** What it rests on is not known: an ion that a label leaves out, a figure that a solute lacks. `of` names it. */
  | { readonly ok: false; readonly problem: 'not-stated'; readonly of: string }
  /** A ratio to nothing. */
  | { readonly ok: false; readonly problem: 'no-chloride' }
  /** The model behind it gives no estimate of such a fluid. */
  | {
      readonly ok: false;
      readonly problem: 'no-estimate';
      readonly why: 'no-volume' | 'no-water' | 'charge-imbalance' | 'too-strong';
    }
  /** A rate, a share of the body: only an order or a patient has it. */
  | { readonly ok: false; readonly problem: 'no-such-result' };

/** A value in the unit asked, or why there is none. */
export type Measured =
  | {
      readonly ok: true;
      readonly value: Decimal;
      readonly unit: Unit;
      /** By how much a published model may be off, in that unit; null for what is exact. */
      readonly within: Decimal | null;
    }
  | Unmeasured;

/** A bare number, or why there is none. */
export type MeasuredRatio = { readonly ok: true; readonly value: Decimal } | Unmeasured;

/** An amount of one thing in every way it can be told, worked out when it is; null where it cannot be. */
type Amounts = Partial<Readonly<Record<Base, () => Decimal | null>>>;

const LITRE = decimal(1000);
const CHLORIDE = findIon('chloride')!;
const SODIUM = findIon('sodium')!;

/**
 * Measures an observable in a unit: per litre when the unit is per volume, of the whole container when it is not
 * (`sodium 39 mmol`). mEq by charge; the mass of an ion only as `elemental`; a solute also as `%`; free water as `%` of
 * volume, mL/L or mL. A tonicity has words, a ratio a bare number (`measureRatio`), and neither has a unit.
 */
export function measure(contents: Contents, observable: Observable, to: Unit, reference: Reference): Measured {
  if (isPer(to, 'solution-mass')) return measureByWeight(contents, observable, to, reference);
  const missing = leftOut(contents, observable);
  if (missing) return { ok: false, problem: 'not-stated', of: missing };
  const { volume } = contents;
  switch (observable.kind) {
    case 'volume':
      return isVolume(to) ? found(volume.div(to.factor), to) : wrong(to, ['mL', 'L']);
    case 'ion':
    case 'sodium-load':
    case 'chloride-load':
      return measureIon(contents, observable, observable.ion!, to);
    case 'solute':
      return measureSolute(contents, observable, observable.substance!, to);
    case 'osmolarity':
      return told({ osmoles: () => osmoles(contents) }, volume, to, ['mOsm/L', 'mOsm']);
    case 'effective-osmolarity':
      return told({ osmoles: () => effectiveOsmoles(contents) }, volume, to, ['mOsm/L', 'mOsm']);
    case 'free-water':
      return measureFreeWater(contents, to, reference);
    case 'strong-ion-difference':
      return told({ charge: () => strongIonDifference(contents) }, volume, to, ['mEq/L', 'mEq']);
    case 'bicarbonate-precursors': {
      const base = () => bicarbonatePrecursors(contents);
      return told({ amount: base, charge: base }, volume, to, ['mmol/L', 'mEq/L', 'mmol', 'mEq']);
    }
    case 'cation-sum':
      return told({ charge: () => cationSum(contents) }, volume, to, ['mEq/L', 'mEq']);
    case 'anion-sum':
      return told({ charge: () => anionSum(contents) }, volume, to, ['mEq/L', 'mEq']);
    case 'energy':
      return told({ energy: () => energy(contents) }, volume, to, ['kcal/L', 'kcal', 'kJ/L', 'kJ']);
    case 'sodium-chloride-equivalent':
      return told({ mass: () => sodiumChlorideEquivalent(contents) }, volume, to, ['%', 'g/L', 'g']);
    case 'sodium-to-chloride-ratio':
      return wrong(to, ['a number without a unit']);
    case 'tonicity-bag':
    case 'tonicity-body':
      return wrong(to, ['hypotonic', 'isotonic', 'hypertonic']);
    case 'osmolality':
      return measureOsmolality(contents, to);
    case 'freezing-point':
      return measureFreezingPoint(contents, to);
    case 'density':
      return measureDensity(contents, to);
    default:
      return { ok: false, problem: 'no-such-result' };
  }
}

/** Digits that a model's figure is told to. */
const MODEL_DIGITS = 5;

function measureOsmolality(contents: Contents, to: Unit): Measured {
  if (!isPer(to, 'water-mass')) return wrong(to, ['mOsm/kg']);
  const estimate = osmolality(contents);
  if (!estimate.ok) return { ok: false, problem: 'no-estimate', why: estimate.reason };
  return estimated(estimate.mOsmPerKg, estimate.within, to);
}

/** °C that one osmole in 1 kg of water lowers the freezing point: United States Pharmacopeia, general chapter 785. */
const CRYOSCOPIC = 1.86;

function measureFreezingPoint(contents: Contents, to: Unit): Measured {
  if (to.dimension.over !== 'temperature') return wrong(to, ['°C']);
  const estimate = osmolality(contents);
  if (!estimate.ok) return { ok: false, problem: 'no-estimate', why: estimate.reason };
  return estimated((estimate.mOsmPerKg * CRYOSCOPIC) / 1000, (estimate.within * CRYOSCOPIC) / 1000, to);
}

const GRAM_PER_ML = unit('g/mL');

/** A mass over that of the solution, by its estimated density. */
function measureByWeight(contents: Contents, observable: Observable, to: Unit, reference: Reference): Measured {
  const perMl = measure(contents, observable, GRAM_PER_ML, reference);
  if (!perMl.ok) return perMl;
  const estimate = density(contents);
  if (!estimate.ok) return { ok: false, problem: 'no-estimate', why: estimate.reason };
  const share = perMl.value.toNumber() / estimate.gramsPerMl;
  return estimated(share, (share * estimate.within) / estimate.gramsPerMl, to);
}

function measureDensity(contents: Contents, to: Unit): Measured {
  if (to.percent || to.dimension.over !== 'mass' || !isPer(to, 'volume')) return wrong(to, ['g/mL']);
  const estimate = density(contents);
  if (!estimate.ok) return { ok: false, problem: 'no-estimate', why: estimate.reason };
  return estimated(estimate.gramsPerMl, estimate.within, to);
}

/** A model's figure, in the base units of `to`, as a decimal. */
function estimated(value: number, within: number, to: Unit): Measured {
  const told = (figure: number) => decimal(figure.toPrecision(MODEL_DIGITS)).div(to.factor);
  return { ok: true, value: told(value), unit: to, within: told(within) };
}

/** Measures a ratio, which has no unit: mmol of sodium to mmol of chloride. Unknown for every other observable. */
export function measureRatio(contents: Contents, observable: Observable): MeasuredRatio {
  if (observable.kind !== 'sodium-to-chloride-ratio') return { ok: false, problem: 'no-such-result' };
  const missing = leftOut(contents, observable);
  if (missing) return { ok: false, problem: 'not-stated', of: missing };
  const chloride = amountOfIon(contents, CHLORIDE);
  if (chloride.isZero()) return { ok: false, problem: 'no-chloride' };
  return { ok: true, value: amountOfIon(contents, SODIUM).div(chloride) };
}

/** What a result rests on and the labels or the data leave out. */
function leftOut(contents: Contents, observable: Observable): string | null {
  if (observable.kind === 'sodium-chloride-equivalent') return withoutEquivalent(contents);
  if (contents.notStated.length === 0) return null;
  return contents.notStated.find(neededBy(observable))?.name ?? null;
}

function neededBy({ kind, ion }: Observable): (particle: Particle) => boolean {
  switch (kind) {
    case 'ion':
    case 'sodium-load':
    case 'chloride-load':
      return (particle) => ion!.forms.includes(particle);
    case 'strong-ion-difference':
      return ({ strong }) => strong;
    case 'bicarbonate-precursors':
      return ({ base }) => base !== 0;
    case 'sodium-to-chloride-ratio':
      return (particle) => [SODIUM, CHLORIDE].some(({ forms }) => forms.includes(particle));
    case 'free-water':
      return (particle) => Object.values(WATER_BINDING).includes(particle);
    default:
      return () => false;
  }
}

function measureIon(contents: Contents, observable: Observable, ion: Ion, to: Unit): Measured {
  if (ion.charge === null && to.dimension.over === 'charge') {
    return { ok: false, problem: 'equivalents-of-varying-charge', ion };
  }
  const mmol = () => amountOfIon(contents, ion);
  const amounts: Amounts = {
    amount: mmol,
    mass: () => ion.molarMass && gramsOfMmol(mmol(), ion.molarMass),
    charge: () => equivalentsOfIon(contents, ion),
    osmoles: mmol,
  };
  const fits = ion.charge === null ? ['mmol/L', 'mmol'] : ['mmol/L', 'mEq/L', 'mmol', 'mEq'];
  const measured = told(amounts, contents.volume, to, fits);
  if (measured.ok && to.dimension.over === 'mass' && !observable.elemental) {
    return { ok: false, problem: 'elemental-or-salt', ion, asElement: measured.value };
  }
  return measured;
}

function measureSolute(contents: Contents, { formOpen }: Observable, substance: Substance, to: Unit): Measured {
  const { own } = substance;
  const ofFamily = (amounts: ReadonlyMap<Substance, Decimal>) =>
    [...amounts].filter(([other]) => other.family === substance.family);
  const sumOfFamily = (amounts: ReadonlyMap<Substance, Decimal>) => sumOf(ofFamily(amounts), ([, amount]) => amount);
  const mmol = () => sumOfFamily(contents.solutes);
  const grams = () =>
    formOpen
      ? sumOf(ofFamily(contents.solutes), ([other, value]) => massOf(other, { in: 'mmol', value }) ?? ZERO)
      : massOf(substance, { in: 'mmol', value: mmol() });
  const counted = isCountable(substance);
  const perMole = equivalentsPerMole(substance);
  const amounts: Amounts = {
    amount: () => (counted ? mmol() : null),
    mass: () => (counted ? grams() : sumOfFamily(contents.masses)),
    charge: () => (perMole > 0 ? mmol().times(perMole) : null),
    osmoles: () => (counted ? mmol().times(osmolesPerMole(substance)) : null),
    activity: () => (own ? sumOfFamily(contents.activities) : null),
  };
  return told(amounts, contents.volume, to, soluteUnits(substance, counted));
}

function soluteUnits({ molarMass, own }: Substance, counted: boolean): readonly string[] {
  if (!counted) return own ? ['mg/mL', 'units/mL', 'mg', 'units'] : ['g/L', '%', 'g'];
  return molarMass ? ['g/L', '%', 'mmol/L', 'g', 'mmol'] : ['mmol/L', 'mmol'];
}

function measureFreeWater(contents: Contents, to: Unit, reference: Reference): Measured {
  const perLitre = freeWaterPerLitre(contents, reference);
  const { over, under } = to.dimension;
  if (to.percent) return found(perLitre.div(10), to);
  if (over !== 'volume') return wrong(to, ['mL/L', '%', 'mL']);
  if (under.length === 0) return found(perLitre.times(contents.volume).div(LITRE).div(to.factor), to);
  if (isPer(to, 'volume')) return found(perLitre.div(LITRE).div(to.factor), to);
  return wrong(to, ['mL/L', '%', 'mL']);
}

/** Amounts in a unit of the whole or per volume; `fits` for a unit of another dimension. */
function told(amounts: Amounts, volume: Decimal, to: Unit, fits: readonly string[]): Measured {
  const total = amounts[to.dimension.over]?.();
  if (total && to.dimension.under.length === 0) return found(total.div(to.factor), to);
  if (total && isPer(to, 'volume')) return found(perVolume(total, volume.times(to.factor)), to);
  return wrong(to, fits);
}

function found(value: Decimal, of: Unit): Measured {
  return { ok: true, value, unit: of, within: null };
}

function wrong(to: Unit, fits: readonly string[]): Measured {
  return { ok: false, problem: 'wrong-dimension', got: to.dimension, fits };
}
