import { describe, expect, it } from 'vitest';
import {
  DEFAULT_REFERENCE,
  decimal,
  dryVolume,
  type EMPTY,
  effectiveOsmolarity,
  findStockFluid,
  mix,
  ONE,
  osmolarity,
  plus,
  times,
  tonicity,
  water,
} from '../../src/engine/index.ts';
import { add, dry, expectNear, expectPrinted, litreOf, madeUp, mmol, perMl, solute } from './helpers.ts';

const bag = (contents: typeof EMPTY) => tonicity(osmolarity(contents), DEFAULT_REFERENCE);
const body = (contents: typeof EMPTY) => tonicity(effectiveOsmolarity(contents), DEFAULT_REFERENCE);

describe('sodium chloride made up to 1 L', () => {
  // Sodium and osmolarity: product labels and the Handbook on Injectable Drugs (0.9 %: 154, 308; 0.45 %: 77, 154; 3 %: 513,
  // 1027), to one more digit from 58.44 g/mol. Free water 0, 500 mL/L: table 2 in Archives of Disease in Childhood, 2004;
  // 750 and the sign of 3 %: 1 - Na/154.
  it.each([
    ['9 g', '154.0', '308.0', '0', 'isotonic', 'isotonic'],
    ['4.5 g', '77.0', '154.0', '500', 'hypotonic', 'hypotonic'],
    ['2.25 g', '38.5', '77.0', '750', 'hypotonic', 'hypotonic'],
    ['30 g', '513.3', '1026.7', '-2333', 'hypertonic', 'hypertonic'],
  ])('%s', (grams, ions, mOsm, free, inBag, inBody) => {
    const fluid = madeUp(grams, 'sodium chloride');
    expectPrinted(fluid, 'sodium', `${ions} mmol/L`);
    expectPrinted(fluid, 'chloride', `${ions} mmol/L`);
    expectPrinted(fluid, 'osmolarity', `${mOsm} mOsm/L`);
    expectNear(fluid, 'free water', `${free} mL/L`, '0.5');
    expect([bag(fluid), body(fluid)]).toEqual([inBag, inBody]);
    expect(fluid.volume.toString()).toBe('1000');
  });
});

describe('dextrose and glucose', () => {
  it('5 % is 252.3 mOsm/L as the monohydrate, 277.5 anhydrous, and all free water in the body', () => {
    // Labels print 252 for dextrose 5 % (hydrous), NICE CG174 278 for glucose 5 % (anhydrous); free water 1000 mL/L: table 2
    // in Archives of Disease in Childhood, 2004.
    const dextrose = litreOf(['5 %', 'dextrose']);
    const glucose = litreOf(['5 %', 'glucose']);
    expectPrinted(dextrose, 'osmolarity', '252.3 mOsm/L');
    expectPrinted(glucose, 'osmolarity', '277.5 mOsm/L');
    for (const fluid of [dextrose, glucose]) {
      expect([bag(fluid), body(fluid)]).toEqual(['isotonic', 'hypotonic']);
      expectPrinted(fluid, 'free water', '1000 mL/L');
      expectPrinted(fluid, 'effective osmolarity', '0 mOsm/L');
    }
  });

  it.each([
    // Product labels; 2.5 + 0.45 280, 5 + 0.2 321, 5 + 0.33 365, 5 + 0.45 406, 5 + 0.9 560, 10 + 0.9 813 mOsm/L.
    ['2.5 %', '0.45 %', '280', '77'],
    ['5 %', '0.2 %', '321', '34'],
    ['5 %', '0.33 %', '365', '56'],
    ['5 %', '0.45 %', '406', '77'],
    ['5 %', '0.9 %', '560', '154'],
    ['10 %', '0.9 %', '813', '154'],
  ])('%s in sodium chloride %s is %s mOsm/L as labelled', (sugar, salt, mOsm, sodium) => {
    const fluid = litreOf([sugar, 'dextrose'], [salt, 'sodium chloride']);
    expectNear(fluid, 'osmolarity', `${mOsm} mOsm/L`, '0.6');
    expectNear(fluid, 'sodium', `${sodium} mmol/L`, '0.5');
  });

  it('dextrose 5 % in sodium chloride 0.45 %: 406.3 in the bag, 154.0 effective', () => {
    const fluid = litreOf(['5 %', 'dextrose'], ['0.45 %', 'sodium chloride']);
    expectPrinted(fluid, 'osmolarity', '406.3 mOsm/L');
    expectPrinted(fluid, 'effective osmolarity', '154.0 mOsm/L');
    expect([bag(fluid), body(fluid)]).toEqual(['hypertonic', 'hypotonic']);
    expectNear(fluid, 'free water', '500 mL/L', '0.1');
  });

  it('glucose 4 % in sodium chloride 0.18 %: 31 mmol/L and 284 mOsm/L (NICE CG174)', () => {
    const fluid = litreOf(['4 %', 'glucose'], ['0.18 %', 'sodium chloride']);
    expectPrinted(fluid, 'sodium', '31 mmol/L');
    expectPrinted(fluid, 'glucose', '222 mmol/L');
    expectPrinted(fluid, 'osmolarity', '284 mOsm/L');
  });

  it('are one in solution, and weigh as they are named', () => {
    const both = plus(litreOf(['5 %', 'dextrose']), litreOf(['5 %', 'glucose']));
    // 50 ÷ 198.171 and 50 ÷ 180.156 mol.
    expectPrinted(both, 'dextrose', '529.8 mmol');
    expectPrinted(both, 'glucose', '529.8 mmol');
    const fluid = litreOf(['5 %', 'dextrose']);
    expectPrinted(fluid, 'dextrose', '50.0000 g/L');
    expectPrinted(fluid, 'dextrose', '5.0000 %');
    // 50 × 180.156 ÷ 198.171: the United States Pharmacopeia prints 1.1 for the ratio.
    expectPrinted(fluid, 'glucose', '45.5 g/L');
    expectPrinted(fluid, 'anhydrous dextrose', '45.5 g/L');
  });
});

