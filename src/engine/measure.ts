/** What a mixture is found to hold, in the unit asked. */
import type { Contents } from './contents.ts';
import { atMost, type Decimal, decimal, ZERO } from './decimal.ts';
import { findObservable, fixedObservables, type Observable } from './observables.ts';
import { type Particle, particleById } from './particles.ts';
import type { Quantity } from './quantity.ts';
import { LIMITS } from './reference.ts';
import { equivalentsPerMole, gramsOfMmol, osmolesPerMole, substanceById } from './substances.ts';
import { type Dimension, isVolume, type Unit, unit } from './units.ts';
import type { WorkingStep } from './working.ts';

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

/** A value in the unit asked, or why there is none. `fits`: units, or words, that would do. */
export type Measured =
  | { readonly ok: true; readonly value: Decimal; readonly unit: Unit }
  | {
      readonly ok: false;
      readonly problem: 'wrong-dimension';
      readonly got: Dimension;
      readonly fits: readonly string[];
    }
  /** A mass of an ion that does not say `elemental`; `asElement` is what it would be, in the unit asked. */
  | { readonly ok: false; readonly problem: 'elemental-or-salt'; readonly ion: Particle; readonly asElement: Decimal }
  | { readonly ok: false; readonly problem: 'unknown' };

/** An amount of one thing, in every way it can be told. */
interface Amount {
  readonly mmol: Decimal;
  readonly grams: Decimal;
  /** mEq and mOsm in 1 mmol; 0 where there are none. */
  readonly equivalents: number;
  readonly osmoles: number;
}

const LITRE = decimal(1000);

/**
 * Measures an observable in a unit: per litre when the unit is per volume, of the whole container when it is not
 * (`sodium 39 mmol`). mEq by charge; the mass of an ion only as `elemental`; a solute also as `%`; free water as `%` of
 * volume, mL/L or mL. A tonicity has words and no unit.
 */
export function measure(contents: Contents, observable: Observable, to: Unit, reference: Reference): Measured {
  if (!observable.known) return { ok: false, problem: 'unknown' };
  switch (observable.kind) {
    case 'volume':
      return isVolume(to) ? found(contents.volume.div(to.factor), to) : wrong(to, ['mL', 'L']);
    case 'particle':
    case 'sodium-load':
    case 'chloride-load':
      return measureParticle(contents, observable, observable.particle!, to);
    case 'solute':
      return measureSolute(contents, observable, to);
    case 'osmolarity':
      return measureOsmoles(osmoles(contents), contents, to);
    case 'effective-osmolarity':
      return measureOsmoles(effectiveOsmoles(contents), contents, to);
    case 'free-water':
      return measureFreeWater(contents, to, reference);
    case 'tonicity-bag':
    case 'tonicity-body':
      return wrong(to, ['hypotonic', 'isotonic', 'hypertonic']);
    case 'osmolality':
    case 'other':
      return { ok: false, problem: 'unknown' };
  }
}

function measureParticle(contents: Contents, observable: Observable, particle: Particle, to: Unit): Measured {
  const mmol = amountOfParticle(contents, particle.id);
  const amount: Amount = {
    mmol,
    grams: gramsOfMmol(mmol, particle.molarMass),
    equivalents: Math.abs(particle.charge),
    osmoles: 1,
  };
  const value = told(amount, contents.volume, to);
  if (!value) return wrong(to, amount.equivalents === 0 ? ['mmol/L', 'mmol'] : ['mmol/L', 'mEq/L', 'mmol', 'mEq']);
  if (to.dimension.over === 'mass' && particle.ion && !observable.elemental) {
    return { ok: false, problem: 'elemental-or-salt', ion: particle, asElement: value };
  }
  return found(value, to);
}

