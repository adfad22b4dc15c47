import { UcumLhcUtils } from '@lhncbc/ucum-lhc';
import { describe, expect, it } from 'vitest';
import {
  amountOf,
  decimal,
  defineSubstance,
  findIon,
  ionOf,
  molarMass,
  particleById,
  type Substance,
  strengthOf,
  workingText,
} from '../../src/engine/index.ts';
import { quantity, solute } from './helpers.ts';

const amount = (text: string, name: string, ion: string | null = null, elemental = false) =>
  amountOf(quantity(text), solute(name), ion === null ? null : findIon(ion), elemental);

/** Sodium and one more ion of a note's own. */
function own(molarMass: string | null, ion: string, ionMolarMass: string | null): Substance {
  const defined = defineSubstance({
    name: `sodium ${ion}`,
    molarMass: molarMass === null ? null : decimal(molarMass),
    gives: [
      { particle: particleById('sodium')!, count: 1 },
      {
        particle: { name: ion, charge: -1, molarMass: ionMolarMass === null ? null : decimal(ionMolarMass) },
        count: 1,
      },
    ],
  });
  if (!defined.ok) throw new Error(defined.fault.problem);
  return defined.substance;
}

function mmol(text: string, name: string, ion: string | null = null, elemental = false): number {
  const reading = amount(text, name, ion, elemental);
  if (!reading.ok) throw new Error(reading.fault.problem);
  return reading.amount.value.toNumber();
}

