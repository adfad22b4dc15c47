import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal, measurable, unit } from '../../src/engine/index.ts';
import { runs } from '../runs.ts';
import { quantity } from './helpers.ts';

describe('the nearest amount that can be measured out', () => {
  // Steps of syringes, cylinders and balances: common practice, no source.
  it.each([
    ['0.126 mL', '0.13', '1 mL syringe'],
    ['0.125 mL', '0.13', '1 mL syringe'],
    ['0.124 mL', '0.12', '1 mL syringe'],
    ['1 mL', '1', '1 mL syringe'],
    ['1.01 mL', '1', '3 mL syringe'],
    ['2.25 mL', '2.3', '3 mL syringe'],
    ['3 mL', '3', '3 mL syringe'],
    ['3.01 mL', '3', '10 mL syringe'],
    ['7.5 mL', '7.6', '10 mL syringe'],
    ['10.4 mL', '10', '20 or 50 mL syringe'],
    ['60 mL', '60', '20 or 50 mL syringe'],
    ['61 mL', '62', '250 mL measuring cylinder'],
    ['0.3 L', '0.3', '1000 mL measuring cylinder'],
    ['304 mL', '300', '1000 mL measuring cylinder'],
    ['1 L', '1', '1000 mL measuring cylinder'],
    ['8.994 g', '8.99', 'balance'],
    ['1234 mg', '1230', 'balance'],
    ['100 g', '100', 'balance'],
    ['100.04 g', '100', 'balance'],
    ['5 kg', '5', 'balance'],
    ['0 mL', '0', '1 mL syringe'],
  ])('%s: %s with a %s', (exact, value, tool) => {
    const found = measurable(quantity(exact))!;
    expect([found.value.toString(), found.with]).toEqual([value, tool]);
  });

  it.each(['1001 mL', '5001 g', '1 mL/h', '1 g/L', '5 mmol', '10 units', '3 h'])('is none for %s', (exact) => {
    expect(measurable(quantity(exact))).toBeNull();
  });

  it('is at most half a step away', () => {
    const exact = fc.integer({ min: 0, max: 60_000 });
    fc.assert(
      fc.property(exact, (microlitres) => {
        const value = decimal(microlitres).div(1000);
        const off = measurable({ value, unit: unit('mL') })!
          .value.minus(value)
          .abs();
        const step = value.lte(1) ? '0.01' : value.lte(3) ? '0.1' : value.lte(10) ? '0.2' : '1';
        expect(off.times(2).lte(step)).toBe(true);
      }),
      runs(100),
    );
  });
});
