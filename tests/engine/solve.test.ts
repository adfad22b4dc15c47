import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  amountOfIon,
  type Contents,
  closed,
  contentsAt,
  type Decimal,
  decimal,
  EMPTY,
  findIon,
  mix,
  ONE,
  type OpenStep,
  type Residual,
  solve,
  times,
  water,
  ZERO,
} from '../../src/engine/index.ts';
import { runs } from '../runs.ts';
import { add, dry, perMl, value } from './helpers.ts';

const SALINE = perMl('154 mmol/L', 'sodium chloride');
const STRONG_SALINE = perMl('4 mmol/mL', 'sodium chloride');
const POTASSIUM = perMl('2 mmol/mL', 'potassium chloride');
const GLUCOSE = perMl('5 mmol/mL', 'glucose');

const addUnknown = (unknown: number, perUnit: Contents): OpenStep => ({ kind: 'add-unknown', unknown, perUnit });
const withdrawUnknown = (unknown: number): OpenStep => ({ kind: 'withdraw-unknown', unknown });
const exchangeUnknown = (unknown: number, of: Contents): OpenStep => ({ kind: 'exchange-unknown', unknown, perMl: of });

/** Zero at so many mmol of the ion in all. */
const total =
  (ion: string, mmol: number): Residual =>
  (contents) =>
    amountOfIon(contents, findIon(ion)!).minus(mmol);
/** Zero at so many mmol/mL of the ion. */
const strength =
  (ion: string, mmolPerMl: string): Residual =>
  (contents) =>
    amountOfIon(contents, findIon(ion)!).minus(contents.volume.times(decimal(mmolPerMl)));
const volume =
  (millilitres: number): Residual =>
  (contents) =>
    contents.volume.minus(millilitres);

/** The amounts to 20 digits, or null where there is no one answer. */
function answer(steps: readonly OpenStep[], ...residuals: readonly Residual[]): readonly number[] | null {
  const solution = solve(steps, residuals.length, residuals);
  return solution.ok ? solution.amounts.map((amount) => amount.toSignificantDigits(20).toNumber()) : null;
}

describe('one unknown amount', () => {
  it.each<[string, readonly OpenStep[], Residual, number]>([
    // 77 mmol are there; 20 more are 5 mL of 4 mmol/mL.
    ['a volume that brings a total', [add(500, SALINE), addUnknown(0, STRONG_SALINE)], total('sodium', 97), 5],
    // 2 x ÷ (960 + x) = 0.08, so 1.92 x = 76.8.
    [
      'a volume that brings a concentration, and dilutes',
      [add(960, water(ONE)), addUnknown(0, POTASSIUM)],
      strength('potassium', '0.08'),
      40,
    ],
    // 0.154 × (1000 − x) = 100.1.
    ['a volume to withdraw', [add(1000, SALINE), withdrawUnknown(0)], total('sodium', 100.1), 350],
    // 154 − 0.154 x + 4 x = 173.23.
    ['a volume to exchange', [add(1000, SALINE), exchangeUnknown(0, STRONG_SALINE)], total('sodium', 173.23), 5],
    // 1 mmol of the salt is one unit: 154 + x = 160.
    [
      'mmol of a dry salt',
      [add(1000, SALINE), addUnknown(0, dry('1 mmol', 'sodium chloride'))],
      total('sodium', 160),
      6,
    ],
    // What is added first is diluted by what makes the volume up: x ÷ 1000 × 4 = 0.04.
    [
      'a volume before making up',
      [addUnknown(0, STRONG_SALINE), { kind: 'make-up', perMl: water(ONE), to: decimal(1000) }],
      strength('sodium', '0.04'),
      10,
    ],
    // x mL of either: 4 x + 0.154 x = 41.54.
    ['one amount in two steps', [addUnknown(0, STRONG_SALINE), addUnknown(0, SALINE)], total('sodium', 41.54), 10],
  ])('is %s', (_, steps, residual, expected) => {
    expect(answer(steps, residual)).toEqual([expected]);
  });

  it('is below zero where only taking away would do, for the caller to refuse', () => {
    expect(answer([add(1000, SALINE), addUnknown(0, STRONG_SALINE)], total('sodium', 150))).toEqual([-1]);
  });

  it('is zero where the target is met already', () => {
    expect(answer([add(1000, SALINE), addUnknown(0, STRONG_SALINE)], total('sodium', 154))).toEqual([0]);
  });

  it('has no answer where it changes nothing that is aimed at', () => {
    expect(answer([add(1000, SALINE), addUnknown(0, POTASSIUM)], total('sodium', 160))).toBeNull();
    // As strong as the target, so any volume of it does.
    expect(answer([addUnknown(0, SALINE)], strength('sodium', '0.154'))).toBeNull();
    expect(solve([addUnknown(0, SALINE)], 1, [strength('sodium', '0.154')])).toEqual({ ok: false });
    // Nothing is there to be withdrawn from.
    expect(answer([withdrawUnknown(0)], total('sodium', 10))).toBeNull();
  });
});

