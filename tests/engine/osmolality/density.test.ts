import { describe, expect, it } from 'vitest';
import densities from '../../../shared/densities.json' with { type: 'json' };
import {
  type Contents,
  decimal,
  defineSubstance,
  EMPTY,
  ONE,
  ofSolute,
  plus,
  times,
  ZERO,
} from '../../../src/engine/index.ts';
import { density } from '../../../src/engine/osmolality/density.ts';
import { WATER } from '../../../src/engine/osmolality/tables.ts';
import { apparentVolume } from '../../../src/engine/osmolality/volumes.ts';
import { litreOf } from '../helpers.ts';
import { DENSITIES } from './handbook.ts';
import { labelled } from './labelled.ts';

/** Estimated g/mL of a solution of one solute by its mass percent: the strength in g/mL and its density meet. */
function ofMassPercent(family: string, massPercent: number): number {
  let estimate = WATER;
  for (let round = 0; round < 50; round++) {
    const grams = (massPercent / 100) * estimate;
    estimate = WATER + grams * (1 - apparentVolume(family, grams, Number.NaN).volume * WATER);
  }
  return estimate;
}

/** So many grams in 1 mL of what takes up so many mL/g. */
function ofOwn(apparentVolume: string, grams: string): Contents {
  const defined = defineSubstance({
    name: 'abc',
    molarMass: null,
    gives: [],
    apparentVolume: decimal(apparentVolume),
  });
  if (!defined.ok) throw new Error(defined.fault.problem);
  return ofSolute(defined.substance, { in: 'g', value: decimal(grams) }, ONE);
}

function gramsPerMl(contents: Contents): number {
  const estimate = density(contents);
  if (!estimate.ok) throw new Error(estimate.reason);
  return estimate.gramsPerMl;
}

function expectWithin(found: number, expected: number, share: number, of: string): void {
  expect(Math.abs(found / expected - 1), `${of}: ${found.toFixed(4)}`).toBeLessThanOrEqual(share);
}

