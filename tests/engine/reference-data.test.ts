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
  particles,
  stockFluids,
  substanceById,
  substances,
} from '../../src/engine/index.ts';

const SHARED = new URL('../../shared/', import.meta.url);
const read = (path: string) => JSON.parse(readFileSync(new URL(path, SHARED), 'utf8'));
const inFolder = (folder: string) =>
  readdirSync(new URL(folder, SHARED))
    .filter((name) => name.endsWith('.json'))
    .map((name) => folder + name);
const SUBSTANCE_FILES = inFolder('substances/');
const STOCK_FILES = inFolder('stock-fluids/');
const FILES = [...inFolder('./'), ...SUBSTANCE_FILES, ...STOCK_FILES];
const SCHEMAS = readdirSync(new URL('schema/', SHARED));

interface FamilyJson {
  name: string;
  gives: { particle: string }[];
  names: { texts: string[]; default?: Record<string, { form: string }> }[];
  forms: { id: string }[];
  apparentVolume: { value: string; density?: string; massPercent: string };
  solubility: { celsius: string; value: string; massPercent?: string }[];
}
interface FluidJson {
  name: string;
  synonyms: string[];
  recipe: { substance: string }[];
  label?: { particle: string }[];
  notStated?: string[];
}
const FAMILIES: readonly FamilyJson[] = SUBSTANCE_FILES.flatMap((file) => read(file).families);
const AMBIGUOUS: readonly { texts: string[]; forms: string[] }[] = read('substances/phosphates.json').ambiguous;
const FLUIDS: readonly FluidJson[] = STOCK_FILES.flatMap((file) => read(file).fluids);

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
    const [folder, base = ''] = name.split('/') as [string, string];
    const schema = `${folder === '.' ? base.replace('.json', '') : folder}.schema.json`;
    expect(data.$schema).toBe(`${folder === '.' ? './' : '../'}schema/${schema}`);
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
      const waters = /·(\d*)H2O$/.exec(formula!);
      const crystal = waters ? molarMass('H2O')!.times(waters[1] || 1) : decimal(0);
      const parts = gives.reduce((sum, { particle, count }) => sum.plus(particle.molarMass!.times(count)), crystal);
      expect(parts.toString(), name).toBe(whole!.toString());
    }
  });

  it('lets a particle be strong or become bicarbonate, one for each charge it carries', () => {
    // Electroneutrality in the body: an anion that is burnt leaves as much bicarbonate as it had charges, a cation acid.
    for (const { name, charge, strong, base, ion } of particles()) {
      if (base !== 0) expect([base, strong], name).toEqual([0 - charge, false]);
      if (strong) expect(ion, name).toBe(true);
    }
  });

  it('derives apparent volumes from the densities beside them', () => {
    // v = (1/d - (1 - w)/d0)/w, with the density of water d0 at 20 °C from the same handbook table.
    const water = decimal(read('limits.json').waterDensity.value);
    for (const { name, apparentVolume } of FAMILIES) {
      if (!apparentVolume.density) continue;
      const share = decimal(apparentVolume.massPercent).div(100);
      const rest = decimal(1).minus(share).div(water);
      const derived = decimal(1).div(decimal(apparentVolume.density)).minus(rest).div(share);
      const places = apparentVolume.value.split('.')[1]!.length;
      expect(derived.toFixed(places), name).toBe(apparentVolume.value);
    }
  });

  it('derives solubilities from the mass percent beside them, by rising temperature', () => {
    // The handbook gives grams in 100 g of the saturated solution: 100 w/(1 - w) in 100 g of water.
    for (const { name, solubility } of FAMILIES) {
      const degrees = solubility.map(({ celsius }) => Number(celsius));
      expect(degrees, name).toEqual([...degrees].sort((a, b) => a - b));
      for (const { value, massPercent } of solubility) {
        if (!massPercent) continue;
        const percent = decimal(massPercent);
        const derived = percent.times(100).div(decimal(100).minus(percent));
        expect(derived.minus(value).abs().lte('0.005'), `${name}: ${derived.toFixed(3)}`).toBe(true);
      }
    }
  });

  it('counts the water of crystallisation as water', () => {
    // 0.656 mL/g for dextrose monohydrate, from densities of dextrose solutions and of water (CRC Handbook, 102nd ed.).
    const { apparentVolume } = findSolute('dextrose monohydrate')!.substance;
    expect(Math.abs(apparentVolume.toNumber() - 0.656)).toBeLessThan(0.001);
  });

  it('names only particles, substances and forms that exist', () => {
    for (const { gives, forms, names } of FAMILIES) {
      for (const { particle } of gives) expect(particleById(particle), particle).not.toBeNull();
      const ids = forms.map(({ id }) => id);
      for (const choice of names.flatMap((name) => Object.values(name.default ?? {})))
        expect(ids).toContain(choice.form);
    }
    for (const id of AMBIGUOUS.flatMap(({ forms }) => forms)) expect(substanceById(id), id).not.toBeNull();
    for (const { forms } of read('particles.json').together) {
      for (const id of forms) expect(particleById(id), id).not.toBeNull();
    }
    for (const { name, recipe, label = [], notStated = [] } of FLUIDS) {
      expect(findStockFluid(name)!.recipe.map(({ substance }) => substance.id)).toEqual(
        recipe.map(({ substance }) => substance),
      );
      for (const id of [...label.map(({ particle }) => particle), ...notStated]) {
        expect(particleById(id), id).not.toBeNull();
      }
    }
  });

  it('gives no name two meanings', () => {
    const names = [
      ...FAMILIES.flatMap((family) => family.names.flatMap(({ texts }) => texts)),
      ...AMBIGUOUS.flatMap(({ texts }) => texts),
      ...FLUIDS.flatMap(({ name, synonyms }) => [name, ...synonyms]),
      ...read('shorthand.json').shorthand.flatMap(({ texts }: { texts: string[] }) => texts),
    ].map((name) => name.toLowerCase());
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([]);
    expect(names.filter((name) => !findSolute(name) && !findStockFluid(name) && !findShorthand(name))).toEqual([]);
  });

  it('gives each substance, fluid and particle an id of its own', () => {
    for (const ids of [substances(), stockFluids(), particles()].map((all) => all.map(({ id }) => id))) {
      expect(new Set(ids).size).toBe(ids.length);
    }
  });
});
