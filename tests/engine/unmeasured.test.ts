import { describe, expect, it } from 'vitest';
import {
  type Contents,
  DEFAULT_REFERENCE,
  decimal,
  EMPTY,
  findObservable,
  measure,
  measureRatio,
  ofSolute,
  overload,
  particleById,
  plus,
  results,
  unit,
  ZERO,
} from '../../src/engine/index.ts';
import { expectNear, expectPrinted, litreOf, mmol, solute } from './helpers.ts';
import { labelled } from './osmolality/labelled.ts';

const asked = (contents: Contents, observable: string, symbol: string) =>
  measure(contents, findObservable(observable)!, unit(symbol), DEFAULT_REFERENCE);
const ratio = (contents: Contents, observable = 'sodium to chloride ratio') =>
  measureRatio(contents, findObservable(observable)!);

const SALINE = litreOf(['0.9 %', 'sodium chloride']);

/** A label that leaves these particles out. */
function withoutStating(...ids: readonly string[]): Contents {
  return { ...SALINE, notStated: ids.map((id) => particleById(id)!) };
}

describe('what a label leaves out', () => {
  it.each([
    ['sodium', 'mmol/L', 'sodium'],
    ['sodium load', 'mmol', 'sodium'],
    ['chloride', 'mmol/L', 'chloride'],
    ['chloride load', 'mmol', 'chloride'],
    ['phosphate', 'mmol/L', 'hydrogen-phosphate'],
    // Lactate, acetate and their like leave the body’s strong ions as they are.
    ['strong ion difference', 'mEq/L', 'magnesium'],
    ['bicarbonate precursors', 'mmol/L', 'acetate'],
    // Ammonium brings acid.
    ['bicarbonate precursors', 'mmol/L', 'ammonium'],
    ['free water', 'mL/L', 'sodium'],
    ['free water', 'mL/L', 'potassium'],
  ])('withholds %s in %s where it is %s', (observable, symbol, id) => {
    expect(asked(withoutStating(id), observable, symbol)).toEqual({
      ok: false,
      problem: 'not-stated',
      of: particleById(id)!.name,
    });
    expect(asked(SALINE, observable, symbol).ok).toBe(true);
  });

  it.each([
    ['sodium', 'mmol/L', 'chloride'],
    ['sodium load', 'mmol', 'potassium'],
    ['chloride load', 'mmol', 'sodium'],
    ['phosphate', 'mmol/L', 'sulfate'],
    ['strong ion difference', 'mEq/L', 'acetate'],
    ['bicarbonate precursors', 'mmol/L', 'sodium'],
    ['free water', 'mL/L', 'chloride'],
    ['volume', 'mL', 'sodium'],
    ['energy', 'kcal/L', 'sodium'],
  ])('leaves %s in %s where it is %s', (observable, symbol, id) => {
    expect(asked(withoutStating(id), observable, symbol)).toEqual(asked(SALINE, observable, symbol));
    expect(asked(SALINE, observable, symbol).ok).toBe(true);
  });

  it('is named by the first that counts', () => {
    expect(asked(withoutStating('lactate', 'magnesium', 'sodium'), 'strong ion difference', 'mEq/L')).toMatchObject({
      of: 'magnesium',
    });
  });

  it('withholds a ratio where it is either of the two', () => {
    for (const id of ['sodium', 'chloride']) {
      expect(ratio(withoutStating(id))).toEqual({ ok: false, problem: 'not-stated', of: id });
    }
    expect(ratio(withoutStating('potassium'))).toEqual(ratio(SALINE));
  });
});

describe('a ratio', () => {
  it('is of mmol, and has no unit', () => {
    // 140 ÷ 98, as a balanced fluid has them.
    const balanced = litreOf(['98 mmol/L', 'sodium chloride'], ['42 mmol/L', 'sodium acetate anhydrous']);
    const found = ratio(balanced);
    expect(found.ok && found.value.toFixed(4)).toBe('1.4286');
    expect(asked(SALINE, 'sodium to chloride ratio', 'mmol/L')).toMatchObject({
      ok: false,
      problem: 'wrong-dimension',
      fits: ['a number without a unit'],
    });
  });

  it('is none to nothing, and none of what is no ratio', () => {
    expect(ratio(litreOf(['5 %', 'dextrose']))).toEqual({ ok: false, problem: 'no-chloride' });
    expect(ratio(SALINE, 'sodium')).toEqual({ ok: false, problem: 'no-such-result' });
  });
});

