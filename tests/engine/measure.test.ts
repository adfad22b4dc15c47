import { describe, expect, it } from 'vitest';
import {
  amountOf,
  DEFAULT_REFERENCE,
  decimal,
  EMPTY,
  effectiveOsmolarity,
  exactText,
  findObservable,
  findUnit,
  freeWaterPerLitre,
  measure,
  mix,
  ONE,
  ofSolute,
  osmolarity,
  plus,
  results,
  resultWorking,
  times,
  tonicity,
  unit,
  water,
  workingText,
} from '../../src/engine/index.ts';
import {
  add,
  dry,
  expectNear,
  expectPrinted,
  litreOf,
  madeUp,
  mmol,
  perMl,
  quantity,
  solute,
  value,
} from './helpers.ts';

describe('measure', () => {
  const fluid = litreOf(['5 %', 'dextrose'], ['0.45 %', 'sodium chloride']);
  const asked = (observable: string, unit: string) =>
    measure(fluid, findObservable(observable)!, findUnit(unit)!, DEFAULT_REFERENCE);

  it('gives totals for a unit that is not per volume', () => {
    const half = times(fluid, decimal('0.5'));
    expectPrinted(half, 'sodium', '38.5 mmol');
    expectPrinted(half, 'sodium load', '38.5 mmol');
    expectPrinted(half, 'osmolarity', '203.2 mOsm');
    expectPrinted(half, 'free water', '250 mL');
    expectPrinted(half, 'volume', '0.5 L');
    expectPrinted(half, 'dextrose', '25.0 g');
  });

  it('tells free water as a share of the volume', () => {
    expectNear(fluid, 'free water', '50 %', '0.01');
    expectNear(fluid, 'free water', '0.5 L/L', '0.0001');
  });

  // What a message can offer instead: whichever is written comes out.
  it.each([
    ['volume', ['mL', 'L']],
    ['sodium', ['mmol/L', 'mEq/L', 'mmol', 'mEq']],
    ['phosphate', ['mmol/L', 'mmol']],
    ['dextrose', ['g/L', '%', 'mmol/L', 'g', 'mmol']],
    ['osmolarity', ['mOsm/L', 'mOsm']],
    ['effective osmolarity', ['mOsm/L', 'mOsm']],
    ['free water', ['mL/L', '%', 'mL']],
    ['strong ion difference', ['mEq/L', 'mEq']],
    ['bicarbonate precursors', ['mmol/L', 'mEq/L', 'mmol', 'mEq']],
    ['cation sum', ['mEq/L', 'mEq']],
    ['anion sum', ['mEq/L', 'mEq']],
    ['energy', ['kcal/L', 'kcal', 'kJ/L', 'kJ']],
    ['sodium chloride equivalent', ['%', 'g/L', 'g']],
    ['osmolality', ['mOsm/kg']],
    ['freezing point depression', ['°C']],
    ['density', ['g/mL']],
  ])('offers units that fit %s', (observable, fits) => {
    expect(asked(observable, 'h')).toMatchObject({ ok: false, problem: 'wrong-dimension', fits });
    for (const symbol of fits) expect(asked(observable, symbol), symbol).toMatchObject({ ok: true });
  });

  it.each(['rate', 'body water', 'predicted sodium'])('has no %s of a fluid alone', (observable) => {
    expect(asked(observable, 'mL/h')).toEqual({ ok: false, problem: 'no-such-result' });
  });

  it('tells the mass of an ion only as the element', () => {
    expect(asked('sodium', 'mg/dL')).toMatchObject({ ok: false, problem: 'elemental-or-salt', ion: { id: 'sodium' } });
    // 77.002 mmol/L of 22.990 g/mol.
    expectPrinted(fluid, 'elemental sodium', '177.0 mg/dL');
  });

  it('names what would fit', () => {
    expect(asked('sodium', 'mL')).toMatchObject({
      problem: 'wrong-dimension',
      fits: ['mmol/L', 'mEq/L', 'mmol', 'mEq'],
    });
    expect(asked('osmolarity', 'mmol/L')).toMatchObject({ problem: 'wrong-dimension', fits: ['mOsm/L', 'mOsm'] });
    expect(asked('osmolarity', 'mOsm/kg')).toMatchObject({ problem: 'wrong-dimension' });
    expect(asked('free water', 'mmol/L')).toMatchObject({ problem: 'wrong-dimension', fits: ['mL/L', '%', 'mL'] });
    expect(asked('free water', 'mL/h')).toMatchObject({ problem: 'wrong-dimension' });
    expect(asked('dextrose', 'mEq/L')).toMatchObject({ problem: 'wrong-dimension' });
    expect(asked('volume', 'g')).toMatchObject({ problem: 'wrong-dimension', fits: ['mL', 'L'] });
    expect(asked('tonicity in the bag', 'mOsm/L')).toMatchObject({ problem: 'wrong-dimension' });
    expect(asked('sodium', 'mmol/h')).toMatchObject({ problem: 'wrong-dimension' });
    for (const name of ['rate', 'bags', 'plasma']) {
      expect(asked(name, 'mOsm/kg')).toEqual({ ok: false, problem: 'no-such-result' });
    }
  });

  it('tells phosphate in mmol, not in mEq', () => {
    const phosphates = litreOf(['10 mmol/L', 'monobasic sodium phosphate'], ['5 mmol/L', 'dibasic sodium phosphate']);
    expectPrinted(phosphates, 'phosphate', '15 mmol/L');
    expectPrinted(phosphates, 'hydrogen phosphate', '10 mEq/L');
    const inEquivalents = measure(phosphates, findObservable('phosphate')!, findUnit('mEq/L')!, DEFAULT_REFERENCE);
    expect(inEquivalents).toMatchObject({ problem: 'equivalents-of-varying-charge', ion: { id: 'phosphate' } });
    expect(measure(phosphates, findObservable('phosphate')!, findUnit('mL')!, DEFAULT_REFERENCE)).toMatchObject({
      problem: 'wrong-dimension',
      fits: ['mmol/L', 'mmol'],
    });
  });

  it('weighs a solute of open form as it was added', () => {
    const trihydrate = litreOf(['3.68 g/L', 'sodium acetate trihydrate']);
    expectPrinted(trihydrate, 'sodium acetate', '3.68 g/L');
    expectPrinted(trihydrate, 'sodium acetate anhydrous', '2.22 g/L');
  });

  it('has no concentration in no volume', () => {
    expect(results(EMPTY, DEFAULT_REFERENCE).every(({ value: of }) => of.isZero())).toBe(true);
    expect(freeWaterPerLitre(EMPTY, DEFAULT_REFERENCE).isZero()).toBe(true);
    expect(resultWorking(EMPTY, DEFAULT_REFERENCE)).toEqual([]);
  });
});

