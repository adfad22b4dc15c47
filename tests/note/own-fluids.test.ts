/** Stocks and substances that a note declares itself. */
import { describe, expect, it } from 'vitest';
import { fenced, found, mixturesOf } from '../annotated.ts';

const WARD = `stock ward
  sodium 130 mEq/L
  potassium 4 mEq/L
  calcium 2.7 mEq/L
  chloride 109 mEq/L
  lactate 28 mEq/L`;

describe('a stock', () => {
  it('written from the label of lactated Ringer’s balances within its digits, and agrees with the built-in fluid', () => {
    // USP label: 130/4/2.7/109/28 mEq/L, 136.7 of cations against 137 of anions.
    const claims = `
mixture bag
  1 L ward
  claim sodium 130 mEq/L
  claim calcium 1.35 mmol/L
  claim free water 130 mL/L
claim lactated Ringer's sodium 130 mEq/L
claim ward lactate 28 mEq/L`;
    expect(found(fenced(WARD + claims))).toEqual([]);
  });

  it('whose charges do not meet is withheld, and what is made from it', () => {
    const block = `${WARD.replace('lactate 28', 'lactate 38')}\nmixture bag\n  1 L ward\n  claim sodium 1 mmol/L`;
    expect(found(fenced(block))).toEqual(['charge-imbalance: ward']);
    expect(mixturesOf(block).get('bag')?.state).toBe('incomplete');
  });

  it('may leave ions out when it says so, by sign or on the short side', () => {
    const short = 'stock bag-a\n  sodium 154 mEq/L\n  chloride 130 mEq/L\n  other ions';
    expect(found(fenced(`${short} 24 mEq/L`))).toEqual([]);
    expect(found(fenced(`${short} -24 mEq/L`))).toEqual([]);
    expect(found(fenced(`${short} +24 mEq/L`))).toEqual(['charge-imbalance: bag-a']);
  });

  it('holds solutes, is checked against its own results, and comes in containers', () => {
    const block = `stock sugar-salt
  glucose 4 %
  sodium 30.8 mmol/L
  chloride 30.8 mmol/L
  osmolarity 283.6 mOsm/L
  tonicity in the body hypotonic
  container 500 mL
mixture two
  2 x sugar-salt
  claim volume 1 L
  claim glucose 40 g`;
    // Labels of glucose 4 % with sodium chloride 0.18 %: 283.6 mOsm/L computed, 284 printed.
    expect(found(fenced(block)).filter((finding) => !finding.startsWith('tonicity'))).toEqual([]);
    expect(found(fenced(block.replace('283.6', '183')))).toContain('claim-mismatch: 183 mOsm/L');
  });

  it('carries tolerances of its label', () => {
    const block =
      'stock limits\n  sodium 130 mmol/L ± 5 %\n  chloride 130 mmol/L ± 5 %\nmixture bag\n  1 L limits\n  claim sodium 136 mmol/L';
    expect(found(fenced(block))).toEqual([]);
  });

  it('takes no steps and no property of something else', () => {
    expect(found(fenced('stock a-bag\n  sodium 5 mmol/L\n  chloride 5 mmol/L\n  weight 5 kg'))).toEqual([
      'unknown-observable: weight',
    ]);
    expect(found(fenced('stock a-bag\n  1 L sodium chloride 0.9%'))).toEqual(['syntax: 1 L sodium chloride 0.9%']);
  });
});

describe('a substance', () => {
  const THIOSULFATE =
    'substance sodium thiosulfate pentahydrate\n  molar mass 248.18 g/mol\n  gives sodium 2, thiosulfate 2- 1';

  it('is converted by its molar mass and gives its ions', () => {
    // Sodium thiosulfate injection 25 %, USP: 250 mg/mL of the pentahydrate, 248.18 g/mol.
    const block = `${THIOSULFATE}
mixture antidote
  50 mL sodium thiosulfate pentahydrate 25%
  claim thiosulfate 1.007 mmol/mL
  claim sodium 2.015 mmol/mL
  claim sodium thiosulfate pentahydrate 12.5 g
mixture by-ion
  1 L sodium chloride 0.9%
  20 mmol thiosulfate as sodium thiosulfate pentahydrate
  claim thiosulfate 20 mmol`;
    expect(found(fenced(block))).toEqual([]);
  });

  it('has one charge follow from the others, and none that do not add up', () => {
    expect(found(fenced(THIOSULFATE.replace('thiosulfate 2- 1', 'thiosulfate 1')))).toEqual([]);
    expect(found(fenced(THIOSULFATE.replace('2- 1', '3- 1')))).toEqual([
      'charge-imbalance: sodium thiosulfate pentahydrate',
    ]);
  });

  it('without a molar mass is counted by mass and by units, never converted', () => {
    const block = `substance insulin
mixture pump
  50 units insulin in 50 mL sodium chloride 0.9%
  claim insulin 1 units/mL
mixture weighed
  4 mg insulin in 250 mL sodium chloride 0.9%
  claim insulin 16 mg/L`;
    expect(found(fenced(block))).toEqual([]);
    expect(found(fenced('substance insulin\nmixture pump\n  50 mmol insulin in 50 mL water'))).toEqual([
      'wrong-dimension: 50 mmol',
    ]);
  });

  it('that cannot be read withholds what is made from it, and is reported once', () => {
    const block =
      'substance oddity\n  molar mass 5 mL\nmixture bag\n  1 g oddity in 100 mL water\n  claim volume 5 mL\nmixture apart\n  1 L sodium chloride 0.9%';
    expect(found(fenced(block))).toEqual(['syntax: molar mass 5 mL']);
    expect(mixturesOf(block).get('bag')?.state).toBe('incomplete');
    expect(mixturesOf(block).get('apart')?.state).toBe('complete');
  });

  it('of one block of its own is not known in another', () => {
    const source = `${fenced('substance insulin', { info: 'alone' })}\n\n${fenced('mixture bag\n  50 units insulin in 50 mL water')}`;
    expect(found(source)).toEqual(['unknown-name: insulin']);
  });
});
