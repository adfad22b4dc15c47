import { describe, expect, it } from 'vitest';
import { type Contents, decimal, EMPTY, findStockFluid } from '../../../src/engine/index.ts';
import { listedCoefficient } from '../../../src/engine/osmolality/molecules.ts';
import { type Osmolality, osmolality } from '../../../src/engine/osmolality/osmolality.ts';
import { WATER } from '../../../src/engine/osmolality/tables.ts';
import { apparentVolume } from '../../../src/engine/osmolality/volumes.ts';
import { litreOf } from '../helpers.ts';
import { MOLECULES_FREEZING } from './handbook.ts';
import { labelled } from './labelled.ts';
import { reading } from './single-salts.ts';

function estimated(contents: Contents): Osmolality & { readonly ok: true } {
  const estimate = osmolality(contents);
  if (!estimate.ok) throw new Error(estimate.reason);
  return estimate;
}

/** mOsm/kg of a molecule alone, for molecules that are no substance yet: g in 1 mL, g/mol. */
function ofMolecule(family: string, molarMass: number, grams: number): number {
  const water = WATER * (1 - grams * apparentVolume(family, grams, Number.NaN).volume);
  const molality = (1000 * grams) / molarMass / water;
  return 1000 * molality * listedCoefficient(family, molality)!.coefficient;
}

describe('the osmometer’s own standards', () => {
  // USP <785> and Ph. Eur. 2.2.35: g of sodium chloride in 1 kg of water. From memory.
  it.each([
    [3.087, 100],
    [6.26, 200],
    [9.463, 300],
    [12.684, 400],
    [15.916, 500],
    [19.147, 600],
    [22.38, 700],
  ])('%f g/kg reads %i mOsm/kg, to a hundredth', (grams, expected) => {
    expect(Math.abs(reading('sodium-chloride', grams / 58.44) / expected - 1)).toBeLessThanOrEqual(0.01);
  });
});

describe('measured osmolality', () => {
  it.each([
    // A letter in Anesthesia and Analgesia, 1999, and a review in Der Anaesthesist: 286 by freezing point.
    ['sodium chloride 0.9 %', litreOf(['0.9 %', 'sodium chloride']), 286, 2],
    // The review in Der Anaesthesist: 256 for Ringer's lactate.
    ['lactated Ringer’s', findStockFluid("lactated Ringer's")!.perLitre, 256, 3],
  ])('%s', (_, contents, measured, within) => {
    const { mOsmPerKg, within: off } = estimated(contents);
    expect(Math.abs(mOsmPerKg - measured)).toBeLessThanOrEqual(within);
    expect(Math.abs(mOsmPerKg - measured)).toBeLessThanOrEqual(off);
  });

  // Handbook on Injectable Drugs. Potassium chloride read 4355 by freezing point and 3440 by vapour pressure, above what an
  // osmometer is made for; calcium chloride 1765 lies 10 % below every prediction, handbook freezing points among them.
  it.each([
    ['potassium chloride 2 mmol/mL', litreOf(['2 mmol/mL', 'potassium chloride']), (4355 + 3440) / 2, 0.15],
    ['calcium chloride 10 %', litreOf(['10 %', 'calcium chloride dihydrate']), 1765, 0.15],
    ['sodium chloride 14.6 %', litreOf(['14.6 %', 'sodium chloride']), 5370, 0.03],
  ])('%s, within a wide band', (_, contents, measured, share) => {
    expect(Math.abs(estimated(contents).mOsmPerKg / measured - 1)).toBeLessThanOrEqual(share);
  });

  // A table of osmolarities of admixture components lists 0.308 mOsm/mL; the parameters were set by it, so that only their
  // way through volumes and water is checked.
  it('calcium gluconate 10 %', () => {
    expect(Math.abs(estimated(litreOf(['10 %', 'calcium gluconate'])).mOsmPerKg / 308 - 1)).toBeLessThanOrEqual(0.05);
  });
});

