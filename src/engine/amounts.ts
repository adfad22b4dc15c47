/** From what is written before a solute (grams, mmol, mEq, mOsm, with or without an ion) to mmol of the substance. */
import { type Decimal, decimal } from './decimal.ts';
import type { Particle } from './particles.ts';
import type { Quantity } from './quantity.ts';
import { equivalentsPerMole, mmolOfGrams, osmolesPerMole, type Substance } from './substances.ts';
import { type Base, type Dimension, type Unit, unit } from './units.ts';
import type { WorkingStep } from './working.ts';

/** Why a quantity is no amount of a solute. */
export type AmountFault =
  /** `fits`: units that would do. */
  | { readonly problem: 'wrong-dimension'; readonly got: Dimension; readonly fits: readonly string[] }
  /**
   * A mass of an ion that does not say whether it weighs the salt or the element. Both readings are mmol of the ion, for a
   * strength mmol/L of it.
   */
  | { readonly problem: 'elemental-or-salt'; readonly asSalt: Decimal; readonly asElement: Decimal }
  | { readonly problem: 'ion-not-in-substance'; readonly ion: Particle; readonly substance: Substance }
  | { readonly problem: 'equivalents-of-neutral' };

/** mmol of substance, and how it was worked out. */
export type AmountReading =
  | { readonly ok: true; readonly mmol: Decimal; readonly working: readonly WorkingStep[] }
  | { readonly ok: false; readonly fault: AmountFault };

/** mmol of substance in 1 mL of the finished solution, and how it was worked out. */
export type StrengthReading =
  | { readonly ok: true; readonly mmolPerMl: Decimal; readonly working: readonly WorkingStep[] }
  | { readonly ok: false; readonly fault: AmountFault };

/** A quantity, perhaps of one ion of the substance, perhaps as that element's own mass. */
interface Given {
  readonly written: Quantity;
  /** The written value in g, mmol, mEq or mOsm, or in those per litre. */
  readonly value: Decimal;
  readonly substance: Substance;
  readonly ion: Particle | null;
  readonly elemental: boolean;
  /** mmol, or mmol/L. */
  readonly unit: Unit;
}

const MMOL = unit('mmol');
const MMOL_PER_LITRE = unit('mmol/L');
const PER_LITRE: Partial<Readonly<Record<Base, Unit>>> = {
  mass: unit('g/L'),
  amount: MMOL_PER_LITRE,
  charge: unit('mEq/L'),
  osmoles: unit('mOsm/L'),
};

/**
 * Reads an amount of a solute. Mass by molar mass, mEq by charge, mOsm by full dissociation; with an ion, the amount is the
 * ion's and the substance carries it. A mass of an ion must say `elemental`.
 */
export function amountOf(
  quantity: Quantity,
  substance: Substance,
  ion: Particle | null,
  elemental: boolean,
): AmountReading {
  const { dimension, factor } = quantity.unit;
  if (dimension.under.length > 0) return wrong(dimension, amountUnits(substance));
  const value = quantity.value.times(factor);
  const given: Given = { written: quantity, value, substance, ion, elemental, unit: MMOL };
  return read(given, dimension, amountUnits(substance));
}

/** Reads a strength: `%` or an amount per volume of the finished solution, else as `amountOf`. */
export function strengthOf(
  quantity: Quantity,
  substance: Substance,
  ion: Particle | null,
  elemental: boolean,
): StrengthReading {
  const { dimension, factor } = quantity.unit;
  const fits = amountUnits(substance).map((symbol) => `${symbol}/L`);
  const perLitre = PER_LITRE[dimension.over];
  if (dimension.under.join() !== 'volume' || !perLitre) return wrong(dimension, ['%', ...fits]);
  const value = quantity.value.times(factor).times(1000);
  const restated = quantity.unit.symbol !== perLitre.symbol && dimension.over !== 'amount';
  const written = restated ? { value, unit: perLitre } : quantity;
  const reading = read({ written, value, substance, ion, elemental, unit: MMOL_PER_LITRE }, dimension, ['%', ...fits]);
  if (!reading.ok) return reading;
  const first: WorkingStep = { kind: 'restated', of: substance.name, from: quantity, to: written };
  return {
    ok: true,
    mmolPerMl: reading.mmol.div(1000),
    working: restated ? [first, ...reading.working] : reading.working,
  };
}