function measureSolute(contents: Contents, observable: Observable, to: Unit): Measured {
  const substance = observable.substance!;
  let mmol = ZERO;
  let gramsAsAdded = ZERO;
  for (const [id, amount] of contents.solutes) {
    const other = substanceById(id);
    if (other?.family !== substance.family) continue;
    mmol = mmol.plus(amount);
    gramsAsAdded = gramsAsAdded.plus(gramsOfMmol(amount, other.molarMass));
  }
  const grams = observable.formOpen ? gramsAsAdded : gramsOfMmol(mmol, substance.molarMass);
  const equivalents = equivalentsPerMole(substance);
  const value = told({ mmol, grams, equivalents, osmoles: osmolesPerMole(substance) }, contents.volume, to);
  return value ? found(value, to) : wrong(to, ['g/L', '%', 'mmol/L', 'g', 'mmol']);
}

function measureOsmoles(mOsm: Decimal, { volume }: Contents, to: Unit): Measured {
  const value = to.dimension.over === 'osmoles' ? perUnit(mOsm, volume, to) : null;
  return value ? found(value, to) : wrong(to, ['mOsm/L', 'mOsm']);
}

function measureFreeWater(contents: Contents, to: Unit, reference: Reference): Measured {
  const perLitre = freeWaterPerLitre(contents, reference);
  const { over, under } = to.dimension;
  if (to.percent) return found(perLitre.div(10), to);
  if (over !== 'volume') return wrong(to, ['mL/L', '%', 'mL']);
  if (under.length === 0) return found(perLitre.times(contents.volume).div(LITRE).div(to.factor), to);
  if (under.join() === 'volume') return found(perLitre.div(LITRE).div(to.factor), to);
  return wrong(to, ['mL/L', '%', 'mL']);
}

/** An amount in a unit of the whole or per volume; null when the unit is of another dimension. */
function told(amount: Amount, volume: Decimal, to: Unit): Decimal | null {
  switch (to.dimension.over) {
    case 'amount':
      return perUnit(amount.mmol, volume, to);
    case 'mass':
      return perUnit(amount.grams, volume, to);
    case 'charge':
      return amount.equivalents === 0 ? null : perUnit(amount.mmol.times(amount.equivalents), volume, to);
    case 'osmoles':
      return perUnit(amount.mmol.times(amount.osmoles), volume, to);
    default:
      return null;
  }
}

function perUnit(total: Decimal, volume: Decimal, to: Unit): Decimal | null {
  const { under } = to.dimension;
  if (under.length === 0) return total.div(to.factor);
  return under.join() === 'volume' ? perVolume(total, volume).div(to.factor) : null;
}

/** Per mL; nothing per litre of nothing. */
function perVolume(total: Decimal, volume: Decimal): Decimal {
  return volume.isZero() ? ZERO : total.div(volume);
}

function found(value: Decimal, of: Unit): Measured {
  return { ok: true, value, unit: of };
}

function wrong(to: Unit, fits: readonly string[]): Measured {
  return { ok: false, problem: 'wrong-dimension', got: to.dimension, fits };
}

/** mmol of a particle in the whole. */
export function amountOfParticle(contents: Contents, id: string): Decimal {
  return contents.particles.get(id) ?? ZERO;
}

function osmoles(contents: Contents): Decimal {
  return [...contents.particles.values()].reduce((sum, mmol) => sum.plus(mmol), ZERO);
}

function effectiveOsmoles(contents: Contents): Decimal {
  let sum = ZERO;
  for (const [id, mmol] of contents.particles) if (particleById(id)?.effective ?? true) sum = sum.plus(mmol);
  return sum;
}

/** mOsm/L, every particle counted once as if fully dissociated: the convention of labels. */
export function osmolarity(contents: Contents): Decimal {
  return perVolume(osmoles(contents), contents.volume).times(LITRE);
}

/** mOsm/L of the particles that hold water outside cells: all but dextrose, urea and glycerol. */
export function effectiveOsmolarity(contents: Contents): Decimal {
  return perVolume(effectiveOsmoles(contents), contents.volume).times(LITRE);
}