describe('tonicity', () => {
  it('is isotonic from 250 up to, not including, 375 mOsm/L', () => {
    // Newsletter of a hospital pharmacy service on intravenous fluid safety, 2022.
    const of = (mOsm: string) => tonicity(decimal(mOsm), DEFAULT_REFERENCE);
    expect(['249.99', '250', '374.99', '375'].map(of)).toEqual(['hypotonic', 'isotonic', 'isotonic', 'hypertonic']);
  });

  it('leaves out dextrose, urea and glycerol in the body', () => {
    for (const name of ['dextrose', 'glucose', 'urea', 'glycerol']) {
      expect(effectiveOsmolarity(litreOf(['10 mmol/L', name])).isZero(), name).toBe(true);
    }
  });

  it('counts every other particle in the body', () => {
    const names = [
      'sodium chloride',
      'potassium chloride',
      'calcium chloride',
      'magnesium sulfate',
      'sodium bicarbonate',
      'sodium lactate',
      'sodium acetate',
      'sodium gluconate',
      'sodium citrate',
      'monobasic potassium phosphate',
      'mannitol',
      'glycine',
      'sucrose',
    ];
    for (const name of names) {
      const fluid = mix([add(1000, water(ONE)), { kind: 'add', contents: dry('10 mmol', name) }]).contents;
      expect(effectiveOsmolarity(fluid).eq(osmolarity(fluid)), name).toBe(true);
    }
  });
});