describe('two and more unknown amounts', () => {
  it('come out together, whichever is written first', () => {
    // 100 mmol of sodium are 25 mL of 4 mmol/mL; 40 mmol of potassium are 20 mL of 2 mmol/mL.
    const steps = [add(500, water(ONE)), addUnknown(0, STRONG_SALINE), addUnknown(1, POTASSIUM)];
    expect(answer(steps, total('sodium', 100), total('potassium', 40))).toEqual([25, 20]);
    expect(answer(steps, total('potassium', 40), total('sodium', 100))).toEqual([25, 20]);
  });

  it('come out where each target depends on all of them', () => {
    // 750 mL: 120 mmol of chloride, 50 of it with potassium: 25 mL of 2 mmol/mL, 70 ÷ 4 mL of saline, the rest water.
    const steps = [addUnknown(0, STRONG_SALINE), addUnknown(1, POTASSIUM), addUnknown(2, water(ONE))];
    expect(answer(steps, volume(750), total('chloride', 120), total('potassium', 50))).toEqual([17.5, 25, 707.5]);
    expect(answer(steps, total('potassium', 50), volume(750), total('chloride', 120))).toEqual([17.5, 25, 707.5]);
  });

  it('have no answer where the targets are one, or contradict each other', () => {
    const steps = [addUnknown(0, STRONG_SALINE), addUnknown(1, SALINE)];
    expect(answer(steps, total('sodium', 100), total('chloride', 100))).toBeNull();
    expect(answer(steps, total('sodium', 100), total('chloride', 90))).toBeNull();
    // The same fluid twice.
    expect(answer([addUnknown(0, SALINE), addUnknown(1, SALINE)], total('sodium', 77), volume(600))).toBeNull();
  });

  it('are not told apart by what a division leaves of a zero', () => {
    // The second fluid is a seventh of the first, in forty digits.
    const third = times(STRONG_SALINE, ONE.div(3));
    const steps = [addUnknown(0, third), addUnknown(1, times(third, ONE.div(7)))];
    expect(answer(steps, total('sodium', 10), volume(600))).toBeNull();
    expect(answer(steps, volume(600), strength('sodium', '0.3'))).toBeNull();
  });

  it('are told apart by a difference that is small and real', () => {
    // 1 mL more of the second brings a hundred-millionth more sodium than 1 mL of the first.
    const near = perMl('4.00000001 mmol/mL', 'sodium chloride');
    const steps = [addUnknown(0, STRONG_SALINE), addUnknown(1, near)];
    expect(answer(steps, volume(100), total('sodium', 400.0000006))).toEqual([40, 60]);
  });

  it('are found whatever amounts made the targets', () => {
    const amounts = fc.array(fc.integer({ min: 1, max: 100_000 }), { minLength: 4, maxLength: 4 });
    const order = fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 });
    const found = [
      ({ volume: millilitres }: Contents) => millilitres,
      (contents: Contents) => amountOfIon(contents, findIon('sodium')!),
      (contents: Contents) => amountOfIon(contents, findIon('potassium')!),
      osmoles,
    ];
    fc.assert(
      fc.property(amounts, order, (tenths, rows) => {
        const fluids = [STRONG_SALINE, water(ONE), POTASSIUM, GLUCOSE];
        const steps = [add(100, SALINE), ...fluids.map((fluid, unknown) => addUnknown(unknown, fluid))];
        const made = tenths.map((tenth) => decimal(tenth).div(10));
        const aimed = found.map((of) => of(contentsAt(steps, made)));
        const residuals = rows.map(
          (row): Residual =>
            (contents) =>
              found[row]!(contents).minus(aimed[row]!),
        );
        const solution = solve(steps, 4, residuals);
        expect(solution.ok && solution.amounts.map((amount) => amount.toDecimalPlaces(20).toString())).toEqual(
          made.map(String),
        );
      }),
      runs(100),
    );
  });
});

