/** Numbers that nobody can mean: each is named in words that fit on a screen, and none is taken for another. */
import { describe, expect, it } from 'vitest';
import { fenced, findings, mixturesOf } from '../annotated.ts';

const LONG = '9'.repeat(10_000);
const WRONG = [
  ...[
    '1e999999',
    '1E400',
    '10^999999',
    '-1e5',
    '9'.repeat(41),
    '9'.repeat(1_500),
    `0.${'0'.repeat(60)}1`,
    LONG,
    `0.${LONG}`,
  ],
  ...[
    'NaN',
    'nan',
    'Infinity',
    '-Infinity',
    '∞',
    '0x10',
    '0b1',
    '1_000',
    '1,000',
    '1 000',
    '1\u2009000',
    '1\u202f000',
    "1'000",
  ],
  ...[
    '1.2.3',
    '1..2',
    '.',
    '-',
    '1/0',
    '0/0',
    '1/-2',
    '½½',
    '٣',
    '१',
    '１',
    '²',
    'Ⅻ',
    '1e',
    '1e+',
    '5-10',
    '--5',
    '+-5',
    '1000000000001',
  ],
  ...['-5', '0'],
];
const UNITS = [
  'mL^10',
  'mL10',
  'mL¹⁰',
  'mmol/L/L/L/L/L/L/L/L/L/L',
  'g/g/g/g',
  'mL*mL',
  '/mL',
  'mL/',
  'per per',
  'kmol',
  'mL'.repeat(600),
];

const places = (amount: string): readonly (readonly [what: string, block: string])[] => [
  ['an amount', `mixture bag\n  ${amount} sodium chloride 0.9%`],
  ['a claim', `mixture bag\n  1 L sodium chloride 0.9%\n  claim volume ${amount}`],
  ['a target', `mixture bag\n  ? mL sodium chloride 23.4%\n  water to 1 L\n  target sodium ${amount}`],
  ['a weight', `patient adult\n  weight ${amount}`],
  ['a rate', `give 1 L sodium chloride 0.9% at ${amount} by vein`],
  ['a stock', `stock ward\n  sodium ${amount}\n  chloride 1 mmol/L`],
];

function expectNamed(block: string): void {
  const source = fenced(block);
  const found = findings(source);
  expect(found.some(({ severity }) => severity === 'error')).toBe(true);
  for (const { message, span } of found) {
    expect(message.length).toBeLessThan(700);
    expect(message).not.toMatch(/(?<!‘)\bNaN|(?<![‘-])\bInfinity|undefined|\[object/);
    expect(span.end).toBeLessThanOrEqual(source.length);
  }
}

describe.each(WRONG.map((number) => [number.slice(0, 20), number]))('%s', (_, number) => {
  it('as an amount has an error that says so, and no result', () => {
    const block = `mixture bag\n  ${number} mL sodium chloride 0.9%`;
    expectNamed(block);
    expect(mixturesOf(block).get('bag')?.contents ?? null).toBeNull();
  });

  it.each(places(`${number} mL`).map(([what, block]) => [what, block]))(
    'as %s is said in few words',
    (_what, block) => {
      for (const { message } of findings(fenced(block))) expect(message.length).toBeLessThan(700);
    },
  );
});

describe.each(UNITS.map((unit) => [unit.slice(0, 20), unit]))('the unit %s', (_, unit) => {
  it.each(places(`5 ${unit}`).map(([what, block]) => [what, block]))(
    'of %s has an error that says so',
    (_what, block) => {
      expectNamed(block);
    },
  );
});
