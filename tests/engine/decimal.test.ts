import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal, decimal, manyTimes, nearlyEqual, ONE, remembered, sumOf, ZERO } from '../../src/engine/index.ts';
import { gramsOfMmol, mmolOfGrams } from '../../src/engine/substances.ts';

const figure = fc
  .tuple(fc.bigInt({ min: -(10n ** 40n) + 1n, max: 10n ** 40n - 1n }), fc.integer({ min: -60, max: 12 }))
  .map(([digits, power]) => decimal(`${digits}e${power}`));

describe('nearlyEqual', () => {
  /** The definition, without the short cut: |a - b| is at most 1e-30 of the largest of |a|, |b| and 1. */
  const byDefinition = (a: Decimal, b: Decimal) =>
    a
      .minus(b)
      .abs()
      .lte(Decimal.max(a.abs(), b.abs(), ONE).times('1e-30'));

  it('is its definition for any two figures', () => {
    fc.assert(fc.property(figure, figure, (a, b) => nearlyEqual(a, b) === byDefinition(a, b)));
  });

  it('is its definition where two figures are about as near as counts', () => {
    const off = fc
      .tuple(fc.integer({ min: 1, max: 999 }), fc.integer({ min: -34, max: -27 }))
      .map(([part, power]) => decimal(`${part}e${power}`));
    fc.assert(
      fc.property(figure, off, (a, share) => {
        const b = a.plus(Decimal.max(a.abs(), ONE).times(share));
        return nearlyEqual(a, b) === byDefinition(a, b) && nearlyEqual(b, a) === byDefinition(b, a);
      }),
    );
  });

  it.each(['1e-30', '0.999e-30', '1.001e-30', '9.999e-31'])(
    'counts %s beside nothing as the definition does',
    (text) => {
      expect(nearlyEqual(decimal(text), ZERO)).toBe(byDefinition(decimal(text), ZERO));
    },
  );
});

describe('sums and multiples', () => {
  it('add up as one after the other', () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(figure, fc.constant(ZERO))), (figures) =>
        sumOf(figures, (one) => one).eq(figures.reduce((sum, one) => sum.plus(one), ZERO)),
      ),
    );
  });

  it('multiply as decimals do', () => {
    fc.assert(
      fc.property(figure, fc.integer({ min: -3, max: 6 }), (value, count) =>
        manyTimes(value, count).eq(value.times(count)),
      ),
    );
  });

  it('weigh and count to the last digit as by g ÷ (g/mol) × 1000', () => {
    const molar = fc.integer({ min: 1, max: 10 ** 9 }).map((digits) => decimal(digits).div(10 ** 6));
    fc.assert(
      fc.property(figure, molar, (amount, molarMass) => {
        expect(gramsOfMmol(amount, molarMass).eq(amount.times(molarMass).div(1000))).toBe(true);
        expect(mmolOfGrams(amount, molarMass).eq(amount.times(1000).div(molarMass))).toBe(true);
      }),
    );
  });
});

describe('remembered', () => {
  it('works out once for one thing, and for each question of its own', () => {
    let count = 0;
    const first = remembered((of: { readonly name: string }) => ({ said: of.name, count: ++count }));
    const second = remembered((of: { readonly name: string }) => ({ said: of.name.length }));
    const [one, other] = [{ name: 'one' }, { name: 'other' }];
    expect([first(one), first(one), first(other)]).toEqual([
      { said: 'one', count: 1 },
      { said: 'one', count: 1 },
      { said: 'other', count: 2 },
    ]);
    expect(second(one)).toEqual({ said: 3 });
    expect(first(one)).toBe(first(one));
  });
});