function osmoles({ particles }: Contents): Decimal {
  return [...particles.values()].reduce((sum, mmol) => sum.plus(mmol), ZERO);
}

describe('what the steps give for given amounts', () => {
  const steps: readonly OpenStep[] = [
    add(1000, SALINE),
    { kind: 'withdraw', volume: decimal(200) },
    addUnknown(0, STRONG_SALINE),
    exchangeUnknown(1, POTASSIUM),
    { kind: 'add', contents: dry('10 mmol', 'potassium chloride') },
    withdrawUnknown(2),
    { kind: 'exchange', volume: decimal(50), perMl: GLUCOSE },
    { kind: 'make-up', perMl: water(ONE), to: decimal(2000) },
  ];

  it('is what carrying them out gives', () => {
    const amount = fc.integer({ min: 0, max: 500 }).map(decimal);
    fc.assert(
      fc.property(amount, amount, amount, (...amounts) => {
        const made = mix(closed(steps, amounts));
        expect(made.fault).toBeNull();
        const given = contentsAt(steps, amounts);
        expect(given.volume.toFixed(20)).toBe(made.contents.volume.toFixed(20));
        const listed = ({ particles }: Contents) => [...particles].map(([{ id }, mmol]) => [id, mmol.toFixed(20)]);
        expect(listed(given)).toEqual(listed(made.contents));
      }),
      runs(100),
    );
  });

  it('is worked out step by step', () => {
    // 800 mL with 123.2 mmol; 200 mL of 4 mmol/mL make 1000 mL with 923.2 mmol of sodium. A tenth goes for 100 mL of 2 mmol/mL,
    // and half of what then is there.
    const held = contentsAt(steps.slice(0, 4), [decimal(200), decimal(100)]);
    expect(value(held, 'volume', 'mL').toNumber()).toBe(1000);
    expect(value(held, 'sodium', 'mmol').toNumber()).toBe(830.88);
    expect(value(held, 'potassium', 'mmol').toNumber()).toBe(200);
    const half = contentsAt([...steps.slice(0, 4), withdrawUnknown(2)], [decimal(200), decimal(100), decimal(500)]);
    expect(value(half, 'volume', 'mL').toNumber()).toBe(500);
    expect(value(half, 'sodium', 'mmol').toNumber()).toBe(415.44);
  });

  it('is told whether or not it can be made', () => {
    const over = contentsAt([add(100, SALINE), withdrawUnknown(0)], [decimal(300)]);
    expect(value(over, 'volume', 'mL').toNumber()).toBe(-200);
    expect(mix(closed([add(100, SALINE), withdrawUnknown(0)], [decimal(300)])).fault?.code).toBe('withdraw-too-much');
    const nothing = contentsAt([withdrawUnknown(0), { kind: 'withdraw', volume: decimal(10) }], [decimal(300)]);
    expect(nothing).toEqual(EMPTY);
    // Where nothing is held, what an exchange brings is all there is.
    expect(value(contentsAt([exchangeUnknown(0, SALINE)], [decimal(100)]), 'sodium', 'mmol').toNumber()).toBe(15.4);
  });

  it('leaves steps without an unknown as they are', () => {
    const made = closed(steps, [ONE, ONE, ONE]);
    const known = [0, 1, 4, 6, 7];
    expect(known.map((index) => made[index])).toEqual(known.map((index) => steps[index]));
    expect([2, 3, 5].map((index) => made[index]!.kind)).toEqual(['add', 'exchange', 'withdraw']);
  });
});
