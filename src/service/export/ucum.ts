/** Quantities for other programs: exact digits, and units of the Unified Code for Units of Measure (UCUM). */
import { type Decimal, exactText } from '../../engine/index.ts';
import { Exact, type Json } from '../../render/exact-json.ts';

const UCUM = 'http://unitsofmeasure.org';

/**
 * The notation's spelling to UCUM's, where it differs. Units of activity are those of whatever drug it is, and UCUM's
 * arbitrary unit, which converts into nothing else, is the one that claims no more than that.
 */
const CODES: Readonly<Record<string, string>> = { mcg: 'ug', units: "[arb'U]" };

/** A FHIR Quantity; `unit` as the notation spells it. */
export function quantity(value: Decimal, unit: string): Json {
  return { value: exact(value), unit, system: UCUM, code: CODES[unit] ?? unit };
}

export function ratio(numerator: Json, denominator: Json): Json {
  return { numerator, denominator };
}

export function exact(value: Decimal): Exact {
  return new Exact(exactText(value));
}
