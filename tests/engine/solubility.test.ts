import { describe, expect, it } from 'vitest';
import {
  decimal,
  EMPTY,
  mix,
  ONE,
  type Overload,
  overload,
  plus,
  solubilityAt,
  substances,
  water,
} from '../../src/engine/index.ts';
import { add, dry, litreOf, perMl, solute } from './helpers.ts';

const over = (strength: string, name: string): Overload | null => overload(perMl(strength, name));

describe('what cannot be dissolved', () => {
  it.each([
    // Solubility at 20 °C in g of anhydrous solute in 100 g of water: sodium chloride 35.89, potassium
    // chloride 34.03, calcium chloride 72.8, magnesium sulfate 33.51, sodium bicarbonate 9.57 (CRC Handbook, 98th ed.);
    // dextrose and calcium gluconate from memory and from a label.
    ['90 %', 'sodium chloride'],
    ['40 %', 'sodium chloride'],
    ['45 %', 'potassium chloride'],
    ['15 %', 'sodium bicarbonate'],
    ['90 %', 'magnesium sulfate'],
    ['95 %', 'dextrose'],
    ['20 %', 'calcium gluconate'],
    ['140 %', 'calcium chloride'],
  ])('%s %s', (strength, name) => {
    const found = over(strength, name)!;
    expect(found.substance.family).toBe(name);
    expect(found.reason).toBe('solubility');
    expect(found.gramsPer100gWater.gt(found.limit)).toBe(true);
  });

  it.each([
    // CRC Handbook, 98th ed.: in 100 g of water at 0, 10 and 20 °C sodium bicarbonate 6.93, 8.21 and 9.57 g, boric acid 2.68,
    // 3.7 and 5.01 g; at 5 °C half-way between the first two. Mannitol 10.4 g at 0 and 18.6 g at 20 °C: from memory.
    ['sodium bicarbonate', 0, 6.93],
    ['sodium bicarbonate', 5, 7.57],
    ['sodium bicarbonate', 20, 9.57],
    ['boric acid', 5, 3.19],
    ['mannitol', 5, 12.45],
    // One figure at 25 °C: it serves for 20 °C, not for 5.
    ['sodium gluconate', 20, 59],
    ['sodium gluconate', 5, null],
    ['sodium chloride', 30, 35.96],
    ['sodium chloride', 40, null],
    ['glycerol', 20, null],
  ])('%s at %d °C: %s g in 100 g of water', (name, celsius, grams) => {
    const known = solubilityAt(solute(name), decimal(celsius));
    if (grams === null) expect(known).toBeNull();
    else expect(Math.abs(known!.gramsPer100gWater.toNumber() - grams)).toBeLessThan(0.006);
  });

  it('finds in the cold what stays dissolved in a warm room', () => {
    // Boric acid 4.5 %: 4.6 g in 100 g of water, between 3.19 g at 5 °C and 5.01 g at 20 °C.
    expect(over('4.5 %', 'boric acid')).toBeNull();
    expect(overload(perMl('4.5 %', 'boric acid'), decimal(5))).toMatchObject({
      substance: { id: 'boric-acid' },
      celsius: 5,
      reason: 'solubility',
    });
    expect(overload(perMl('20 %', 'mannitol'), decimal(5))).toBeNull();
  });

  it('says what it compared', () => {
    // By hand: 90 g leave 100 - 90 × 0.323 = 70.93 mL of water, 70.80 g; 90 ÷ 70.80 × 100 = 127.1.
    const found = over('90 %', 'sodium chloride')!;
    expect(found.gramsPer100gWater.toFixed(1)).toBe('127.1');
    expect([found.limit.toString(), found.celsius, found.source]).toEqual([
      '35.89',
      20,
      'CRC Handbook of Chemistry and Physics, 98th edition, aqueous solubility of inorganic compounds, 2017',
    ]);
    expect(over('95 %', 'dextrose')!.source).toBe('from memory');
  });

  it.each([
    // Strengths that are sold: Handbook on Injectable Drugs and product labels; sodium chloride 30 % and glucose 70 % from
    // memory.
    ['70 %', 'dextrose'],
    ['70 %', 'glucose'],
    ['50 %', 'dextrose'],
    ['23.4 %', 'sodium chloride'],
    ['30 %', 'sodium chloride'],
    ['2 mmol/mL', 'potassium chloride'],
    ['15 %', 'potassium chloride'],
    ['8.4 %', 'sodium bicarbonate'],
    ['10 %', 'calcium chloride'],
    ['50 %', 'magnesium sulfate'],
    ['10 %', 'calcium gluconate'],
    ['4 mEq/mL', 'sodium acetate'],
    ['5 mEq/mL', 'sodium lactate'],
    ['20 %', 'magnesium chloride'],
    ['20 %', 'mannitol'],
    ['25 %', 'mannitol'],
    ['5 mEq/mL', 'ammonium chloride'],
    ['2 mEq/mL', 'potassium acetate'],
    ['142 mg/mL', 'dibasic sodium phosphate anhydrous'],
    ['224 mg/mL', 'monobasic potassium phosphate'],
  ])('never %s %s, nor what is made from it', (strength, name) => {
    expect(over(strength, name)).toBeNull();
    expect(overload(mix([add(500, perMl(strength, name)), add(700, water(ONE))]).contents)).toBeNull();
  });

  it('never a strength that the data list', () => {
    for (const { name, listedStrengths } of substances()) {
      for (const { value, unit } of listedStrengths)
        expect(over(`${value} ${unit}`, name), `${name} ${value}`).toBeNull();
    }
  });

  it('adds up the forms of one solute', () => {
    const both = plus(perMl('50 %', 'dextrose'), perMl('50 %', 'glucose'));
    expect(overload({ ...both, volume: ONE })).toMatchObject({ reason: 'solubility' });
  });

  it('judges each solute in the water that all of them leave', () => {
    const ordinary = litreOf(['5 %', 'dextrose'], ['0.45 %', 'sodium chloride'], ['0.3 %', 'potassium chloride']);
    expect(overload(ordinary)).toBeNull();
    // Sodium chloride 31 % is just soluble alone (31 g leave 90 g of water: 34.5), not beside dextrose 40 %.
    expect(over('31 %', 'sodium chloride')).toBeNull();
    expect(overload(litreOf(['31 %', 'sodium chloride'], ['40 %', 'dextrose']))).toMatchObject({
      substance: { id: 'sodium-chloride' },
    });
  });

  it('finds more solute than volume where no solubility is known', () => {
    // 170 g of sodium lactate take 170 × 0.589 = 100.1 mL.
    expect(over('170 %', 'sodium lactate')).toMatchObject({ reason: 'more-solute-than-volume' });
    expect(over('160 %', 'sodium lactate')).toBeNull();
    expect(overload(dry('9 g', 'sodium chloride'))).toMatchObject({ reason: 'more-solute-than-volume' });
  });

  it('finds nothing in water, or in nothing', () => {
    expect(overload(water(ONE))).toBeNull();
    expect(overload(EMPTY)).toBeNull();
  });
});
