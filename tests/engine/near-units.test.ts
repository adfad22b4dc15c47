import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findUnit, nearUnits } from '../../src/engine/index.ts';

describe('nearUnits', () => {
  it.each([
    ['Mg', ['mg']],
    ['MEQ', ['mEq']],
    ['cc', ['mL']],
    ['cc/hr', ['mL/h']],
    ['ug/kg/min', ['mcg/kg/min']],
    ['mM', ['mmol/L']],
    ['IU', ['units']],
    ['gtt/min', ['drops/min']],
    ['mmoll', ['mmol']],
    ['mililitres', ['mL']],
    ['wibble', []],
    ['', []],
    // A full stop behind a unit ends a sentence.
    ['%.', ['%']],
    ['mcg/kg/min.', ['mcg/kg/min']],
    ['hr.', ['h']],
    ['.mg', ['mg']],
    ['.', []],
    // What is a unit already, and what would be none.
    ['mg', []],
    ['mg/kg/h', []],
    ['ml', ['mL']],
    ['mM/L', []],
    ['ml/min/hr', []],
    ['mg/kg/min/d', []],
    // One letter too many of a unit of two, one letter of three to five, two of a longer name.
    ['kgg', ['kg']],
    ['mEqq', ['mEq']],
    ['mx', []],
    ['ab', []],
    ['mim', ['min']],
    ['houxs', ['h']],
    ['houxx', []],
    ['minxxe', ['min']],
    ['mxxxte', []],
    // Where only the case is wrong, that is all.
    ['MOL', ['mol']],
    ['HOUR', ['h']],
    // The nearest first, then in the order of the table; at most three.
    ['millogram', ['mg', 'kg', 'mcg']],
    ['meg', ['mg', 'mcg', 'mEq']],
    ['mmo/mmo', ['mmol/mmol', 'mmol/mo', 'mo/mmol']],
    ['mL/hourr', ['mL/h']],
  ])('proposes for %s: %j', (text, near) => {
    expect(nearUnits(text)).toEqual(near);
  });

  it('proposes at most three', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom('m', 'g', 'l', '/', 'E', 'q', 'o') }),
        (text) => nearUnits(text).length <= 3,
      ),
    );
  });

  it('proposes units, and never what was written', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom('m', 'g', 'L', '/', 'h', 'o', '.') }), (text) => {
        for (const near of nearUnits(text)) {
          expect(findUnit(near)!.symbol).toBe(near);
          expect(near).not.toBe(text);
        }
      }),
    );
  });
});
