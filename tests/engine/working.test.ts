import { describe, expect, it } from 'vitest';
import {
  amountOf,
  cancelling,
  DEFAULT_REFERENCE,
  findIon,
  resultWorking,
  strengthOf,
  type WorkingStep,
  workingText,
} from '../../src/engine/index.ts';
import { litreOf, quantity, solute } from './helpers.ts';

/** Each line with what cancels in it. */
const told = (lines: readonly WorkingStep[]) => lines.map((line) => [workingText(line), cancelling(line)]);
const ofAmount = (amount: string, name: string, ion: string | null = null) => {
  const reading = amountOf(quantity(amount), solute(name), ion === null ? null : findIon(ion), false);
  return told(reading.ok ? reading.working : []);
};

describe('units that cancel', () => {
  it('in a mass over a molar mass', () => {
    expect(ofAmount('9 g', 'sodium chloride')).toEqual([
      ['9 g ÷ 58.44 g/mol = 154 mmol', 'g cancels, mol is left; 1 mol is 1000 mmol'],
    ]);
  });

  it('in equivalents and osmoles over those of a mmol', () => {
    expect(ofAmount('5 mEq', 'calcium chloride', 'calcium')).toEqual([
      ['5 mEq ÷ 2 mEq/mmol = 2.5 mmol', 'mEq cancels, mmol is left'],
    ]);
    expect(ofAmount('308 mOsm', 'sodium chloride')).toEqual([
      ['308 mOsm ÷ 2 mOsm/mmol = 154 mmol', 'mOsm cancels, mmol is left'],
    ]);
  });

  it('in the rule of free water, and in no sum and no concentration', () => {
    // Half of 154 mmol/L of sodium leaves half of the water free.
    expect(told(resultWorking(litreOf(['77 mmol/L', 'sodium chloride']), DEFAULT_REFERENCE))).toEqual([
      ['77 mmol ÷ 1 L = 77 mmol/L', null],
      ['77 mmol ÷ 1 L = 77 mmol/L', null],
      ['77 mOsm/L + 77 mOsm/L = 154 mOsm/L', null],
      ['1000 mL/L × (1 - (77 mmol/L + 0 mmol/L) ÷ 154 mmol/L) = 500 mL/L', 'mmol/L cancels, mL/L is left'],
    ]);
  });

  it('in no other line', () => {
    expect(ofAmount('4 mmol', 'calcium chloride', 'chloride')).toEqual([
      ['4 mmol chloride ÷ 2 = 2 mmol calcium chloride dihydrate', null],
    ]);
    const strength = strengthOf(quantity('0.9 %'), solute('sodium chloride'), null, false);
    expect(told(strength.ok ? strength.working : [])[0]).toEqual(['0.9 % = 9 g/L', null]);
  });
});

describe('what a line is about', () => {
  it('is the solute, its ion, the particle or the result', () => {
    const about = (amount: string, name: string, ion: string | null = null, elemental = false) => {
      const reading = amountOf(quantity(amount), solute(name), ion === null ? null : findIon(ion), elemental);
      return reading.ok ? reading.working.map(({ of }) => of) : null;
    };
    expect(about('9 g', 'sodium chloride')).toEqual(['sodium chloride']);
    expect(about('40 mg', 'calcium chloride', 'calcium', true)).toEqual(['elemental calcium']);
    expect(about('5 mEq', 'calcium chloride', 'calcium')).toEqual(['calcium']);
    expect(about('5 mEq', 'calcium chloride')).toEqual(['calcium chloride dihydrate']);
    expect(about('5 mEq', 'calcium chloride', 'chloride')).toEqual(['chloride', 'calcium chloride dihydrate']);
    expect(about('5 mOsm', 'calcium chloride', 'calcium')).toEqual(['calcium']);
    expect(about('5 mOsm', 'calcium chloride')).toEqual(['calcium chloride dihydrate']);
    const strength = strengthOf(quantity('0.9 %'), solute('sodium chloride'), null, false);
    expect(strength.ok && strength.working.map(({ of }) => of)).toEqual(['sodium chloride', 'sodium chloride']);
    const results = resultWorking(litreOf(['0.9 %', 'sodium chloride']), DEFAULT_REFERENCE);
    expect(results.map(({ of }) => of)).toEqual(['sodium', 'chloride', 'osmolarity', 'free water']);
  });
});