describe('common strengths', () => {
  // Worked out independently of this code from the same handbook: density, water, molality, coefficient.
  it.each([
    ['0.225 %', 'sodium chloride', 73],
    ['0.45 %', 'sodium chloride', 145],
    ['3 %', 'sodium chloride', 956],
    ['5 %', 'sodium chloride', 1621],
    ['7.5 %', 'sodium chloride', 2500],
    ['1.26 %', 'sodium bicarbonate', 279],
    ['4.2 %', 'sodium bicarbonate', 903],
    ['8.4 %', 'sodium bicarbonate', 1738],
    ['10 %', 'calcium chloride dihydrate', 1996],
    ['5 %', 'glucose anhydrous', 290],
    ['5 %', 'dextrose monohydrate', 262],
    ['10 %', 'glucose anhydrous', 605],
    ['10 %', 'dextrose monohydrate', 545],
    ['20 %', 'glucose anhydrous', 1321],
    ['20 %', 'dextrose monohydrate', 1181],
  ])('%s %s: %i mOsm/kg, to half a hundredth', (strength, solute, expected) => {
    const { mOsmPerKg, beyondOsmometer, beyondData } = estimated(litreOf([strength, solute]));
    expect(Math.abs(mOsmPerKg / expected - 1)).toBeLessThanOrEqual(0.005);
    expect([beyondOsmometer, beyondData]).toEqual([false, []]);
  });

  // Freezing points in the CRC Handbook, interpolated by strength, over 1.86 °C.
  it.each([
    ['0.225 %', 'sodium chloride', 73],
    ['0.9 %', 'sodium chloride', 285],
    ['3 %', 'sodium chloride', 944],
    ['5 %', 'sodium chloride', 1585],
    ['7.5 %', 'sodium chloride', 2409],
    ['1.26 %', 'sodium bicarbonate', 266],
    ['4.2 %', 'sodium bicarbonate', 845],
    ['10 %', 'calcium chloride dihydrate', 1970],
    ['4 %', 'magnesium sulfate heptahydrate', 186],
  ])('%s %s froze at %i mOsm/kg: within the uncertainty stated', (strength, solute, measured) => {
    const { mOsmPerKg, within } = estimated(litreOf([strength, solute]));
    expect(Math.abs(mOsmPerKg - measured)).toBeLessThanOrEqual(within);
  });

  // The same table for molecules that are no substance yet; mannitol 20 % lies beyond it.
  it.each([
    ['mannitol', 182.172, 0.05, 285, 0.01],
    ['mannitol', 182.172, 0.1, 594, 0.01],
    ['mannitol', 182.172, 0.15, 932, 0.01],
    ['mannitol', 182.172, 0.2, 1300, 0.02],
    ['tromethamine', 121.136, 0.03634, 308, 0.01],
  ])('%s (%f g/mol), %f g/mL: %i mOsm/kg', (family, molarMass, grams, expected, share) => {
    expect(Math.abs(ofMolecule(family, molarMass, grams) / expected - 1)).toBeLessThanOrEqual(share);
  });

  it.each(Object.entries(MOLECULES_FREEZING))(
    '%s: handbook freezing points between those listed, to 2 %',
    (family, rows) => {
      for (const [molality, depression] of rows) {
        const { coefficient } = listedCoefficient(family, molality)!;
        expect(Math.abs(coefficient / (depression / 1.86 / molality) - 1), `${molality}`).toBeLessThanOrEqual(0.02);
      }
    },
  );
});

