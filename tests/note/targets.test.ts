/** Amounts solved for, against worked examples. */
import { describe, expect, it } from 'vitest';
import { fenced, findings, found, mixturesOf } from '../annotated.ts';

function solved(block: string): readonly number[] {
  const [mixture] = mixturesOf(block).values();
  return mixture?.solved.map(({ value }) => value.toNumber()) ?? [];
}

describe('one amount', () => {
  it('500 mL of 3 % from 23.4 % and water: 64.1 mL (common practice, no source)', () => {
    const block = 'mixture brine\n  ? mL sodium chloride 23.4%\n  water to 500 mL\n  target sodium chloride 3 %';
    expect(found(fenced(block))).toEqual([]);
    expect(solved(block)[0]).toBeCloseTo(64.1, 1);
  });

  // A pharmacy-technician study page prints 360 + 640 mL, having rounded 5/14 to 0.36 first; its mix is 25.2 %.
  it('1 L of dextrose 25 % from 70 % and water: 357.1 mL', () => {
    const [amount] = solved('mixture strong\n  ? mL dextrose 70%\n  water to 1 L\n  target dextrose 25 %');
    expect(amount).toBeCloseTo(357.14, 2);
  });

  // The same page prints 3.577 + 46.423 mL, a slip in 5/70.
  it('50 mL of dextrose 5 % from 70 % and water: 3.571 mL', () => {
    expect(solved('mixture weak\n  ? mL dextrose 70%\n  water to 50 mL\n  target dextrose 5 %')[0]).toBeCloseTo(
      3.571,
      3,
    );
  });

  it('ampoules, as a count: three of 50 mL make 150 mmol of sodium', () => {
    const block = 'mixture drip\n  850 mL dextrose 5%\n  ? x 50 mL sodium bicarbonate 8.4%\n  target sodium 150 mmol';
    expect(solved(block)[0]).toBeCloseTo(3.0, 3);
  });

  it('a withdrawal: pouring off what makes room', () => {
    const block = 'mixture bag\n  1 L sodium chloride 0.9%\n  withdraw ? mL\n  target volume 850 mL';
    expect(solved(block)[0]).toBeCloseTo(150, 10);
  });

  it('an exchange: 0.9 % to 0.45 % by changing half for water', () => {
    const block = 'mixture bag\n  1 L sodium chloride 0.9%\n  exchange ? mL for water\n  target sodium chloride 0.45 %';
    expect(solved(block)[0]).toBeCloseTo(500, 10);
  });

  it('a ratio: sodium to chloride of 140 to 98, as in a balanced fluid (label), from saline and acetate', () => {
    const block = `mixture mix
  98 mmol sodium chloride
  ? mmol sodium acetate
  water to 1 L
  target sodium to chloride ratio 1.4285714285714`;
    expect(found(fenced(block))).toEqual([]);
    expect(solved(block)[0]).toBeCloseTo(42, 6);
  });

  it('a mass, in the unit asked', () => {
    const [amount] = solved('mixture bag\n  ? g sodium chloride\n  water to 1 L\n  target sodium 154 mmol/L');
    // 154 mmol × 58.44 g/mol.
    expect(amount).toBeCloseTo(9.0, 2);
  });
});

describe('several amounts', () => {
  // The same study page answers with wrong differences; alligation by hand gives 25 : 20.
  it('dextrose 30 % from 50 % and 5 %: 5 parts to 4', () => {
    const block =
      'mixture mix\n  ? mL dextrose 50%\n  ? mL dextrose 5%\n  target dextrose 30 %\n  target volume 900 mL';
    expect(solved(block).map((amount) => amount.toFixed(6))).toEqual(['500.000000', '400.000000']);
  });

  // Printed as 250 mL: 42 + 208, which is for another stock.
  it('1 L of dextrose 7.5 % from 50 % and 5 %: 55.6 + 944.4 mL', () => {
    const block = 'mixture mix\n  ? mL dextrose 50%\n  ? mL dextrose 5%\n  target dextrose 7.5 %\n  target volume 1 L';
    const [strong, weak] = solved(block);
    expect(strong).toBeCloseTo(55.6, 1);
    expect(weak).toBeCloseTo(944.4, 1);
  });

  it('a balanced fluid by its ions', () => {
    const block = `mixture mix
  ? mmol sodium chloride
  ? mmol potassium chloride
  ? mmol sodium lactate
  water to 1 L
  target sodium 130 mmol/L
  target potassium 4 mmol/L
  target chloride 109 mmol/L
  target lactate 25 mmol/L`;
    expect(solved(block).map((amount) => Math.round(amount * 1e9) / 1e9)).toEqual([105, 4, 25]);
    expect(found(fenced(block))).toEqual([]);
  });
});

describe('what cannot be solved', () => {
  it('says what can be reached', () => {
    const [finding] = findings(
      fenced('mixture mix\n  500 mL sodium chloride 0.45%\n  ? mL sodium chloride 0.9%\n  target sodium chloride 3 %'),
    );
    expect(finding?.message).toMatch(/0\.45 %.*0\.9 %/);
  });

  it.each([
    ['mixture mix\n  ? mL dextrose 50%\n  water to 100 mL\n  target dextrose 60 %', 'target-unreachable: 60 %'],
    ['mixture mix\n  ? mL dextrose 50%\n  500 mL water\n  target dextrose -1 %', 'target-unreachable: -1 %'],
    ['mixture mix\n  1 L dextrose 5%\n  withdraw ? mL\n  target volume 2 L', 'target-unreachable: 2 L'],
    ['mixture mix\n  1 L dextrose 5%\n  withdraw ? mL\n  target dextrose 3 %', 'target-unreachable: 3 %'],
  ])('%s', (block, expected) => {
    expect(found(fenced(block))).toEqual([expected]);
    const [mixture] = mixturesOf(block).values();
    expect(mixture?.state).toBe('unsolved');
    expect(mixture?.contents).toBeNull();
  });

  it('surplus targets are held as claims', () => {
    const block =
      'mixture mix\n  ? mL sodium chloride 23.4%\n  water to 500 mL\n  target sodium 513 mmol/L\n  target chloride 100 mmol/L';
    expect(found(fenced(block))).toEqual(['claim-mismatch: 100 mmol/L']);
  });
});

describe('what can be measured of it', () => {
  it('is said with what the rounding costs', () => {
    const [mixture] = mixturesOf(
      'mixture brine\n  ? mL sodium chloride 23.4%\n  water to 500 mL\n  target sodium 513 mmol/L',
    ).values();
    const [amount] = mixture?.solved ?? [];
    expect(amount?.measured?.value.toString()).toBe('64');
    // 64 mL × 4004 mmol/L ÷ 0.5 L.
    expect(amount?.asMeasured[0]?.value.toNumber()).toBeCloseTo(512.5, 1);
  });
});
