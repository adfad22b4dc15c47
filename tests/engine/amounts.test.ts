import { UcumLhcUtils } from '@lhncbc/ucum-lhc';
import { describe, expect, it } from 'vitest';
import { amountOf, decimal, findIon, molarMass, strengthOf, workingText } from '../../src/engine/index.ts';
import { quantity, solute } from './helpers.ts';

const amount = (text: string, name: string, ion: string | null = null, elemental = false) =>
  amountOf(quantity(text), solute(name), ion === null ? null : findIon(ion), elemental);

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
    expect(amount('1 g', 'calcium gluconate', null, true)).toMatchObject({ fault: { problem: 'elemental-or-salt' } });
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
      fault: { problem: 'ion-not-in-substance' },
    });
    expect(amount('1 mEq', 'dextrose')).toMatchObject({ fault: { problem: 'equivalents-of-neutral' } });
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
    expect(lines(amount('20 mmol', 'potassium chloride', 'potassium'))).toEqual([]);
  });

  it('shows how a strength came about', () => {
    expect(lines(strengthOf(quantity('0.9 %'), solute('sodium chloride'), null, false))).toEqual([
      '0.9 % = 9 g/L',
      '9 g/L ÷ 58.44 g/mol = 154 mmol/L',
    ]);
    expect(lines(strengthOf(quantity('2 mmol/mL'), solute('potassium chloride'), null, false))).toEqual([]);
  });

  it('weighs by the molar mass of the form', () => {
    expect(molarMass('CaCl2·2H2O')!.toString()).toBe('147.008');
    expect(lines(amount('1 g', 'calcium chloride anhydrous'))[0]).toContain('110.98 g/mol');
  });
});