describe('stock fluids', () => {
  it('lactated Ringer’s: 130/4/109/28 mmol/L, calcium 1.36, 273 mOsm/L, 128 mL/L of free water', () => {
    // United States Pharmacopeia 32: Ca 2.7, K 4, Na 130 mEq/L; label: Cl 109, lactate 28 mEq/L, 273 mOsm/L.
    const { perLitre } = findStockFluid("lactated ringer's")!;
    expectPrinted(perLitre, 'sodium', '130 mmol/L');
    expectPrinted(perLitre, 'potassium', '4 mmol/L');
    expectPrinted(perLitre, 'chloride', '109 mmol/L');
    expectPrinted(perLitre, 'lactate', '28 mmol/L');
    expectPrinted(perLitre, 'calcium', '1.36 mmol/L');
    expectPrinted(perLitre, 'calcium', '2.72 mEq/L');
    expectPrinted(perLitre, 'osmolarity', '273 mOsm/L');
    expectPrinted(perLitre, 'free water', '128 mL/L');
  });

  it('multiple electrolytes type 1: 140/5/98/27/23, magnesium 1.476 mmol/L, 294.5 mOsm/L', () => {
    // Label: Na 140, K 5, Mg 3, Cl 98, acetate 27, gluconate 23 mEq/L, 294 mOsm/L.
    const { perLitre } = findStockFluid('multiple electrolytes type 1')!;
    expectPrinted(perLitre, 'sodium', '140 mmol/L');
    expectPrinted(perLitre, 'potassium', '5 mmol/L');
    expectPrinted(perLitre, 'chloride', '98 mmol/L');
    expectPrinted(perLitre, 'acetate', '27 mmol/L');
    expectPrinted(perLitre, 'gluconate', '23 mmol/L');
    expectPrinted(perLitre, 'magnesium', '1.5 mmol/L');
    expectPrinted(perLitre, 'magnesium', '1.476 mmol/L');
    expectPrinted(perLitre, 'magnesium', '3 mEq/L');
    expectPrinted(perLitre, 'osmolarity', '294.5 mOsm/L');
  });
});