describe('densities at 20 °C', () => {
  it.each(densities.solutes.map(({ id, tables }) => [id, tables] as const))(
    '%s: every row of its tables',
    (id, tables) => {
      for (const [massPercent, expected] of tables.flatMap(({ rows }) => rows)) {
        expect(ofMassPercent(id, Number(massPercent)).toFixed(4)).toBe(Number(expected).toFixed(4));
      }
    },
  );

  it.each(Object.entries(DENSITIES))('%s: handbook rows between them to 0.1 %', (family, rows) => {
    for (const [massPercent, expected] of rows) {
      expectWithin(ofMassPercent(family, massPercent), expected, 0.001, `${massPercent} %`);
    }
  });

  // Density model of Laliberté and Cooper 2004, parameters of Laliberté 2009, worked out at 20 °C. Left out: sodium acetate
  // and monobasic sodium phosphate above 12 %, where it and the handbook differ by up to 0.2 %.
  it.each([
    [
      'sodium-chloride',
      [
        [0.9, 1.0045],
        [4, 1.0266],
        [6, 1.0411],
        [12, 1.0858],
        [18, 1.1323],
      ],
    ],
    [
      'potassium-chloride',
      [
        [3, 1.0172],
        [6, 1.0367],
        [12, 1.0768],
      ],
    ],
    [
      'calcium-chloride',
      [
        [3, 1.0226],
        [6, 1.0479],
        [12, 1.1012],
      ],
    ],
    [
      'magnesium-chloride',
      [
        [3, 1.0227],
        [8, 1.0653],
        [12, 1.1007],
      ],
    ],
    [
      'magnesium-sulfate',
      [
        [3, 1.0289],
        [8, 1.0815],
        [15, 1.1595],
      ],
    ],
    [
      'sodium-bicarbonate',
      [
        [3, 1.02],
        [5.5, 1.0379],
        [7, 1.0486],
        [9, 1.0628],
      ],
    ],
    [
      'sodium-acetate',
      [
        [3, 1.0137],
        [8, 1.039],
        [12, 1.0597],
      ],
    ],
    ['potassium-acetate', [[15, 1.0744]]],
    [
      'ammonium-chloride',
      [
        [3, 1.0071],
        [15, 1.042],
      ],
    ],
    [
      'sodium-phosphate-monobasic',
      [
        [3, 1.021],
        [8, 1.0599],
      ],
    ],
    [
      'sodium-phosphate-dibasic',
      [
        [3, 1.0279],
        [5, 1.0476],
      ],
    ],
    [
      'potassium-phosphate-monobasic',
      [
        [3, 1.0193],
        [7, 1.048],
      ],
    ],
    [
      'potassium-phosphate-dibasic',
      [
        [4, 1.0332],
        [6, 1.051],
      ],
    ],
    [
      'sucrose',
      [
        [5, 1.0179],
        [30, 1.1269],
      ],
    ],
  ] as const)('%s: a density model of its own to 0.1 %', (family, rows) => {
    for (const [massPercent, expected] of rows) {
      expectWithin(ofMassPercent(family, massPercent), expected, 0.001, `${massPercent} %`);
    }
  });

  // g/mL by interpolation in the CRC Handbook, and the same density model for bicarbonate 8.4 %.
  it.each([
    ['0.9 %', 'sodium chloride', 1.0046],
    ['3 %', 'sodium chloride', 1.0192],
    ['5 %', 'sodium chloride', 1.0329],
    ['7.5 %', 'sodium chloride', 1.0497],
    ['23.4 %', 'sodium chloride', 1.1505],
    ['2 mmol/mL', 'potassium chloride', 1.0884],
    ['8.4 %', 'sodium bicarbonate', 1.0554],
    ['10 %', 'calcium chloride dihydrate', 1.0584],
    ['50 %', 'magnesium sulfate heptahydrate', 1.22],
    ['5 %', 'glucose anhydrous', 1.0172],
    ['10 %', 'glucose anhydrous', 1.0361],
    ['50 %', 'glucose anhydrous', 1.1835],
    ['70 %', 'glucose anhydrous', 1.255],
    ['5 %', 'dextrose monohydrate', 1.0155],
    ['10 %', 'dextrose monohydrate', 1.0326],
    ['50 %', 'dextrose monohydrate', 1.1672],
    ['70 %', 'dextrose monohydrate', 1.2323],
  ])('%s %s: %f g/mL to a thousandth, its water of crystallisation counted as water', (strength, solute, expected) => {
    expectWithin(gramsPerMl(litreOf([strength, solute])), expected, 0.001, solute);
  });
});