describe('units that do not fit', () => {
  it.each(['tonicity in the bag', 'tonicity in the body'])('%s has words instead', (observable) => {
    expect(asked(SALINE, observable, 'mOsm/L')).toEqual({
      ok: false,
      problem: 'wrong-dimension',
      got: unit('mOsm/L').dimension,
      fits: ['hypotonic', 'isotonic', 'hypertonic'],
    });
  });

  it.each([
    ['osmolality', ['mOsm/L', 'mOsm', 'mL/kg', 'mmol/L'], ['mOsm/kg']],
    ['density', ['%', 'g', 'mmol/mL', 'g/kg', 'mL/mL'], ['g/mL']],
    ['freezing point depression', ['mOsm/kg', 'mL'], ['°C']],
    ['free water', ['mL/h', 'mL/kg', 'mmol/L', 'g/L'], ['mL/L', '%', 'mL']],
  ])('%s has neither of %j', (observable, symbols, fits) => {
    for (const symbol of symbols) {
      expect(asked(SALINE, observable, symbol), symbol).toEqual({
        ok: false,
        problem: 'wrong-dimension',
        got: unit(symbol).dimension,
        fits,
      });
    }
  });

  it('say which ion varies with the acidity', () => {
    expect(asked(SALINE, 'phosphate', 'mEq/L')).toMatchObject({ ok: false, problem: 'equivalents-of-varying-charge' });
  });
});

describe('estimates', () => {
  it.each([
    ['osmolality', 'mOsm/kg', 'no-volume'],
    ['freezing point depression', '°C', 'no-volume'],
    ['density', 'g/mL', 'no-volume'],
  ])('of %s are none of nothing', (observable, symbol, why) => {
    expect(asked(EMPTY, observable, symbol)).toEqual({ ok: false, problem: 'no-estimate', why });
  });

  it('of the freezing point follow the osmolality: 1.86 °C an osmole', () => {
    // Sodium chloride 0.9 % freezes at -0.52 to -0.54 °C (CRC Handbook, 102nd edition: 0.53 °C below water).
    expectNear(SALINE, 'freezing point depression', '0.53 °C', '0.01');
    const [depression, osmolality] = [
      asked(SALINE, 'freezing point depression', '°C'),
      asked(SALINE, 'osmolality', 'mOsm/kg'),
    ];
    if (!depression.ok || !osmolality.ok) throw new Error('not estimated');
    // Both are told to five digits.
    const expected = osmolality.value.times('0.00186');
    expect(depression.value.minus(expected).abs().lte('0.00001')).toBe(true);
    const within = osmolality.within!.times('0.00186');
    expect(depression.within!.minus(within).abs().lte('0.00001')).toBe(true);
  });

  it('are refused where a label’s charges do not meet', () => {
    const open = labelled({ sodium: '154' });
    for (const [observable, symbol] of [
      ['osmolality', 'mOsm/kg'],
      ['freezing point depression', '°C'],
    ] as const) {
      expect(asked(open, observable, symbol)).toEqual({ ok: false, problem: 'no-estimate', why: 'charge-imbalance' });
    }
  });
});

describe('sums of charges', () => {
  it('are told apart where a label leaves charges open', () => {
    // 10 of sodium and twice 2 of calcium; 5 of chloride and twice 1 of sulfate.
    const open = labelled({ sodium: '10', calcium: '2', chloride: '5', sulfate: '1' });
    expectPrinted(open, 'cation sum', '14.0 mEq/L');
    expectPrinted(open, 'anion sum', '7.0 mEq/L');
  });
});

describe('water weighed as a solute', () => {
  const weighed = plus(SALINE, ofSolute(solute('water'), mmol(1000), ZERO));

  it('lowers no freezing point, is no result, and overloads nothing', () => {
    expect(asked(weighed, 'sodium chloride equivalent', 'g')).toEqual(asked(SALINE, 'sodium chloride equivalent', 'g'));
    const ids = (contents: Contents) => results(contents, DEFAULT_REFERENCE).map(({ observable }) => observable.id);
    expect(ids(weighed)).toEqual(ids(SALINE));
    expect(overload({ ...weighed, volume: decimal(10) })).toEqual(overload({ ...SALINE, volume: decimal(10) }));
  });
});

describe('a solute as added', () => {
  it('is told in mEq by its charge and in mOsm by its particles', () => {
    const magnesium = litreOf(['4 mmol/L', 'magnesium sulfate']);
    expectPrinted(magnesium, 'magnesium sulfate', '8.0 mEq/L');
    expectPrinted(magnesium, 'magnesium sulfate', '8.0 mOsm/L');
    expectPrinted(litreOf(['10 mmol/L', 'calcium chloride']), 'calcium chloride', '30 mOsm/L');
    expectPrinted(litreOf(['10 mmol/L', 'calcium chloride']), 'calcium chloride', '20 mEq');
    expectPrinted(litreOf(['5 %', 'glucose']), 'glucose', '278 mOsm/L');
  });

  it('has no mEq of a molecule, and no osmoles without a molar mass', () => {
    expect(asked(litreOf(['5 %', 'glucose']), 'glucose', 'mEq/L')).toMatchObject({ problem: 'wrong-dimension' });
    for (const symbol of ['mOsm/L', 'mmol/L', 'mEq/L', 'units/mL']) {
      expect(asked({ ...SALINE, volume: decimal(500) }, 'albumin', symbol), symbol).toMatchObject({
        problem: 'wrong-dimension',
        fits: ['g/L', '%', 'g'],
      });
    }
  });
});
