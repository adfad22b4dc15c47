import { describe, expect, it } from 'vitest';
import {
  decimal,
  defineSubstance,
  findObservable,
  findUnit,
  mix,
  ofSolute,
  particleById,
  type SlipContext,
  slip,
} from '../../src/engine/index.ts';
import { add, litreOf, mmol, perMl, solute } from './helpers.ts';

// The factors are those by which charts and labels are known to go wrong: common practice, no source; hydrate ratios follow
// from molar masses (198.17 ÷ 180.16, 147.01 ÷ 110.98, 246.47 ÷ 120.36).
const of = (claimed: string, found: string, context: SlipContext = {}) =>
  slip(decimal(claimed), decimal(found), context);
const about = (observable: string, unit: string, contents: NonNullable<SlipContext['contents']>): SlipContext => ({
  contents,
  observable: findObservable(observable)!,
  unit: findUnit(unit)!,
});

describe('slip', () => {
  it.each([
    ['15.4', '154', 'ten', 'a factor of 10, as when the decimal point moves by one place'],
    ['1540', '154', 'ten', 'a factor of 10, as when the decimal point moves by one place'],
    ['0.154', '154.004', 'thousand', 'a factor of 1000, as between mg and g'],
    ['154000', '154', 'thousand', 'a factor of 1000, as between mg and g'],
    ['2.5', '150', 'minutes', 'a factor of 60, as between minutes and hours'],
    ['100', '2400', 'days', 'a factor of 24, as between hours and days'],
  ])('%s for %s', (claimed, found, factor, words) => {
    expect(of(claimed, found)).toEqual({ factor, words });
  });

  it('names the charge', () => {
    const calcium = litreOf(['0.02 %', 'calcium chloride']);
    expect(of('2.72', '1.36', about('calcium', 'mmol/L', calcium))).toEqual({
      factor: 'charge',
      words: 'a factor of 2, as between mmol and mEq of calcium',
    });
    expect(of('1.36', '2.72', about('calcium', 'mEq/L', calcium))?.factor).toBe('charge');
    expect(of('20', '10', about('magnesium sulfate', 'mEq/L', litreOf(['1 %', 'magnesium sulfate'])))?.factor).toBe(
      'charge',
    );
    expect(of('308', '154', about('sodium', 'mmol/L', litreOf(['0.9 %', 'sodium chloride'])))).toBeNull();
  });

  it.each([
    [
      'dextrose',
      '5 %',
      '277.5',
      '252.3',
      'dextrose',
      'a factor of 1.1, as between glucose anhydrous and dextrose monohydrate',
    ],
    [
      'dextrose',
      '5 %',
      '278',
      '252.3',
      'osmolarity',
      'a factor of 1.1, as between glucose anhydrous and dextrose monohydrate',
    ],
    [
      'calcium chloride',
      '1 %',
      '90.1',
      '68',
      'calcium',
      'a factor of 1.32, as between calcium chloride anhydrous and calcium chloride dihydrate',
    ],
    [
      'magnesium sulfate',
      '1 %',
      '83.1',
      '40.6',
      'magnesium',
      'a factor of 2.05, as between magnesium sulfate anhydrous and magnesium sulfate heptahydrate',
    ],
  ])('names the hydrate of %s %s', (solute, strength, claimed, found, observable, words) => {
    const context = about(observable, observable === 'osmolarity' ? 'mOsm/L' : 'mmol/L', litreOf([strength, solute]));
    expect(of(claimed, found, context)).toEqual({ factor: 'hydrate', words });
  });

  it('names no hydrate that the mixture does not hold', () => {
    expect(of('277.5', '252.3', about('sodium', 'mmol/L', litreOf(['0.9 %', 'sodium chloride'])))).toBeNull();
    const mixed = litreOf(['5 %', 'dextrose'], ['0.9 %', 'sodium chloride']);
    expect(of('616', '560.3', about('osmolarity', 'mOsm/L', mixed))).toBeNull();
  });

  it('names no hydrate of a solute that does not give the ion asked', () => {
    // 1.1 times as much would be dextrose weighed for glucose; of sodium it says nothing.
    const mixed = litreOf(['5 %', 'dextrose'], ['0.9 %', 'sodium chloride']);
    expect(of('169.4', '154', about('sodium', 'mmol/L', mixed))).toBeNull();
  });

  it('names what is per bag and what per litre', () => {
    const bag = mix([add(250, perMl('0.9 %', 'sodium chloride'))]).contents;
    const words = 'the ratio between 1 L and the 250 mL made, as between per litre and in all';
    expect(of('38.5', '154', about('sodium', 'mmol/L', bag))).toEqual({ factor: 'per-bag', words });
    expect(of('154', '38.5', about('sodium', 'mmol', bag))).toEqual({ factor: 'per-bag', words });
    expect(of('616', '154', about('sodium', 'mmol/L', bag))).toBeNull();
  });

  it('counts time only for rates', () => {
    const context = about('sodium', 'mmol/L', litreOf(['0.9 %', 'sodium chloride']));
    expect(of('9240', '154', context)).toBeNull();
    expect(of('60', '1', { unit: findUnit('mL/h')! })?.factor).toBe('minutes');
  });

  it('names the volume of additives left out of account', () => {
    const contents = mix([add(1150, perMl('0.9 %', 'sodium chloride'))]).contents;
    const context = { contents, unit: findUnit('mmol/L')!, volumeBeforeAdditives: decimal(1000) };
    expect(of('150', '130.4', context)).toEqual({
      factor: 'additives',
      words: 'the volume of the additives, 150 mL, left out of account',
    });
  });

  it('names a salt weighed for its element, and mg/dL for mmol/L', () => {
    const calcium = litreOf(['1 %', 'calcium chloride']);
    // Molar masses 147.008 and 40.078 g/mol (CIAAW 2021): 100 mg of the dihydrate hold 27.26 mg of calcium (label, 27 mg).
    expect(of('2.726', '10', about('calcium chloride', 'g/L', calcium))).toEqual({
      factor: 'salt-for-element',
      words: 'a factor of 3.67, as between calcium chloride dihydrate and its calcium',
    });
    // 1 mmol/L of calcium is 4.008 mg/dL.
    expect(of('10.02', '2.5', about('calcium', 'mmol/L', calcium))).toEqual({
      factor: 'conventional-units',
      words: 'a factor of 4.01, as between mg/dL and mmol/L',
    });
  });

  it('names the element of the ion asked, by the salts that give it', () => {
    // 147.008 ÷ 40.078, and chloride twice over: 147.008 ÷ (2 × 35.453) = 2.07.
    const calcium = litreOf(['1 %', 'calcium chloride']);
    expect(of('10000', '2726', about('elemental calcium', 'mg/L', calcium))).toEqual({
      factor: 'salt-for-element',
      words: 'a factor of 3.67, as between calcium chloride dihydrate and its calcium',
    });
    expect(of('10', '4.823', about('elemental chloride', 'g/L', calcium))?.words).toBe(
      'a factor of 2.07, as between calcium chloride dihydrate and its chloride',
    );
    // The element of a salt is its cation.
    expect(of('10', '4.823', about('calcium chloride', 'g/L', calcium))).toBeNull();
  });

  it('compares no mass where none is claimed, and mg/dL only with a concentration', () => {
    const calcium = litreOf(['1 %', 'calcium chloride']);
    expect(of('2.726', '10', about('calcium chloride', 'mmol/L', calcium))).toBeNull();
    expect(of('10.02', '2.5', about('calcium', 'mmol', calcium))).toBeNull();
  });

  it('makes do with what is known of the claim', () => {
    const observable = findObservable('elemental calcium')!;
    const unit = findUnit('mg/L')!;
    expect(of('10000', '2726', { observable, unit })).toBeNull();
    expect(of('10.02', '2.5', { observable })).toBeNull();
    expect(of('15.4', '154', { unit })?.factor).toBe('ten');
    expect(of('7', '154', { unit, contents: litreOf(['0.9 %', 'sodium chloride']) })).toBeNull();
    expect(of('7', '154', { observable: findObservable('osmolarity')! })).toBeNull();
  });

  it('makes do with substances whose masses are not known', () => {
    const unweighed = (salt: string | null, cation: string | null) => {
      const defined = defineSubstance({
        name: 'abc chloride',
        molarMass: salt === null ? null : decimal(salt),
        gives: [
          { particle: { name: 'abc', charge: 1, molarMass: cation === null ? null : decimal(cation) }, count: 1 },
          { particle: particleById('chloride')!, count: 1 },
        ],
      });
      if (!defined.ok) throw new Error(defined.fault.problem);
      return ofSolute(defined.substance, mmol(10), decimal(1000));
    };
    for (const contents of [unweighed(null, '100'), unweighed('135.45', null), unweighed(null, null)]) {
      expect(of('7', '154', { contents, unit: findUnit('g/L')! })).toBeNull();
    }
    // 135.45 ÷ 100, where both are.
    expect(of('135.45', '100', { contents: unweighed('135.45', '100'), unit: findUnit('g/L')! })?.factor).toBe(
      'salt-for-element',
    );
    const albumin = ofSolute(solute('albumin'), { in: 'g', value: decimal(50) }, decimal(1000));
    expect(of('7', '50', about('albumin', 'g/L', albumin))).toBeNull();
  });

  it('bears the rounding of the claim, or 1 %, and no more', () => {
    expect(of('15.5', '154')?.factor).toBe('ten');
    expect(of('16', '154')).toBeNull();
    expect(of('2', '15.4')).toBeNull();
    expect(of('2', '15.4', { halfUnit: decimal('0.5') })?.factor).toBe('ten');
  });

  it('is silent about zero, opposite signs and plain differences', () => {
    expect(of('0', '154')).toBeNull();
    expect(of('154', '0')).toBeNull();
    expect(of('-15.4', '154')).toBeNull();
    expect(of('-119', '-11.9')?.factor).toBe('ten');
    expect(of('100', '154')).toBeNull();
    expect(of('154', '154')).toBeNull();
  });

  it('takes no claim that rounds to zero, and no factor of one, for a slip', () => {
    const halfUnit = decimal('0.5');
    expect(of('0', '0.1', { halfUnit })).toBeNull();
    expect(of('0.4', '0', { halfUnit })).toBeNull();
    // A litre holds in all what it holds per litre; 5 mL of additives in it change less than rounding does.
    const litre = litreOf(['0.9 %', 'sodium chloride']);
    expect(of('154.5', '154', about('sodium', 'mmol/L', litre))).toBeNull();
    const context = { contents: litre, unit: findUnit('mmol/L')!, volumeBeforeAdditives: decimal(995) };
    expect(of('154.77', '154', context)).toBeNull();
  });
});