describe('amounts', () => {
  const ucum = UcumLhcUtils.getInstance();

  it.each([
    ['9 g', 'sodium chloride', 58.44],
    ['250 mg', 'magnesium sulfate', 246.466],
    ['50 g', 'dextrose', 198.171],
    ['50 g', 'glucose', 180.156],
  ])('%s %s in mmol as the UCUM package has it', (text, name, molecularWeight) => {
    const { value, unit } = quantity(text);
    const { toVal } = ucum.convertUnitTo(unit.symbol, value.toNumber(), 'mmol', { molecularWeight });
    expect(mmol(text, name)).toBeCloseTo(toVal!, 9);
  });

  it('turns mEq into mmol by the charge, as the UCUM package has it', () => {
    const { toVal } = ucum.convertUnitTo('meq', 5, 'mmol', { molecularWeight: 147.008, charge: 2 });
    expect(mmol('5 mEq', 'calcium chloride')).toBe(toVal);
    expect(mmol('5 mEq', 'calcium chloride', 'calcium')).toBe(2.5);
    expect(mmol('5 mEq', 'calcium chloride', 'chloride')).toBe(2.5);
    expect(mmol('20 mEq', 'potassium chloride', 'potassium')).toBe(20);
    expect(mmol('8 mEq', 'magnesium sulfate')).toBe(4);
  });

  it('counts the ions in a substance', () => {
    expect(mmol('4 mmol', 'calcium chloride', 'chloride')).toBe(2);
    expect(amount('4 mmol', 'calcium chloride', 'chloride')).toMatchObject({ amount: { in: 'mmol' } });
    expect(mmol('4 mmol', 'calcium gluconate', 'gluconate')).toBe(2);
    expect(mmol('4 mmol', 'calcium gluconate', 'calcium')).toBe(4);
  });

  it('turns mOsm into mmol by full dissociation', () => {
    expect(mmol('308 mOsm', 'sodium chloride')).toBe(154);
    expect(mmol('278 mOsm', 'glucose')).toBe(278);
    expect(mmol('300 mOsm', 'calcium chloride')).toBe(100);
    expect(mmol('300 mOsm', 'calcium chloride', 'calcium')).toBe(300);
  });

  it.each([
    // Magnesium: 1 g of the heptahydrate holds 8.12 mEq (product label). Calcium chloride 10 %: 27 mg, 1.4 mEq of calcium per
    // mL; calcium gluconate 10 %: 9.3 mg, 0.465 mEq per mL (Handbook on Injectable Drugs).
    ['1 g', 'magnesium sulfate', null, false, 8.12 / 2, 0.005],
    ['27 mg', 'calcium chloride', 'calcium', true, 1.4 / 2, 0.03],
    ['9.3 mg', 'calcium gluconate', 'calcium', true, 0.465 / 2, 0.0005],
    ['100 mg', 'calcium chloride', null, false, 0.68, 0.001],
    // 10 mEq of potassium chloride weigh 745.5 mg.
    ['745.5 mg', 'potassium chloride', null, false, 10, 0.001],
    // 43.5 mEq in a gram of sodium: common practice, no source.
    ['1 g', 'sodium chloride', 'sodium', true, 43.5, 0.01],
  ] as const)('%s %s (%s) is the printed amount', (text, name, ion, elemental, printed, within) => {
    expect(Math.abs(mmol(text, name, ion, elemental) - printed)).toBeLessThanOrEqual(within);
  });

  it('refuses a mass of an ion that does not say which, with both readings', () => {
    // 2 g of the heptahydrate 8.1 mmol, 2 g of the element 82 mmol: 2 ÷ 246.47 and 2 ÷ 24.305.
    const reading = amount('2 g', 'magnesium sulfate', 'magnesium');
    expect(reading).toMatchObject({ ok: false, fault: { problem: 'elemental-or-salt' } });
    if (reading.ok || reading.fault.problem !== 'elemental-or-salt') return;
    expect(reading.fault.asSalt.toFixed(1)).toBe('8.1');
    expect(reading.fault.asElement.toFixed(0)).toBe('82');
    // Chloride twice over: both readings count the ion.
    const chloride = amount('147.008 mg', 'calcium chloride', 'chloride');
    expect(chloride).toMatchObject({ ok: false, fault: { asSalt: decimal(2) } });
  });

  it('takes what is elemental of a salt to mean its cation, with both readings', () => {
    const readings = (name: string) => {
      const reading = amount('1 g', name, null, true);
      if (reading.ok || reading.fault.problem !== 'elemental-or-salt') throw new Error('not refused');
      return [reading.fault.asSalt.toFixed(3), reading.fault.asElement.toFixed(3)];
    };
    // 1000 ÷ 448.392 and 1000 ÷ 40.078; sodium twice over: 2 × 1000 ÷ 141.957 and 1000 ÷ 22.990.
    expect(readings('calcium gluconate')).toEqual(['2.230', '24.951']);
    expect(readings('dibasic sodium phosphate anhydrous')).toEqual(['14.089', '43.497']);
    // A sugar has none: 1000 ÷ 198.171 either way.
    expect(readings('dextrose')).toEqual(['5.046', '5.046']);
  });

  it('finds the cation of a salt that names its anion first', () => {
    const salt = own('500', 'x', null);
    const given = { ...salt, gives: salt.gives.toReversed() };
    const reading = amountOf(quantity('1 g'), given, null, true);
    // 1000 ÷ 500 as the salt, 1000 ÷ 22.990 as sodium.
    expect(reading).toMatchObject({ fault: { problem: 'elemental-or-salt', asSalt: decimal(2) } });
    if (reading.ok || reading.fault.problem !== 'elemental-or-salt') return;
    expect(reading.fault.asElement.toFixed(3)).toBe('43.497');
  });

  it('has no element’s mass of an ion of a note’s own without a molar mass', () => {
    const salt = own('500', 'x', null);
    const x = ionOf(salt.gives[1]!.particle);
    expect(amountOf(quantity('1 g'), salt, x, false)).toEqual({
      ok: false,
      fault: { problem: 'no-molar-mass', of: 'x' },
    });
    const unweighed = own(null, 'x', '100');
    expect(amountOf(quantity('1 g'), unweighed, findIon('sodium'), false)).toEqual({
      ok: false,
      fault: { problem: 'no-molar-mass', of: 'sodium x' },
    });
  });

  it('offers of a note’s own salt without a molar mass what it can be counted in', () => {
    expect(amountOf(quantity('1 mL'), own(null, 'x', null), null, false)).toMatchObject({
      fault: { problem: 'wrong-dimension', fits: ['mmol', 'mEq', 'mOsm', 'units'] },
    });
    expect(amountOf(quantity('1 mL'), own('500', 'x', null), null, false)).toMatchObject({
      fault: { problem: 'wrong-dimension', fits: ['g', 'mmol', 'mEq', 'mOsm', 'units'] },
    });
  });

  it('counts water by its mass', () => {
    // 18.015 g/mol.
    expect(mmol('18.015 g', 'water')).toBeCloseTo(1000, 9);
    expect(mmol('1 mol', 'water')).toBe(1000);
  });

  it('gives the readings of a strength per litre', () => {
    const reading = strengthOf(quantity('2 g/L'), solute('magnesium sulfate'), findIon('magnesium'), false);
    if (reading.ok || reading.fault.problem !== 'elemental-or-salt') throw new Error('not refused');
    expect(reading.fault.asSalt.toFixed(1)).toBe('8.1');
  });

  it('counts phosphate by its phosphorus, and refuses its mEq', () => {
    // Either salt: one phosphorus; its mass only as phosphorus, 30.974 g/mol (IUPAC 2021).
    expect(mmol('15 mmol', 'monobasic potassium phosphate', 'phosphate')).toBe(15);
    expect(mmol('15 mmol', 'dibasic potassium phosphate', 'phosphorus')).toBe(15);
    expect(mmol('30 mmol', 'dibasic potassium phosphate', 'potassium')).toBe(15);
    expect(mmol('465 mg', 'dibasic potassium phosphate', 'phosphorus', true)).toBeCloseTo(15.01, 2);
    expect(amount('15 mEq', 'monobasic potassium phosphate', 'phosphate')).toMatchObject({
      ok: false,
      fault: { problem: 'equivalents-of-varying-charge', ion: { id: 'phosphate' } },
    });
    expect(amount('1 g', 'monobasic potassium phosphate', 'phosphate')).toMatchObject({
      fault: { problem: 'elemental-or-salt' },
    });
  });

  it('counts citrate in an acid and in a salt', () => {
    expect(mmol('10 mmol', 'citric acid', 'citrate')).toBe(10);
    expect(mmol('30 mEq', 'sodium citrate', 'citrate')).toBe(10);
    expect(mmol('30 mEq', 'sodium citrate')).toBe(10);
    expect(amount('30 mEq', 'citric acid', 'citrate')).toMatchObject({ fault: { problem: 'equivalents-of-neutral' } });
  });

  it.each([
    // Pharmacy lectures: 100 g of monobasic sodium phosphate monohydrate are 725 mmol (724.6 with 138). Product labels: potassium
    // acetate 3.93 g 40 mEq, ammonium chloride 267.5 mg 5 mEq, sodium lactate 5.6 g 50 mEq, tromethamine 36 g 0.3 mol.
    ['100 g', 'monobasic sodium phosphate monohydrate', 725, 0.5],
    ['3.93 g', 'potassium acetate', 40, 0.1],
    ['267.5 mg', 'ammonium chloride', 5, 0.005],
    ['5.6 g', 'sodium lactate', 50, 0.05],
    ['36 g', 'tromethamine', 300, 3],
    ['2.9 g', 'trisodium citrate dihydrate', 9.86, 0.005],
  ])('%s %s are %d mmol', (text, name, printed, within) => {
    expect(Math.abs(mmol(text, name) - printed)).toBeLessThanOrEqual(within);
  });

  it('names other faults', () => {
    expect(amount('1 mmol', 'sodium chloride', 'potassium')).toMatchObject({
      ok: false,
      fault: { problem: 'ion-not-in-substance' },
    });
    expect(amount('1 mEq', 'dextrose')).toMatchObject({ ok: false, fault: { problem: 'equivalents-of-neutral' } });
    expect(amount('1 mL', 'dextrose')).toMatchObject({
      fault: { problem: 'wrong-dimension', fits: ['g', 'mmol', 'mOsm'] },
    });
    for (const text of ['1 mL', '1 mmol/L', '1 %', '1 units', '1 h', '1 mg/kg']) {
      expect(amount(text, 'sodium chloride'), text).toMatchObject({ fault: { problem: 'wrong-dimension' } });
    }
    expect(amount('1 mOsm', 'water').ok).toBe(false);
  });
});

