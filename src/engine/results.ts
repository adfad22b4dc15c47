/** All results of a mixture, and how its osmolarity and free water come about. */
import type { Contents } from './contents.ts';
import { type Decimal, decimal } from './decimal.ts';
import { type Ion, ionOf } from './ions.ts';
import { measure } from './measure.ts';
import {
  findObservable,
  fixedObservables,
  ionObservable,
  type Observable,
  type ObservableKind,
  soluteObservable,
} from './observables.ts';
import type { Particle } from './particles.ts';
import type { Quantity } from './quantity.ts';
import { remembered } from './remembered.ts';
import type { Substance } from './substances.ts';
import { amountOfParticle, freeWaterPerLitre, osmolarity, perVolume, type Reference, WATER_BINDING } from './totals.ts';
import { type Unit, unit } from './units.ts';
import type { WorkingStep } from './working.ts';

/** A value in a unit of its own. */
export interface Result {
  readonly observable: Observable;
  readonly value: Decimal;
  readonly unit: string;
}

const LITRE = decimal(1000);

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

/** Worked out when asked for by name, and not otherwise. */
const ON_REQUEST: ReadonlySet<ObservableKind> = new Set([
  'cation-sum',
  'anion-sum',
  'sodium-chloride-equivalent',
  'freezing-point',
]);

/**
 * Every result in its own unit: volume, sodium, potassium, chloride, osmolarity, effective osmolarity, free water and
 * sodium load always where the labels state what they rest on, others when they are not zero, then other ions and the
 * solutes as added. Tonicities and ratios have no unit, and are not among them.
 */
export function results(contents: Contents, reference: Reference): readonly Result[] {
  const asked = [...OF_EVERY_MIXTURE, ...rareIonsIn(contents), ...solutesIn(contents)];
  const found: Result[] = [];
  for (const { observable, unit: to } of asked) {
    const measured = measure(contents, observable, to, reference);
    if (!measured.ok || (measured.value.isZero() && !ALWAYS.has(observable.id))) continue;
    found.push({ observable, value: measured.value, unit: to.symbol });
  }
  return found;
}

/** Something to measure, in the unit in which it is told. */
interface Asked {
  readonly observable: Observable;
  readonly unit: Unit;
}

function inOwnUnit(observable: Observable): Asked {
  return { observable, unit: unit(observable.unit) };
}

const OF_EVERY_MIXTURE: readonly Asked[] = fixedObservables()
  .filter(({ of: subjects, unit: of, kind }) => subjects.includes('mixture') && of !== '' && !ON_REQUEST.has(kind))
  .map(inOwnUnit);

/** Ions that the fixed table leaves out. */
function rareIonsIn(contents: Contents): readonly Asked[] {
  const ions = new Set<Ion>();
  for (const particle of contents.particles.keys()) {
    const ion = ionOf(particle);
    if (ion && !FIXED_IONS.has(ion)) ions.add(ion);
  }
  return [...ions].map((ion) => inOwnUnit(ionObservable(ion)));
}

const FIXED_IONS: ReadonlySet<Ion | null> = new Set(
  fixedObservables().flatMap(({ kind, ion }) => (kind === 'ion' ? [ion] : [])),
);

/** Each solute in the measure in which it was added; one that came by mass and by activity twice. */
function solutesIn({ solutes, masses, activities }: Contents): readonly Asked[] {
  const byAmount = families([...solutes.keys(), ...masses.keys()]).map(inOwnUnit);
  const byActivity = families([...activities.keys()]).map((observable) => ({ observable, unit: unit('units/mL') }));
  return [...byAmount, ...byActivity];
}

/** One observable a family: a built-in one means the form that its name means. */
function families(held: readonly Substance[]): readonly Observable[] {
  const byFamily = new Map(held.map((substance) => [substance.family, substance] as const));
  return [...byFamily.values()].flatMap((substance) => {
    return substance.id === 'water' ? [] : observableOf(substance);
  });
}

const observableOf = remembered(
  (substance: Substance): Observable =>
    (substance.own ? null : findObservable(substance.family)) ?? soluteObservable(substance),
);

/** How the osmolarity and the free water of contents come about: one line a particle, then their sum, then the rule. */
export function resultWorking(contents: Contents, reference: Reference): readonly WorkingStep[] {
  if (contents.volume.isZero()) return [];
  const litres: Quantity = { value: contents.volume.div(LITRE), unit: unit('L') };
  const perLitre = (particle: Particle) =>
    perVolume(amountOfParticle(contents, particle), contents.volume).times(LITRE);
  const held = [...contents.particles].filter(([, mmol]) => !mmol.isZero());
  const lines: WorkingStep[] = held.map(([particle, mmol]) => ({
    kind: 'per-litre',
    of: particle.name,
    amount: { value: mmol, unit: unit('mmol') },
    volume: litres,
    perLitre: { value: perLitre(particle), unit: unit('mmol/L') },
  }));
  const mOsm = (value: Decimal): Quantity => ({ value, unit: unit('mOsm/L') });
  lines.push({
    kind: 'sum',
    of: 'osmolarity',
    parts: held.map(([particle]) => mOsm(perLitre(particle))),
    total: mOsm(osmolarity(contents)),
  });
  const mmol = (value: Decimal): Quantity => ({ value, unit: unit('mmol/L') });
  lines.push({
    kind: 'free-water',
    of: 'free water',
    sodium: mmol(perLitre(WATER_BINDING.sodium)),
    potassium: mmol(perLitre(WATER_BINDING.potassium)),
    reference: mmol(reference.freeWater),
    freeWater: { value: freeWaterPerLitre(contents, reference), unit: unit('mL/L') },
  });
  return lines;
}
