import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal, exactText, formatDecimal, formatQuantity } from '../../src/engine/index.ts';

// A leading zero, no trailing zero, a space before the unit: the published lists of error-prone dose designations ask for
// them.
const SAFE = /^-?(0|[1-9]\d*)(\.\d*[1-9])?$/;

describe('numbers as they are shown', () => {
  it.each([
    ['1010', '1010'],
    ['1010.4', '1010'],
    ['152.479', '152'],
    ['19.801', '19.8'],
    ['-118.71', '-119'],
    ['0.50', '0.5'],
    ['5.0', '5'],
    ['0', '0'],
    ['-0', '0'],
    ['0.00123456', '0.00123'],
    ['1e12', '1000000000000'],
    ['1e-9', '0.000000001'],
    ['99.96', '100'],
    ['999.6', '1000'],
  ])('%s is %s', (value, shown) => {
    expect(formatDecimal(decimal(value))).toBe(shown);
  });

  it('puts a space before every unit', () => {
    expect(formatQuantity(decimal('0.9'), '%')).toBe('0.9 %');
    expect(formatQuantity(decimal('152.479'), 'mmol/L', 4)).toBe('152.5 mmol/L');
  });

  it('keeps an exact result whole and nine digits of any other', () => {
    expect(exactText(decimal('1234.56789012345'))).toBe('1234.56789012345');
    expect(exactText(decimal(1000).div(3))).toBe('333.333333');
    expect(exactText(decimal('10000000000').div(3))).toBe('3333333333');
    expect(exactText(decimal('1.50'))).toBe('1.5');
    expect(exactText(decimal(-20).div('1.01'))).toBe('-19.8019802');
    expect(exactText(decimal('1e-20'))).toBe('0.00000000000000000001');
    expect(exactText(decimal('-0'))).toBe('0');
  });

  it('writes every number safely, and near enough', () => {
    const values = fc.tuple(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: -12, max: 12 }));
    fc.assert(
      fc.property(values, fc.integer({ min: 1, max: 12 }), ([digits, exponent], significant) => {
        const value = decimal(digits).times(decimal(10).pow(exponent));
        const shown = formatDecimal(value, significant);
        expect(shown).toMatch(SAFE);
        expect(exactText(value)).toMatch(SAFE);
        expect(decimal(exactText(value)).eq(value)).toBe(true);
        const allowed = value
          .abs()
          .times(decimal(10).pow(1 - significant))
          .div(2);
        expect(decimal(shown).minus(value).abs().lte(allowed)).toBe(true);
      }),
    );
  });
});
