/** The main job against published figures, from the text of a block to its results. */
import { describe, expect, it } from 'vitest';
import { DEFAULT_REFERENCE, particleById, results } from '../../src/engine/index.ts';
import { mixturesOf } from '../annotated.ts';

function resultsOf(block: string, name = 'bag') {
  const mixture = mixturesOf(block).get(name);
  if (!mixture?.contents) throw new Error(`${name} has no results`);
  return Object.fromEntries(
    results(mixture.contents, DEFAULT_REFERENCE).map(({ observable, value }) => [observable.id, value.toNumber()]),
  );
}

const bySalt = (grams: string, of = 'sodium chloride', to = '1 L') =>
  `mixture bag\n  ${grams} g ${of}\n  water to ${to}`;

describe('sodium chloride by weight', () => {
  // Product labels of sodium chloride injections; free water by 1 - (Na + K)/154, the convention of Moritz and Ayus.
  it.each([
    ['9', 154.0, 308.0, 0],
    ['4.5', 77.0, 154.0, 500],
    ['2.25', 38.5, 77.0, 750],
    ['30', 513.3, 1026.7, -2333],
  ])('%s g to 1 L', (grams, ion, osmolarity, freeWater) => {
    const found = resultsOf(bySalt(grams));
    expect(found.sodium).toBeCloseTo(ion, 0.3);
    expect(Math.abs(found.sodium! - ion)).toBeLessThan(0.06);
    expect(Math.abs(found.chloride! - ion)).toBeLessThan(0.06);
    expect(Math.abs(found.osmolarity! - osmolarity)).toBeLessThan(0.1);
    expect(Math.abs(found['free-water']! - freeWater)).toBeLessThan(1);
  });
});

describe('sugar before and after it is used', () => {
  it('dextrose 5 % is 252 mOsm/L as labelled in the US, glucose 5 % is 278 as in the NICE CG174 table', () => {
    expect(resultsOf('mixture bag\n  1 L dextrose 5%').osmolarity).toBeCloseTo(252.3, 1);
    expect(resultsOf('mixture bag\n  1 L glucose 5%').osmolarity).toBeCloseTo(277.5, 1);
    expect(resultsOf('mixture bag\n  1 L glucose 5%')['effective-osmolarity']).toBe(0);
    expect(resultsOf('mixture bag\n  1 L glucose 5%')['free-water']).toBe(1000);
  });

  it('dextrose 5 % in sodium chloride 0.45 % is 406 mOsm/L in the bag (label), 154 effective', () => {
    const found = resultsOf('mixture bag\n  1 L dextrose 5% in sodium chloride 0.45%');
    expect(found.osmolarity).toBeCloseTo(406.3, 1);
    expect(found['effective-osmolarity']).toBeCloseTo(154.0, 1);
  });
});

describe('balanced fluids', () => {
  it('lactated Ringer’s: USP label 130/4/109/28 mEq/L, calcium 2.7 mEq/L, 273 mOsm/L', () => {
    const found = resultsOf("mixture bag\n  1 L lactated Ringer's");
    expect(found.sodium).toBeCloseTo(130.3, 1);
    expect(found.potassium).toBeCloseTo(4.02, 2);
    expect(found.chloride).toBeCloseTo(109.4, 1);
    expect(found.lactate).toBeCloseTo(27.66, 2);
    expect(found.calcium).toBeCloseTo(1.3605, 3);
    expect(found.osmolarity).toBeCloseTo(272.8, 1);
    // 130 by the rounded label (Na 130 + K 4); by the salts themselves it is a little less.
    expect(found['free-water']).toBeCloseTo(127.6, 0);
  });

  it('multiple electrolytes type 1: label 140/5/98/27/23, magnesium 3 mEq/L, 294 mOsm/L', () => {
    const found = resultsOf('mixture bag\n  1 L multiple electrolytes type 1');
    expect(found.sodium).toBeCloseTo(140.06, 1);
    expect(found.potassium).toBeCloseTo(4.96, 2);
    expect(found.chloride).toBeCloseTo(97.9, 1);
    expect(found.acetate).toBeCloseTo(27.04, 2);
    expect(found.gluconate).toBeCloseTo(23.01, 2);
    expect(found.magnesium).toBeCloseTo(1.476, 3);
    expect(found.osmolarity).toBeCloseTo(294.5, 1);
  });
});

describe('admixtures', () => {
  it('8.4 g of sodium bicarbonate to 100 mL is 1 mmol/mL (pharmacopoeial strength)', () => {
    const found = resultsOf(bySalt('8.4', 'sodium bicarbonate', '100 mL'));
    expect(found.sodium).toBeCloseTo(1000, 0);
    expect(found.bicarbonate).toBeCloseTo(1000, 0);
  });

  it('150 mL of bicarbonate 8.4 % into 1 L of glucose 5 % is 130.4 mmol/L (common practice, no source)', () => {
    const found = resultsOf('mixture bag\n  1 L glucose 5%\n  3 x 50 mL sodium bicarbonate 8.4%');
    expect(found.volume).toBe(1150);
    expect(found.sodium).toBeCloseTo(130.4, 1);
  });

  it('after withdrawing 150 mL first it is 150 mmol/L (common practice, no source)', () => {
    const found = resultsOf('mixture bag\n  1 L glucose 5%\n  exchange 150 mL for sodium bicarbonate 8.4%');
    expect(found.volume).toBe(1000);
    expect(found.sodium).toBeCloseTo(150.0, 1);
  });

  it('10 mL of calcium chloride 10 % holds 6.8 mmol of calcium (Handbook on Injectable Drugs)', () => {
    const mixture = mixturesOf('mixture bag\n  10 mL calcium chloride 10%').get('bag');
    expect(mixture?.contents?.particles.get(particleById('calcium')!)?.toNumber()).toBeCloseTo(6.802, 3);
  });

  it('20 mmol of potassium as potassium chloride 2 mmol/mL is 10 mL', () => {
    const block = 'mixture bag\n  1 L sodium chloride 0.9%\n  20 mmol potassium as potassium chloride 2 mmol/mL';
    expect(resultsOf(block).volume).toBe(1010);
  });
});
