/** Reads Bundles of HL7 FHIR R4: valid by an independent package, units by the UCUM package, amounts followed down. */
import { UcumLhcUtils } from '@lhncbc/ucum-lhc';
import { Fhir } from 'fhir';
import { expect } from 'vitest';
import { type Contents, type Decimal, massOf, ONE, ZERO } from '../../src/engine/index.ts';
import type { ExportedNote } from './exported.ts';

const fhir = new Fhir();
const ucum = UcumLhcUtils.getInstance();

// biome-ignore lint/suspicious/noExplicitAny: a tree of JSON, walked by the rules of FHIR.
export type Tree = any;

export function bundleOf(note: ExportedNote, name: string): { readonly text: string; readonly bundle: Tree } {
  const exported = note.export(name, 'fhir');
  if (!exported.ok) throw new Error(exported.reason);
  return { text: exported.text, bundle: JSON.parse(exported.text) };
}

export function resources(bundle: Tree, type: string): readonly Tree[] {
  return bundle.entry.map(({ resource }: Tree) => resource).filter((one: Tree) => one.resourceType === type);
}

/** Every object below, itself among them. */
export function objects(tree: Tree): readonly Tree[] {
  if (typeof tree !== 'object') return [];
  const below = Object.values(tree).flatMap(objects);
  return Array.isArray(tree) ? below : [tree, ...below];
}

/** The package does not have LOINC; loinc.org/2951-2 and loinc.org/2823-3. */
const isLoinc = (_: string, code: string, system?: string) =>
  system === 'http://loinc.org' && ['2951-2', '2823-3'].includes(code);

export function problems({ bundle, text }: { readonly bundle: Tree; readonly text: string }): readonly string[] {
  const found = fhir
    .validate(text, { errorOnUnexpected: true, beforeCheckCode: isLoinc })
    .messages.map(({ location, message }) => `${location}: ${message}`);
  const addresses = bundle.entry.map(({ fullUrl }: Tree) => fullUrl);
  // Bundle, bdl-7: an address stands once.
  if (new Set(addresses).size < addresses.length) found.push('an address stands twice');
  for (const one of objects(bundle)) {
    if (one.reference && !addresses.includes(one.reference)) found.push(`no entry ${one.reference}`);
    if (one.system === 'http://unitsofmeasure.org' && ucum.validateUnitString(one.code).status !== 'valid')
      found.push(`no unit of UCUM: ${one.code}`);
    // Quantity, qty-3: a code has a system; and here never a number without a unit.
    if ('value' in one && !(one.system && one.code && one.unit)) found.push(`a bare number: ${one.value}`);
    // Timing, tim-1, tim-2, tim-4, tim-5: a time has a unit and is not below zero.
    if ('duration' in one && !(one.durationUnit && one.duration >= 0)) found.push('a duration without a unit');
    if ('period' in one && !(one.periodUnit && one.period >= 0)) found.push('a period without a unit');
    // JSON: no empty arrays, objects or strings.
    for (const [key, value] of Object.entries(one))
      if (value === '' || value === null || (typeof value === 'object' && Object.keys(value as object).length === 0))
        found.push(`${key} is empty`);
  }
  return found;
}

/** What a Medication holds, by the strengths of its ingredients and theirs: amounts in 1 mL by name, in mmol, g or units. */
export function amountsIn(bundle: Tree, reference: string): ReadonlyMap<string, number> {
  const { resource } = bundle.entry.find(({ fullUrl }: Tree) => fullUrl === reference);
  const found = new Map<string, number>();
  const add = (key: string, amount: number) => found.set(key, (found.get(key) ?? 0) + amount);
  for (const { itemReference, itemCodeableConcept, strength } of resource.ingredient ?? []) {
    if (!strength) continue;
    const [of, inMl] = [strength.numerator, strength.denominator].map(({ value, code }: Tree) =>
      code === 'mL' || code === 'L' ? value * (code === 'L' ? 1000 : 1) : value,
    ) as [number, number];
    if (itemReference) {
      for (const [key, amount] of amountsIn(bundle, itemReference.reference)) add(key, (amount * of) / inMl);
    } else {
      const { code } = strength.numerator;
      const grams = { g: 1, mg: 1e-3, ug: 1e-6 }[code as string];
      if (code !== 'mL') add(`${itemCodeableConcept.text} ${grams ? 'g' : code}`, (of * (grams ?? 1)) / inMl);
    }
  }
  return found;
}

/** The same by the engine's contents; a molecule is told in g, and a salt that is weighed dry as well. */
export function expectAmounts(found: ReadonlyMap<string, number>, contents: Contents): void {
  const inMl = (amount: Decimal) => amount.div(contents.volume).toNumber();
  const left = new Map(found);
  const take = (key: string) => {
    const amount = left.get(key) ?? 0;
    left.delete(key);
    return amount;
  };
  // Numbers told are rounded to nine digits; `of` is what they are parts of.
  const expectNear = (name: string, told: number, wanted: number, of = wanted) =>
    expect(Math.abs(told - wanted), `${name}: ${told} for ${wanted}`).toBeLessThanOrEqual(1e-7 * of + 1e-25);
  const rest = new Map([...contents.particles].map(([particle, mmol]) => [particle, inMl(mmol)]));
  for (const [substance, mmol] of contents.solutes) {
    const perMl = inMl(mmol);
    for (const { particle, count } of substance.gives) rest.set(particle, (rest.get(particle) ?? 0) - count * perMl);
    if (substance.id === 'water') continue;
    const grams = massOf(substance, { in: 'mmol', value: ONE });
    const told = take(`${substance.name} mmol`) + (grams ? take(`${substance.name} g`) / grams.toNumber() : 0);
    expectNear(substance.name, told, perMl);
  }
  for (const [{ name }, grams] of contents.masses) expectNear(name, take(`${name} g`), inMl(grams));
  for (const [{ name }, units] of contents.activities) expectNear(name, take(`${name} [arb'U]`), inMl(units));
  for (const [particle, beyond] of rest) {
    const all = inMl(contents.particles.get(particle) ?? ZERO);
    expectNear(particle.name, take(`${particle.name} mmol`), beyond, all);
  }
  expect([...left.keys()]).toEqual([]);
}