function read(given: Given, dimension: Dimension, fits: readonly string[]): AmountReading {
  const { substance, ion } = given;
  const share = ion && substance.gives.find(({ particle }) => particle.id === ion.id);
  if (ion && !share) return { ok: false, fault: { problem: 'ion-not-in-substance', ion, substance } };
  const count = share ? share.count : 1;
  switch (dimension.over) {
    case 'mass':
      return ofMass(given, count);
    case 'amount':
      return carried(given, given.value, count, []);
    case 'charge':
      return ofCharge(given, count);
    case 'osmoles':
      return ofOsmoles(given, count, fits, dimension);
    default:
      return wrong(dimension, fits);
  }
}

function ofMass(given: Given, count: number): AmountReading {
  const { substance, ion, elemental, value } = given;
  if (elemental !== (ion !== null)) return undecided(given);
  const molarMass = ion ? ion.molarMass : substance.molarMass;
  const mmol = mmolOfGrams(value, molarMass);
  const amount = { value: mmol, unit: given.unit };
  const of = ion ? `elemental ${ion.name}` : substance.name;
  return carried(given, mmol, count, [{ kind: 'mass-to-amount', of, mass: given.written, molarMass, amount }]);
}

/** A mass of an ion without `elemental`, or `elemental` before the name of a salt: either may be meant. */
function undecided({ substance, ion, value }: Given): AmountReading {
  const share = substance.gives.find(({ particle }) => (ion ? particle.id === ion.id : particle.charge > 0));
  const asSalt = mmolOfGrams(value, substance.molarMass).times(share?.count ?? 1);
  const asElement = mmolOfGrams(value, share?.particle.molarMass ?? substance.molarMass);
  return { ok: false, fault: { problem: 'elemental-or-salt', asSalt, asElement } };
}

function ofCharge(given: Given, count: number): AmountReading {
  const { substance, ion, value, unit: to } = given;
  const perMole = ion ? Math.abs(ion.charge) : equivalentsPerMole(substance);
  if (perMole === 0) return { ok: false, fault: { problem: 'equivalents-of-neutral' } };
  const mmol = value.div(perMole);
  const of = ion?.name ?? substance.name;
  return carried(given, mmol, count, [
    { kind: 'equivalents-to-amount', of, equivalents: given.written, perMole, amount: { value: mmol, unit: to } },
  ]);
}

function ofOsmoles(given: Given, count: number, fits: readonly string[], got: Dimension): AmountReading {
  const { substance, ion, value, unit: to } = given;
  const perMole = ion ? 1 : osmolesPerMole(substance);
  if (perMole === 0) return wrong(got, fits);
  const mmol = value.div(perMole);
  const of = ion?.name ?? substance.name;
  return carried(given, mmol, count, [
    { kind: 'osmoles-to-amount', of, osmoles: given.written, perMole, amount: { value: mmol, unit: to } },
  ]);
}

/** From mmol of the ion to mmol of what carries it. */
function carried(given: Given, mmol: Decimal, count: number, working: readonly WorkingStep[]): AmountReading {
  const { ion, substance, unit: to } = given;
  const own = mmol.div(decimal(count));
  if (!ion || count === 1) return { ok: true, mmol: own, working };
  const step: WorkingStep = {
    kind: 'ion-to-substance',
    of: substance.name,
    ion: ion.name,
    ionAmount: { value: mmol, unit: to },
    count,
    amount: { value: own, unit: to },
  };
  return { ok: true, mmol: own, working: [...working, step] };
}

function amountUnits(substance: Substance): readonly string[] {
  return equivalentsPerMole(substance) > 0 ? ['g', 'mmol', 'mEq', 'mOsm'] : ['g', 'mmol', 'mOsm'];
}

function wrong(got: Dimension, fits: readonly string[]): { ok: false; fault: AmountFault } {
  return { ok: false, fault: { problem: 'wrong-dimension', got, fits } };
}
