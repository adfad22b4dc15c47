/** From what is written before a solute (grams, mmol, mEq, mOsm, units, with or without an ion) to how it is counted. */
import { gramsPerMlByWeight } from './by-weight.ts';
import type { Amount } from './contents.ts';
import { type Decimal, decimal } from './decimal.ts';
import type { Ion } from './ions.ts';
import type { Quantity } from './quantity.ts';
import { stockStrengths } from './stock-fluids.ts';
import {
  equivalentsPerMole,
  type Given,
  isCountable,
  mmolOfGrams,
  osmolesPerMole,
  type Substance,
} from './substances.ts';
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
  | { readonly problem: 'ion-not-in-substance'; readonly ion: Ion; readonly substance: Substance }
  | { readonly problem: 'equivalents-of-neutral' }
  /** mEq of phosphate: its charge varies with the acidity, so only mmol says how much there is. */
  | { readonly problem: 'equivalents-of-varying-charge'; readonly ion: Ion }
  /** A mass of something of a note's own that gives ions and has no molar mass; `of` names it. */
  | { readonly problem: 'no-molar-mass'; readonly of: string }
  /** A strength in which a substance is not sold, nor made from the dry substance; `strengths` are those it has. */
  | { readonly problem: 'no-such-solution'; readonly substance: Substance; readonly strengths: readonly string[] };

/** An amount, and how it was worked out. */
export type AmountReading =
  | { readonly ok: true; readonly amount: Amount; readonly working: readonly WorkingStep[] }
  | { readonly ok: false; readonly fault: AmountFault };

/** An amount in 1 mL of the finished solution, and how it was worked out. */
export type StrengthReading =
  | { readonly ok: true; readonly perMl: Amount; readonly working: readonly WorkingStep[] }
  | { readonly ok: false; readonly fault: AmountFault };

/** A quantity, perhaps of one ion of the substance, perhaps as that element's own mass. */
interface Asked {
  readonly written: Quantity;
  /** The written value in g, mmol, mEq, mOsm or units, or in those per litre. */
  readonly value: Decimal;
  readonly substance: Substance;
  readonly ion: Ion | null;
  /** What the substance gives of the ion. */
  readonly share: Given | null;
  readonly elemental: boolean;
  /** mmol, or mmol/L. */
  readonly unit: Unit;
  readonly fits: readonly string[];
}

const MMOL = unit('mmol');
const MMOL_PER_LITRE = unit('mmol/L');
const PER_LITRE: Partial<Readonly<Record<Base, Unit>>> = {
  mass: unit('g/L'),
  amount: MMOL_PER_LITRE,
  charge: unit('mEq/L'),
  osmoles: unit('mOsm/L'),
  activity: unit('units/L'),
};

/**
 * Reads an amount of a solute. Mass by molar mass, mEq by charge, mOsm by full dissociation; with an ion, the amount is the
 * ion's and the substance carries it. A mass of an ion must say `elemental`. Without a molar mass a mass stays a mass, and
 * an activity always stays one.
 */
export function amountOf(quantity: Quantity, substance: Substance, ion: Ion | null, elemental: boolean): AmountReading {
  const { dimension, factor } = quantity.unit;
  const fits = amountUnits(substance);
  if (dimension.under.length > 0) return wrong(dimension, fits);
  const value = quantity.value.times(factor);
  return read({ written: quantity, value, substance, ion, share: null, elemental, unit: MMOL, fits }, dimension);
}

/** Reads a strength: `%` or an amount per volume of the finished solution, else as `amountOf`. */
export function strengthOf(
  quantity: Quantity,
  substance: Substance,
  ion: Ion | null,
  elemental: boolean,
): StrengthReading {
  if (quantity.unit.dimension.under.join() === 'solution-mass')
    return strengthByWeight(quantity, substance, ion, elemental);
  const { dimension, factor } = quantity.unit;
  const fits = ['%', ...amountUnits(substance).map((symbol) => `${symbol}/${substance.molarMass ? 'L' : 'mL'}`)];
  const perLitre = PER_LITRE[dimension.over];
  if (dimension.under.join() !== 'volume' || !perLitre) return wrong(dimension, fits);
  if (substance.solutionOnly) {
    return { ok: false, fault: { problem: 'no-such-solution', substance, strengths: stockStrengths(substance) } };
  }
  const value = quantity.value.times(factor).times(1000);
  const restated = quantity.unit.symbol !== perLitre.symbol && dimension.over !== 'amount';
  const written = restated ? { value, unit: perLitre } : quantity;
  const reading = read(
    { written, value, substance, ion, share: null, elemental, unit: MMOL_PER_LITRE, fits },
    dimension,
  );
  if (!reading.ok) return reading;
  const first: WorkingStep = { kind: 'restated', of: substance.name, from: quantity, to: written };
  return {
    ok: true,
    perMl: { ...reading.amount, value: reading.amount.value.div(1000) },
    working: restated ? [first, ...reading.working] : reading.working,
  };
}

/** `50 % w/w`: as the mass in 1 L that the estimated density makes of it. */
function strengthByWeight(from: Quantity, substance: Substance, ion: Ion | null, elemental: boolean): StrengthReading {
  const { dimension, factor } = from.unit;
  const grams = gramsPerMlByWeight(substance, from.value.times(factor));
  if (!grams) return wrong(dimension, ['%', 'g/L']);
  const to: Quantity = { value: grams.times(1000), unit: unit('g/L') };
  const reading = strengthOf(to, substance, ion, elemental);
  if (!reading.ok) return reading;
  const first: WorkingStep = { kind: 'restated', of: substance.name, from, to };
  return { ...reading, working: [first, ...reading.working] };
}