/** Electrolyte-free water in mL/L: 1000 × (1 - (Na + K) ÷ reference). Below zero for a hypertonic fluid. */
export function freeWaterPerLitre(contents: Contents, reference: Reference): Decimal {
  if (contents.volume.isZero()) return ZERO;
  const cations = amountOfParticle(contents, 'sodium').plus(amountOfParticle(contents, 'potassium'));
  const perLitre = cations.times(LITRE).div(contents.volume);
  return LITRE.minus(perLitre.times(LITRE).div(reference.freeWater));
}

/** The class of an osmolarity in mOsm/L. */
export function tonicity(mOsmPerLitre: Decimal, reference: Reference): Tonicity {
  if (!atMost(reference.isotonicFrom, mOsmPerLitre)) return 'hypotonic';
  return atMost(reference.isotonicBelow, mOsmPerLitre) ? 'hypertonic' : 'isotonic';
}

/** Results that a mixture always has, zero included. */
const ALWAYS: ReadonlySet<string> = new Set([
  'volume',
  'sodium',
  'potassium',
  'chloride',
  'osmolarity',
  'effective-osmolarity',
  'free-water',
  'sodium-load',
]);

/** A value in the observable's own unit. */
export interface Result {
  readonly observable: Observable;
  readonly value: Decimal;
  readonly unit: string;
}

/**
 * Every result in its own unit: volume, sodium, potassium, chloride, osmolarity, effective osmolarity, free water and
 * sodium load always, others when they are not zero, then the solutes as added.
 */
export function results(contents: Contents, reference: Reference): readonly Result[] {
  const asked = [...fixedObservables(), ...solutesIn(contents)].filter(({ known, unit: of }) => known && of !== '');
  return asked.flatMap((observable) => {
    const measured = measure(contents, observable, unit(observable.unit), reference);
    if (!measured.ok || (measured.value.isZero() && !ALWAYS.has(observable.id))) return [];
    return [{ observable, value: measured.value, unit: observable.unit }];
  });
}

function solutesIn(contents: Contents): readonly Observable[] {
  const families = new Set([...contents.solutes.keys()].map((id) => substanceById(id)?.family));
  return [...families].flatMap((family) => (family && findObservable(family)) || []);
}

/** How the osmolarity and the free water of contents come about: one line a particle, then their sum, then the rule. */
export function resultWorking(contents: Contents, reference: Reference): readonly WorkingStep[] {
  if (contents.volume.isZero()) return [];
  const litres: Quantity = { value: contents.volume.div(LITRE), unit: unit('L') };
  const perLitre = (id: string) => perVolume(amountOfParticle(contents, id), contents.volume).times(LITRE);
  const held = [...contents.particles].filter(([, mmol]) => !mmol.isZero());
  const lines: WorkingStep[] = held.map(([id, mmol]) => ({
    kind: 'per-litre',
    of: particleById(id)?.name ?? id,
    amount: { value: mmol, unit: unit('mmol') },
    volume: litres,
    perLitre: { value: perLitre(id), unit: unit('mmol/L') },
  }));
  const mOsm = (value: Decimal): Quantity => ({ value, unit: unit('mOsm/L') });
  lines.push({
    kind: 'sum',
    of: 'osmolarity',
    parts: held.map(([id]) => mOsm(perLitre(id))),
    total: mOsm(osmolarity(contents)),
  });
  const mmol = (value: Decimal): Quantity => ({ value, unit: unit('mmol/L') });
  lines.push({
    kind: 'free-water',
    of: 'free water',
    sodium: mmol(perLitre('sodium')),
    potassium: mmol(perLitre('potassium')),
    reference: mmol(reference.freeWater),
    freeWater: { value: freeWaterPerLitre(contents, reference), unit: unit('mL/L') },
  });
  return lines;
}