describe('strengths', () => {
  function perMl(text: string, name: string, ion: string | null = null, elemental = false): number {
    const reading = strengthOf(quantity(text), solute(name), ion === null ? null : findIon(ion), elemental);
    if (!reading.ok) throw new Error(reading.fault.problem);
    return reading.perMl.value.toNumber();
  }

  it.each([
    // Handbook on Injectable Drugs, and product labels: sodium chloride 23.4 % is 4 mEq/mL, sodium bicarbonate 8.4 % 1 mEq/mL,
    // 4.2 % 0.5 mEq/mL, potassium chloride 149 mg/mL 2 mEq/mL, magnesium sulfate 50 % 4.06 mEq/mL, calcium chloride 10 %
    // 6.8 mmol in 10 mL.
    ['23.4 %', 'sodium chloride', 4, 0.005],
    ['8.4 %', 'sodium bicarbonate', 1, 0.0005],
    ['4.2 %', 'sodium bicarbonate', 0.5, 0.0005],
    ['149 mg/mL', 'potassium chloride', 2, 0.005],
    ['50 %', 'magnesium sulfate', 2.03, 0.005],
    ['10 %', 'calcium chloride', 0.68, 0.0005],
    ['2 mEq/mL', 'potassium chloride', 2, 0],
    ['328 mg/mL', 'sodium acetate anhydrous', 4, 0.005],
    ['560 mg/mL', 'sodium lactate', 5, 0.005],
  ])('%s %s holds the printed mmol/mL', (text, name, printed, within) => {
    expect(Math.abs(perMl(text, name) - printed)).toBeLessThanOrEqual(within);
  });

  it('reads an ion in a strength', () => {
    expect(perMl('20 mEq/L', 'calcium chloride', 'calcium')).toBe(0.01);
    expect(perMl('40.078 mg/mL', 'calcium gluconate', 'calcium', true)).toBeCloseTo(1, 12);
  });

  it('refuses dry what is had in solution only, with the strengths it is had in', () => {
    // Human albumin: United States Pharmacopeia, 5, 20 and 25 %.
    const reading = strengthOf(quantity('10 %'), solute('albumin'), null, false);
    expect(reading).toMatchObject({ ok: false, fault: { problem: 'no-such-solution', substance: { id: 'albumin' } } });
    if (reading.ok || reading.fault.problem !== 'no-such-solution') return;
    expect(reading.fault.strengths).toEqual(['5 %', '20 %', '25 %']);
  });

  it('refuses what is no strength, and says what fits', () => {
    for (const text of ['9 g', '9 mL/L', '9 units/mL', '9 mg/kg', '9 g/L/h', '9 h']) {
      expect(strengthOf(quantity(text), solute('sodium chloride'), null, false), text).toMatchObject({
        ok: false,
        fault: { problem: 'wrong-dimension', fits: ['%', 'g/L', 'mmol/L', 'mEq/L', 'mOsm/L'] },
      });
    }
  });
});