describe('the density of a mixture', () => {
  it('is that of water without solutes', () => {
    expect(density({ ...EMPTY, volume: decimal(5) })).toMatchObject({
      ok: true,
      gramsPerMl: 0.9982,
      waterGramsPerMl: 0.9982,
    });
  });

  it('adds what sugar and salt do alone, to 0.1 %', () => {
    // No interaction: of dextrose with sodium chloride none is known that would show in the third decimal (assumption).
    const [sugar, salt] = [litreOf(['5 %', 'glucose']), litreOf(['0.9 %', 'sodium chloride'])];
    const both = litreOf(['5 %', 'glucose'], ['0.9 %', 'sodium chloride']);
    expectWithin(gramsPerMl(both), gramsPerMl(sugar) + gramsPerMl(salt) - WATER, 0.001, 'both');
  });

  it('of salts with a common ion is nearly the mean of both (Young’s rule)', () => {
    const [sodium, potassium] = [
      litreOf(['1 mmol/mL', 'sodium chloride']),
      litreOf(['1 mmol/mL', 'potassium chloride']),
    ];
    expectWithin(gramsPerMl(plus(sodium, potassium)), (gramsPerMl(sodium) + gramsPerMl(potassium)) / 2, 1e-6, 'mixed');
  });

  it.each([
    ['sodium chloride 0.9 %', litreOf(['154 mmol/L', 'sodium chloride']), { sodium: '154', chloride: '154' }],
    ['magnesium sulfate', litreOf(['300 mmol/L', 'magnesium sulfate']), { magnesium: '300', sulfate: '300' }],
    [
      'lactated Ringer’s',
      litreOf(
        ['102.7 mmol/L', 'sodium chloride'],
        ['27.7 mmol/L', 'sodium lactate'],
        ['4 mmol/L', 'potassium chloride'],
        ['1.4 mmol/L', 'calcium chloride'],
      ),
      { sodium: '130.4', potassium: '4', calcium: '1.4', chloride: '109.5', lactate: '27.7' },
    ],
    ['dextrose 5 %', litreOf(['277.5 mmol/L', 'glucose']), { dextrose: '277.5' }],
  ])('is the same for %s by its salts and by the ions of its label', (_, salts, ions) => {
    expect(Math.abs(gramsPerMl(labelled(ions)) - gramsPerMl(salts))).toBeLessThanOrEqual(0.0002);
  });

  it('says where each volume is from', () => {
    const bases = (contents: Contents) => {
      const estimate = density(contents);
      return estimate.ok && estimate.parts.map(({ name, basis }) => `${name}: ${basis}`);
    };
    expect(bases(litreOf(['0.9 %', 'sodium chloride'], ['10 mmol/L', 'sodium lactate']))).toEqual([
      'sodium chloride: table',
      'sodium lactate: one-figure',
    ]);
    expect(bases(litreOf(['30 %', 'potassium chloride']))).toEqual(['potassium chloride: beyond-table']);
    expect(bases(labelled({ chloride: '10', sodium: '10', nowhere: '1' }))).toEqual([
      'chloride: salts',
      'nowhere: assumed',
      'sodium: salts',
    ]);
  });

  it('is less certain the less the volumes are known', () => {
    const within = (contents: Contents) => {
      const estimate = density(contents);
      return estimate.ok ? estimate.within : Number.NaN;
    };
    expect(within(litreOf(['1 mmol/mL', 'sodium chloride']))).toBeLessThan(0.0015);
    expect(within(litreOf(['1 mmol/mL', 'sodium lactate']))).toBeGreaterThan(0.002);
  });

  it('is not given without a volume, or without room for water', () => {
    expect(density(EMPTY)).toEqual({ ok: false, reason: 'no-volume' });
    expect(density({ ...litreOf(['0.9 %', 'sodium chloride']), volume: ZERO })).toEqual({
      ok: false,
      reason: 'no-volume',
    });
    const crammed = times(litreOf(['70 %', 'glucose']), decimal(10));
    expect(density({ ...crammed, volume: decimal(1000) })).toEqual({ ok: false, reason: 'no-water' });
    // A gram that takes up a millilitre fills one, and so do 1.2 mL of solute in 1 mL of solution.
    expect(density(ofOwn('1', '1'))).toEqual({ ok: false, reason: 'no-water' });
    expect(density(ofOwn('1.2', '1'))).toEqual({ ok: false, reason: 'no-water' });
    expect(density(ofOwn('1', '0.9')).ok).toBe(true);
    const absurd = { ...litreOf(['0.9 %', 'sodium chloride']), volume: decimal('1e-300') };
    expect(density(absurd)).toEqual({ ok: false, reason: 'no-water' });
  });

  it('is not given of more than 3 g of solute or 0.1 mol of particles in 1 mL', () => {
    expect(density(ofOwn('0', '3')).ok).toBe(true);
    expect(density(ofOwn('0', '3.1'))).toEqual({ ok: false, reason: 'no-water' });
    expect(density(labelled({ nowhere: '100000' })).ok).toBe(true);
    expect(density(labelled({ nowhere: '100001' }))).toEqual({ ok: false, reason: 'no-water' });
  });
});