describe('results', () => {
  it('gives each key its unit and value: gastric replacement', () => {
    // 1 L of sodium chloride 0.9 % and 20 mmol of potassium chloride in 10 mL; by hand 154.004107 ÷ 1.01, 20 ÷ 1.01 and
    // 1000 × (1 - 172.281293 ÷ 154).
    const potassium = ofSolute(solute('potassium chloride'), mmol(20), decimal(10));
    const mixed = mix([add(1000, perMl('0.9 %', 'sodium chloride')), { kind: 'add', contents: potassium }]).contents;
    const told = Object.fromEntries(
      results(mixed, DEFAULT_REFERENCE).map(({ observable, value: of, unit }) => [
        observable.id,
        `${exactText(of)} ${unit}`,
      ]),
    );
    expect(told).toEqual({
      volume: '1010 mL',
      sodium: '152.479314 mmol/L',
      potassium: '19.8019802 mmol/L',
      chloride: '172.281294 mmol/L',
      osmolarity: '344.562588 mOsm/L',
      'effective-osmolarity': '344.562588 mOsm/L',
      'free-water': '-118.7097 mL/L',
      'sodium-load': '152.479314 mmol/L',
      'chloride-load': '172.281294 mmol/L',
      // Published models, to five digits.
      osmolality: '319.84 mOsm/kg',
      density: '1.0054 g/mL',
      'sodium-chloride': '152.479314 mmol/L',
      'potassium-chloride': '19.8019802 mmol/L',
    });
    expect(resultWorking(mixed, DEFAULT_REFERENCE).map(workingText)).toEqual([
      '154 mmol ÷ 1.01 L = 152.5 mmol/L',
      '174 mmol ÷ 1.01 L = 172.3 mmol/L',
      '20 mmol ÷ 1.01 L = 19.8 mmol/L',
      '152.5 mOsm/L + 172.3 mOsm/L + 19.8 mOsm/L = 344.6 mOsm/L',
      '1000 mL/L × (1 - (152.5 mmol/L + 19.8 mmol/L) ÷ 154 mmol/L) = -118.7 mL/L',
    ]);
  });

  it('estimates what an osmometer reads and what the fluid weighs, and says by how much either may be off', () => {
    const saline = litreOf(['0.9 %', 'sodium chloride']);
    const reading = measure(saline, findObservable('osmolality')!, unit('mOsm/kg'), DEFAULT_REFERENCE);
    // 286 mOsm/kg measured: Anesthesia and Analgesia 1999, letter.
    expect(reading.ok && reading.value.toNumber()).toBeCloseTo(286.5, 0);
    expect(reading.ok && reading.within?.toNumber()).toBeGreaterThan(3);
    // 1.0046 g/mL: CRC Handbook, 102nd edition, interpolated.
    const weight = measure(saline, findObservable('density')!, unit('g/mL'), DEFAULT_REFERENCE);
    expect(weight.ok && weight.value.toNumber()).toBeCloseTo(1.0046, 3);
    expect(measure(saline, findObservable('density')!, unit('%'), DEFAULT_REFERENCE).ok).toBe(false);
  });

  it('always has the eight, and others only when not zero', () => {
    const plain = results(mix([add(1000, water(ONE))]).contents, DEFAULT_REFERENCE);
    expect(plain.map(({ observable }) => observable.id)).toEqual([
      'volume',
      'sodium',
      'potassium',
      'chloride',
      'osmolarity',
      'effective-osmolarity',
      'free-water',
      'sodium-load',
      'density',
    ]);
    const both = results(plus(litreOf(['5 %', 'dextrose']), litreOf(['5 %', 'glucose'])), DEFAULT_REFERENCE);
    expect(both.filter(({ observable }) => observable.id === 'dextrose')).toHaveLength(1);
  });

  it('agrees with an amount read by itself', () => {
    const read = amountOf(quantity('9 g'), solute('sodium chloride'), null, false);
    expect(read.ok && value(madeUp('9 g', 'sodium chloride'), 'sodium', 'mmol').eq(read.amount.value)).toBe(true);
  });
});