describe('working', () => {
  const lines = (reading: ReturnType<typeof amountOf> | ReturnType<typeof strengthOf>) =>
    reading.ok ? reading.working.map(workingText) : [];

  it('shows how an amount came about', () => {
    expect(lines(amount('9 g', 'sodium chloride'))).toEqual(['9 g ÷ 58.44 g/mol = 154 mmol']);
    expect(lines(amount('500 mg', 'dextrose'))).toEqual(['500 mg ÷ 198.17 g/mol = 2.523 mmol']);
    expect(lines(amount('5 mEq', 'calcium chloride', 'calcium'))).toEqual(['5 mEq ÷ 2 mEq/mmol = 2.5 mmol']);
    expect(lines(amount('4 mmol', 'calcium chloride', 'chloride'))).toEqual([
      '4 mmol chloride ÷ 2 = 2 mmol calcium chloride dihydrate',
    ]);
    expect(lines(amount('308 mOsm', 'sodium chloride'))).toEqual(['308 mOsm ÷ 2 mOsm/mmol = 154 mmol']);
    expect(lines(amount('93 mg', 'calcium gluconate', 'calcium', true))).toEqual(['93 mg ÷ 40.078 g/mol = 2.32 mmol']);
    expect(amount('20 mmol', 'potassium chloride', 'potassium')).toMatchObject({ working: [] });
    expect(amountOf(quantity('5 mg'), { ...own(null, 'x', null), gives: [] }, null, false)).toMatchObject({
      working: [],
    });
  });

  it('shows how a strength came about', () => {
    expect(lines(strengthOf(quantity('0.9 %'), solute('sodium chloride'), null, false))).toEqual([
      '0.9 % = 9 g/L',
      '9 g/L ÷ 58.44 g/mol = 154 mmol/L',
    ]);
    expect(lines(strengthOf(quantity('9 g/L'), solute('sodium chloride'), null, false))).toEqual([
      '9 g/L ÷ 58.44 g/mol = 154 mmol/L',
    ]);
    expect(lines(strengthOf(quantity('2 mmol/mL'), solute('potassium chloride'), null, false))).toEqual([]);
  });

  it('weighs by the molar mass of the form', () => {
    expect(molarMass('CaCl2·2H2O')!.toString()).toBe('147.008');
    expect(lines(amount('1 g', 'calcium chloride anhydrous'))[0]).toContain('110.98 g/mol');
  });
});
