import { readdirSync, readFileSync } from 'node:fs';
import Ajv from 'ajv';
import { describe, expect, it } from 'vitest';
import {
  decimal,
  findShorthand,
  findSolute,
  findStockFluid,
  molarMass,
  particleById,
  substances,
} from '../../src/engine/index.ts';

const SHARED = new URL('../../shared/', import.meta.url);
const read = (path: string) => JSON.parse(readFileSync(new URL(path, SHARED), 'utf8'));
const FILES = readdirSync(SHARED).filter((name) => name.endsWith('.json'));
const SCHEMAS = readdirSync(new URL('schema/', SHARED));

const WITHOUT_SOURCE = ['from memory', 'worked out here', 'common practice, no source'];

/** Every value of a key named `source`, wherever it stands. */
function sourcesIn(data: unknown): readonly string[] {
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([key, value]) =>
    key === 'source' && typeof value === 'string' ? [value] : sourcesIn(value),
  );
}

describe('the reference data', () => {
  const ajv = new Ajv({ allErrors: true, strict: true, strictRequired: false, strictTypes: false });
  for (const name of SCHEMAS) ajv.addSchema(read(`schema/${name}`));

  it.each(FILES)('%s keeps to its schema', (name) => {
    const data = read(name);
    const schema = name.replace('.json', '.schema.json');
    expect(data.$schema).toBe(`./schema/${schema}`);
    ajv.validate(schema, data);
    expect(ajv.errors).toBeNull();
  });

  it('refuses a number that is no text', () => {
    expect(ajv.validate('atomic-weights.schema.json', { ...read('atomic-weights.json'), weights: { H: 1.008 } })).toBe(
      false,
    );
  });

  it('gives each value a source that exists, and uses every source', () => {
    const known = Object.keys(read('sources.json').sources);
    const used = new Set(FILES.flatMap((name) => sourcesIn(read(name))));
    expect([...used].filter((source) => !known.includes(source) && !WITHOUT_SOURCE.includes(source))).toEqual([]);
    expect(known.filter((source) => !used.has(source))).toEqual([]);
  });

  it('balances charges and masses in every substance', () => {
    // Electroneutrality and conservation of mass: a formula is its particles and its water of crystallisation.
    for (const { name, formula, gives, molarMass: whole } of substances()) {
      if (gives.length === 0) continue;
      expect(
        gives.reduce((sum, { particle, count }) => sum + particle.charge * count, 0),
        name,
      ).toBe(0);
      const waters = /·(\d*)H2O$/.exec(formula);
      const crystal = waters ? molarMass('H2O')!.times(waters[1] || 1) : decimal(0);
      const parts = gives.reduce((sum, { particle, count }) => sum.plus(particle.molarMass.times(count)), crystal);
      expect(parts.toString(), name).toBe(whole.toString());
    }
  });

  it('derives apparent volumes from the densities beside them', () => {
    // v = (1/d - (1 - w)/d0)/w, with the density of water d0 at 20 °C from the same handbook table.
    const water = decimal(read('limits.json').waterDensity.value);
    for (const { name, apparentVolume } of read('substances.json').families) {
      if (!apparentVolume.density) continue;
      const share = decimal(apparentVolume.massPercent).div(100);
      const rest = decimal(1).minus(share).div(water);
      const derived = decimal(1).div(decimal(apparentVolume.density)).minus(rest).div(share);
      const places = apparentVolume.value.split('.')[1].length;
      expect(derived.toFixed(places), name).toBe(apparentVolume.value);
    }
  });

  it('counts the water of crystallisation as water', () => {
    // 0.656 mL/g for dextrose monohydrate, from densities of dextrose solutions and of water (CRC Handbook, 102nd ed.).
    const { apparentVolume } = findSolute('dextrose monohydrate')!.substance;
    expect(Math.abs(apparentVolume.toNumber() - 0.656)).toBeLessThan(0.001);
  });

  it('names only particles, substances and forms that exist', () => {
    for (const { gives, forms, names } of read('substances.json').families) {
      for (const { particle } of gives) expect(particleById(particle), particle).not.toBeNull();
      const ids = forms.map(({ id }: { id: string }) => id);
      for (const name of names) {
        for (const choice of Object.values(name.default ?? {}))
          expect(ids).toContain((choice as { form: string }).form);
      }
    }
    for (const { name, recipe } of read('stock-fluids.json').fluids) {
      expect(findStockFluid(name)!.recipe.map(({ substance }) => substance.id)).toEqual(
        recipe.map(({ substance }: { substance: string }) => substance),
      );
    }
  });

  it('gives no name two meanings', () => {
    const names = [
      ...read('substances.json').families.flatMap(({ names }: { names: { text: string }[] }) =>
        names.map(({ text }) => text),
      ),
      ...read('stock-fluids.json').fluids.flatMap((fluid: { name: string; synonyms: string[] }) => [
        fluid.name,
        ...fluid.synonyms,
      ]),
      ...read('shorthand.json').shorthand.flatMap(({ texts }: { texts: string[] }) => texts),
    ].map((name) => name.toLowerCase());
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([]);
    expect(names.filter((name) => !findSolute(name) && !findStockFluid(name) && !findShorthand(name))).toEqual([]);
  });
});
