/** The closed table of unit atoms, their spellings, and what people write instead of them. */
import type { Base } from './units.ts';

/** A unit that is not made of others. */
export interface Atom {
  /** The spelling that the notation prints. */
  readonly symbol: string;
  readonly base: Base;
  /** Times a value in this atom gives the value in the engine's base unit of `base`. */
  readonly factor: string;
  /** Other spellings that are read as this atom, case included. */
  readonly aliases: readonly string[];
}

const atom = (symbol: string, base: Base, factor: string, ...aliases: string[]): Atom => ({
  symbol,
  base,
  factor,
  aliases,
});

/**
 * Factors are exact by definition: SI prefixes, 4.184 kJ to the kcal, and the Julian year of 365.25 d with a month of a
 * twelfth of it (as in the Unified Code for Units of Measure, `a_j` and `mo_j`).
 */
export const ATOMS: readonly Atom[] = [
  atom('kg', 'mass', '1000', 'kilogram', 'kilograms'),
  atom('g', 'mass', '1', 'gram', 'grams', 'gramme', 'grammes'),
  atom('mg', 'mass', '0.001', 'milligram', 'milligrams'),
  atom('mcg', 'mass', '0.000001', 'µg', 'μg', 'microgram', 'micrograms'),
  atom('ng', 'mass', '0.000000001', 'nanogram', 'nanograms'),
  atom('L', 'volume', '1000', 'l', 'litre', 'litres', 'liter', 'liters'),
  atom('dL', 'volume', '100', 'dl', 'decilitre', 'decilitres', 'deciliter', 'deciliters'),
  atom('mL', 'volume', '1', 'ml', 'millilitre', 'millilitres', 'milliliter', 'milliliters'),
  atom('mol', 'amount', '1000', 'mole', 'moles'),
  atom('mmol', 'amount', '1', 'millimole', 'millimoles'),
  atom('micromol', 'amount', '0.001', 'µmol', 'μmol', 'micromole', 'micromoles'),
  atom('Eq', 'charge', '1000', 'eq', 'equivalent', 'equivalents'),
  atom('mEq', 'charge', '1', 'meq', 'milliequivalent', 'milliequivalents'),
  atom('Osm', 'osmoles', '1000', 'osm', 'osmole', 'osmoles'),
  atom('mOsm', 'osmoles', '1', 'mosm', 'mOsmol', 'mosmol', 'milliosmole', 'milliosmoles'),
  atom('units', 'activity', '1', 'unit'),
  atom('h', 'time', '1', 'hr', 'hrs', 'hour', 'hours'),
  atom('min', 'time', '1/60', 'mins', 'minute', 'minutes'),
  atom('s', 'time', '1/3600', 'sec', 'second', 'seconds'),
  atom('d', 'time', '24', 'day', 'days'),
  atom('wk', 'time', '168', 'week', 'weeks'),
  atom('mo', 'time', '730.5', 'month', 'months'),
  atom('y', 'time', '8766', 'yr', 'yrs', 'year', 'years'),
  atom('kcal', 'energy', '1', 'kilocalorie', 'kilocalories'),
  atom('kJ', 'energy', '1/4.184', 'kilojoule', 'kilojoules'),
  atom('m', 'length', '1', 'metre', 'metres', 'meter', 'meters'),
  atom('cm', 'length', '0.01', 'centimetre', 'centimetres', 'centimeter', 'centimeters'),
  atom('m2', 'area', '1', 'm²'),
  atom('°C', 'temperature', '1', 'K'),
  atom('drops', 'drops', '1', 'drop'),
];

/**
 * What is written in the trade and never guessed at: spelling to proposals. Letter case counts.
 * Common practice, no source; `cc`, `U` and `IU` also stand on the published lists of error-prone abbreviations.
 */
export const MISTAKEN: ReadonlyMap<string, readonly string[]> = new Map([
  ['cc', ['mL']],
  ['ccs', ['mL']],
  ['mls', ['mL']],
  ['mLs', ['mL']],
  ['gm', ['g']],
  ['gms', ['g']],
  ['gr', ['g']],
  ['kgs', ['kg']],
  ['mgs', ['mg']],
  ['mgm', ['mg']],
  ['ug', ['mcg']],
  ['gamma', ['mcg']],
  ['umol', ['micromol']],
  ['mcmol', ['micromol']],
  ['M', ['mol/L']],
  ['mM', ['mmol/L']],
  ['U', ['units']],
  ['u', ['units']],
  ['IU', ['units']],
  ['iu', ['units']],
  ['gtt', ['drops']],
  ['gtts', ['drops']],
  ['Cal', ['kcal']],
  ['cal', ['kcal']],
  ['percent', ['%']],
]);