describe('an estimate', () => {
  it('is 0 for water', () => {
    expect(osmolality({ ...EMPTY, volume: decimal(1000) })).toMatchObject({ ok: true, mOsmPerKg: 0, parts: [] });
  });

  it('adds ions together and each molecule for itself', () => {
    const { mOsmPerKg, parts } = estimated(litreOf(['5 %', 'dextrose'], ['0.45 %', 'sodium chloride']));
    expect(parts.map((part) => part.kind)).toEqual(['ions', 'molecule']);
    expect(parts.reduce((sum, part) => sum + part.mOsmPerKg, 0)).toBeCloseTo(mOsmPerKg, 9);
  });

  it('says what stands in for a salt without parameters', () => {
    const [ions] = estimated(litreOf(['6 g/L', 'sodium chloride'], ['3.1 g/L', 'sodium lactate'])).parts;
    expect(ions).toMatchObject({
      kind: 'ions',
      pairs: [
        { name: 'sodium chloride', salt: 'sodium-chloride', standIn: false, source: 'pitzer-strong-electrolytes-1973' },
        { name: 'sodium lactate', salt: 'sodium-acetate', standIn: true, source: 'pitzer-generic-2011' },
      ],
    });
  });

  it('is the same by salts and by the ions of a label, to 0.2 %', () => {
    const salts = litreOf(['102.7 mmol/L', 'sodium chloride'], ['27.7 mmol/L', 'sodium lactate']);
    const label = labelled({ sodium: '130.4', chloride: '102.7', lactate: '27.7' });
    expect(Math.abs(estimated(label).mOsmPerKg / estimated(salts).mOsmPerKg - 1)).toBeLessThanOrEqual(0.002);
  });

  it('widens by the charges that a label leaves open, and is not given when they are many', () => {
    const closed = estimated(labelled({ sodium: '150', chloride: '150' }));
    const open = estimated(labelled({ sodium: '154', chloride: '150' }));
    expect(open.within - closed.within).toBeGreaterThan(3.5);
    expect(osmolality(labelled({ sodium: '154' }))).toEqual({ ok: false, reason: 'charge-imbalance' });
  });

  it('counts a molecule without freezing points in full, less certainly', () => {
    const [part] = estimated(labelled({ nowhere: '100' })).parts;
    expect(part).toMatchObject({ name: 'nowhere', coefficient: 1, basis: 'counted-in-full', uncertainty: 0.1 });
  });

  it('says when it lies beyond what osmometers read, and beyond its data', () => {
    const strong = estimated(litreOf(['50 %', 'glucose']));
    expect([strong.beyondOsmometer, strong.beyondData]).toEqual([true, ['dextrose']]);
    expect(strong.within / strong.mOsmPerKg).toBeGreaterThan(0.1);
    const concentrate = estimated(litreOf(['23.4 %', 'sodium chloride']));
    expect([concentrate.beyondOsmometer, concentrate.beyondData]).toEqual([true, []]);
  });

  it('is not given far beyond its data', () => {
    expect(osmolality(litreOf(['70 %', 'glucose']))).toEqual({ ok: false, reason: 'too-strong', names: ['dextrose'] });
    expect(osmolality(litreOf(['5 mEq/mL', 'sodium lactate']))).toEqual({
      ok: false,
      reason: 'too-strong',
      names: ['sodium lactate'],
    });
  });

  it('is not given beyond five times what osmometers read, nor below zero', () => {
    const strong = { ok: false, reason: 'too-strong', names: [] };
    // Within twice what its data reach, but above 15 Osm/kg.
    expect(osmolality(litreOf(['3 mmol/mL', 'magnesium chloride hexahydrate']))).toEqual(strong);
    // Drawn on beyond its data, the coefficient of this salt falls below zero.
    expect(osmolality(labelled({ magnesium: '450', citrate: '300' }))).toEqual(strong);
  });

  it('bears a trace of what is beyond its data', () => {
    // The charges are far above what the data of lactates reach; a five-hundredth of them is lactate.
    const traced = estimated(litreOf(['14.6 %', 'sodium chloride'], ['5 mmol/L', 'sodium lactate']));
    expect(traced.beyondData).toEqual([]);
    const plain = estimated(litreOf(['14.6 %', 'sodium chloride']));
    expect(traced.mOsmPerKg - plain.mOsmPerKg).toBeGreaterThan(10);
    expect(traced.mOsmPerKg - plain.mOsmPerKg).toBeLessThan(20);
  });

  it('is less certain the stronger the fluid: doubly at 1000 mOsm/kg', () => {
    // 1.5 % of sodium chloride’s at low strength.
    const { mOsmPerKg, within } = estimated(litreOf(['3 %', 'sodium chloride']));
    expect(within).toBeCloseTo(0.015 * mOsmPerKg * (1 + mOsmPerKg / 1000), 6);
    // No reading is more certain than the osmometer: 3 mOsm/kg.
    expect(estimated(litreOf(['0.1 %', 'sodium chloride'])).within).toBe(3);
  });

  it('is not given without a volume, or without room for water', () => {
    expect(osmolality(EMPTY)).toEqual({ ok: false, reason: 'no-volume' });
    const crammed = { ...litreOf(['70 %', 'glucose']), volume: decimal(100) };
    expect(osmolality(crammed)).toEqual({ ok: false, reason: 'no-water' });
  });
});