describe('concentrates and admixtures', () => {
  it('8.4 g of sodium bicarbonate to 100 mL: 1.00 mmol/mL of each ion', () => {
    // Handbook on Injectable Drugs: 1 mEq/mL, 2000 mOsm/L.
    const fluid = madeUp('8.4 g', 'sodium bicarbonate', 100);
    expectPrinted(fluid, 'sodium', '1.00 mmol/mL');
    expectPrinted(fluid, 'bicarbonate', '1.00 mmol/mL');
    expectPrinted(fluid, 'osmolarity', '2000 mOsm/L');
  });

  it('150 mL of bicarbonate 8.4 % added to 1 L of glucose 5 % is 1150 mL; with the volume removed first 150 mmol/L', () => {
    // Common practice, no source; arithmetic by hand: 149.99 ÷ 1.15 and 149.99 ÷ 1.
    const bicarbonate = times(perMl('8.4 %', 'sodium bicarbonate'), decimal(150));
    const added = mix([add(1000, perMl('5 %', 'glucose')), { kind: 'add', contents: bicarbonate }]).contents;
    expect(added.volume.toString()).toBe('1150');
    expectPrinted(added, 'sodium', '130.4 mmol/L');
    expectPrinted(added, 'glucose', '241.3 mmol/L');
    const replaced = mix([
      add(1000, perMl('5 %', 'glucose')),
      { kind: 'withdraw', volume: decimal(150) },
      { kind: 'add', contents: bicarbonate },
    ]).contents;
    expectPrinted(replaced, 'sodium', '150.0 mmol/L');
    expectPrinted(replaced, 'osmolarity', '535.9 mOsm/L');
    const exchanged = mix([
      add(1000, perMl('5 %', 'glucose')),
      { kind: 'exchange', volume: decimal(150), perMl: perMl('8.4 %', 'sodium bicarbonate') },
    ]).contents;
    expectPrinted(exchanged, 'osmolarity', '535.9 mOsm/L');
  });

  it('equal parts of sodium chloride 0.9 % and glucose 5 %: 0.45 % and 2.5 %', () => {
    const parts = [perMl('0.9 %', 'sodium chloride'), perMl('5 %', 'glucose')].map((fluid) =>
      times(fluid, decimal(500)),
    );
    const mixed = mix(parts.map((contents) => ({ kind: 'add', contents }))).contents;
    expectPrinted(mixed, 'sodium chloride', '0.45 %');
    expectPrinted(mixed, 'glucose', '2.50 %');
    expectPrinted(mixed, 'osmolarity', '292.8 mOsm/L');
  });

  it('64.1 mL of sodium chloride 23.4 % and water to 500 mL is 3 %', () => {
    // Common practice, no source; 500 × 3 ÷ 23.4.
    const concentrate = times(perMl('23.4 %', 'sodium chloride'), decimal('64.1'));
    expectPrinted(
      mix([{ kind: 'add', contents: concentrate }, add(500, water(ONE))]).contents,
      'sodium chloride',
      '3.00 %',
    );
  });

  it('500 g of glucose in 1 L of water is not 50 %', () => {
    // CRC Handbook, 102nd ed.: 33.3 mass % has a density near 1.140, so 1500 g (1002 mL of it water) fill about 1311 mL.
    const fluid = mix([add(1000, water(ONE)), { kind: 'add', contents: dry('500 g', 'glucose') }]).contents;
    expect(fluid.volume.minus(1311).abs().lt(5)).toBe(true);
    expectPrinted(fluid, 'glucose', '38.1 %');
  });

  it('a hydrate brings its water: glucose and as much water as it lacks', () => {
    const hydrous = dry('198.171 g', 'dextrose');
    const anhydrous = dry('180.156 g', 'glucose');
    const crystalWater = decimal('18.015').div('0.9982');
    expect(hydrous.volume.minus(anhydrous.volume).minus(crystalWater).abs().lt('1e-30')).toBe(true);
    expect(dryVolume(solute('glucose'), mmol(1000)).minus(anhydrous.volume).abs().lt('1e-30')).toBe(true);
  });

  it('keeps the names of additives that count only by volume', () => {
    const vitamins = { ...water(decimal(10)), uncounted: ['Multivitamin'] };
    const mixed = mix([
      add(990, perMl('0.9 %', 'sodium chloride')),
      { kind: 'add', contents: vitamins },
      { kind: 'withdraw', volume: decimal(500) },
    ]);
    expect(mixed.contents.uncounted).toEqual(['Multivitamin']);
    expectPrinted(mixed.contents, 'sodium', '152.5 mmol/L');
  });
});

describe('steps that cannot be done', () => {
  const saline = add(500, perMl('0.9 %', 'sodium chloride'));

  it('takes out no more than is there', () => {
    const { fault, contents, stages } = mix([saline, { kind: 'withdraw', volume: decimal('500.1') }, saline]);
    expect(fault).toEqual({ code: 'withdraw-too-much', step: 1, asked: decimal('500.1'), held: decimal(500) });
    expect(contents.volume.toString()).toBe('500');
    expect(stages).toHaveLength(1);
    const exchange = { kind: 'exchange', volume: decimal(501), perMl: water(ONE) } as const;
    expect(mix([saline, exchange]).fault).toMatchObject({ code: 'withdraw-too-much', step: 1 });
  });

  it('makes up to no less than is there', () => {
    const { fault } = mix([saline, add(499, water(ONE))]);
    expect(fault).toEqual({ code: 'final-volume-too-small', step: 1, held: decimal(500), to: decimal(499) });
  });

  it('may take out all, and make up to what is there', () => {
    const { contents, fault } = mix([saline, add(500, water(ONE)), { kind: 'withdraw', volume: decimal(500) }]);
    expect(fault).toBeNull();
    expect(contents.volume.isZero()).toBe(true);
    expect([...contents.particles.values()].every((mmol) => mmol.isZero())).toBe(true);
  });
});