function read(asked: Asked, dimension: Dimension): AmountReading {
  const { substance, ion } = asked;
  const share = ion && substance.gives.find(({ particle }) => ion.forms.includes(particle));
  if (ion && !share) return { ok: false, fault: { problem: 'ion-not-in-substance', ion, substance } };
  const given = { ...asked, share: share ?? null };
  switch (dimension.over) {
    case 'mass':
      return ofMass(given);
    case 'activity':
      return substance.own && !ion ? counted('units', given.value) : wrong(dimension, given.fits);
    case 'amount':
      return isCountable(substance) ? carried(given, given.value, []) : wrong(dimension, given.fits);
    case 'charge':
      return isCountable(substance) ? ofCharge(given) : wrong(dimension, given.fits);
    case 'osmoles':
      return ofOsmoles(given, dimension);
    default:
      return wrong(dimension, given.fits);
  }
}

function ofMass(asked: Asked): AmountReading {
  const { substance, ion, elemental, value } = asked;
  if (elemental !== (ion !== null)) return undecided(asked);
  if (!ion && !isCountable(substance)) return counted('g', value);
  const { molarMass } = ion ?? substance;
  const of = ion ? `elemental ${ion.name}` : substance.name;
  if (!molarMass) return massUnknown(of);
  const mmol = mmolOfGrams(value, molarMass);
  const amount = { value: mmol, unit: asked.unit };
  return carried(asked, mmol, [{ kind: 'mass-to-amount', of, mass: asked.written, molarMass, amount }]);
}

/** A mass of an ion without `elemental`, or `elemental` before the name of a salt: either may be meant. */
function undecided({ substance, ion, share: asked, value }: Asked): AmountReading {
  const share = asked ?? substance.gives.find(({ particle }) => particle.charge > 0);
  const salt = substance.molarMass;
  if (!salt) return massUnknown(substance.name);
  const element = ion ? ion.molarMass : (share?.particle.molarMass ?? salt);
  if (!element) return massUnknown(ion!.name);
  const asSalt = mmolOfGrams(value, salt).times(share?.count ?? 1);
  const asElement = mmolOfGrams(value, element);
  return { ok: false, fault: { problem: 'elemental-or-salt', asSalt, asElement } };
}

function massUnknown(of: string): AmountReading {
  return { ok: false, fault: { problem: 'no-molar-mass', of } };
}

function ofCharge(asked: Asked): AmountReading {
  const { substance, ion, share, value, unit: to } = asked;
  if (ion && ion.charge === null) return { ok: false, fault: { problem: 'equivalents-of-varying-charge', ion } };
  const perMole = share ? Math.abs(share.particle.charge) : equivalentsPerMole(substance);
  if (perMole === 0) return { ok: false, fault: { problem: 'equivalents-of-neutral' } };
  const mmol = value.div(perMole);
  const of = ion?.name ?? substance.name;
  return carried(asked, mmol, [
    { kind: 'equivalents-to-amount', of, equivalents: asked.written, perMole, amount: { value: mmol, unit: to } },
  ]);
}

function ofOsmoles(asked: Asked, got: Dimension): AmountReading {
  const { substance, ion, value, unit: to } = asked;
  const perMole = ion ? 1 : osmolesPerMole(substance);
  if (perMole === 0) return wrong(got, asked.fits);
  const mmol = value.div(perMole);
  const of = ion?.name ?? substance.name;
  return carried(asked, mmol, [
    { kind: 'osmoles-to-amount', of, osmoles: asked.written, perMole, amount: { value: mmol, unit: to } },
  ]);
}

/** From mmol of the ion to mmol of what carries it. */
function carried(asked: Asked, mmol: Decimal, working: readonly WorkingStep[]): AmountReading {
  const { ion, share, substance, unit: to } = asked;
  if (!ion || !share || share.count === 1) return counted('mmol', mmol, working);
  const own = mmol.div(decimal(share.count));
  const step: WorkingStep = {
    kind: 'ion-to-substance',
    of: substance.name,
    ion: ion.name,
    ionAmount: { value: mmol, unit: to },
    count: share.count,
    amount: { value: own, unit: to },
  };
  return counted('mmol', own, [...working, step]);
}

function counted(measure: Amount['in'], value: Decimal, working: readonly WorkingStep[] = []): AmountReading {
  return { ok: true, amount: { in: measure, value }, working };
}

function amountUnits(substance: Substance): readonly string[] {
  const byMass = substance.molarMass ? ['g'] : isCountable(substance) ? [] : ['mg'];
  const byActivity = substance.own ? ['units'] : [];
  if (!isCountable(substance)) return [...byMass, ...byActivity];
  const byCharge = equivalentsPerMole(substance) > 0 ? ['mEq'] : [];
  return [...byMass, 'mmol', ...byCharge, 'mOsm', ...byActivity];
}

function wrong(got: Dimension, fits: readonly string[]): { ok: false; fault: AmountFault } {
  return { ok: false, fault: { problem: 'wrong-dimension', got, fits } };
}
