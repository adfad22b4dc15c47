import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { adultMaintenance, burnFluid, decimal, maintenance, usualIntake } from '../../../src/engine/index.ts';
import { value } from '../helpers.ts';
import { near, stock } from './helpers.ts';

describe('maintenance by weight', () => {
  it.each([
    // Pediatrics 1957;19:823 by day; 4-2-1 by hour, 30 kg: 70 mL/h in a core curriculum.
    ['8', '800', '32'],
    ['15', '1250', '50'],
    ['30', '1700', '70'],
    ['70', '2500', '110'],
    ['10', '1000', '40'],
    ['20', '1500', '60'],
    ['0', '0', '0'],
    ['-5', '0', '0'],
  ])('%s kg: %s mL/day, %s mL/h', (weight, perDay, perHour) => {
    const found = maintenance(decimal(weight));
    expect([found.perDay.toString(), found.perHour.toString()]).toEqual([perDay, perHour]);
  });

  it('gives 32 kg 1740 mL with sodium 52.2, potassium 34.8 and chloride 34.8 mmol', () => {
    // Worked so on a teaching page, after the paper of 1957.
    const weight = decimal(32);
    const { sodium, potassium, chloride, source } = usualIntake('child', weight)!;
    expect(maintenance(weight).perDay.toString()).toBe('1740');
    near(sodium.times(weight), '52.2', '0.1');
    near(potassium.times(weight), '34.8', '0.1');
    near(chloride.times(weight), '34.8', '0.1');
    expect(source).toContain('1957');
  });

  it('gives an adult of 70 kg 1750 to 2100 mL, 70 mmol of each ion and 50 to 100 g of glucose', () => {
    // NICE clinical guideline 174, second-hand.
    const { water, electrolytes, glucose, source } = adultMaintenance(decimal(70));
    expect([water.least, water.most, electrolytes, glucose.least, glucose.most].map(Number)).toEqual([
      1750, 2100, 70, 50, 100,
    ]);
    expect(source).toContain('guideline 174');
  });

  it('counts the energy of dextrose 5 % by the label', () => {
    // 3.4 kcal per g of the monohydrate: 2 L give 340 kcal; 75 mL/h for 24 h, 1800 mL, 90 g, give 306.
    near(value(stock('dextrose 5 %', 2000), 'energy', 'kcal'), '340', '1');
    near(value(stock('dextrose 5 %', 75 * 24), 'energy', 'kcal'), '306', '1');
  });

  it('tells what is usual by age', () => {
    expect(usualIntake('neonate')).toBeNull();
    expect(Number(usualIntake('adult')!.sodium)).toBe(1);
    expect(Number(usualIntake('infant')!.sodium)).toBe(3);
    expect(Number(usualIntake('child', decimal(10))!.chloride)).toBe(2);
  });

  it('begins burns at 2 to 4 mL/kg for each percent, half of it in 8 h', () => {
    // Consensus formula, from memory: 70 kg with 30 %: 4200 to 8400 mL.
    const { first24Hours, first8Hours } = burnFluid(decimal(70), decimal(30));
    expect([first24Hours.least, first24Hours.most].map(Number)).toEqual([4200, 8400]);
    expect([first8Hours.least, first8Hours.most].map(Number)).toEqual([2100, 4200]);
  });

  it('is never below nothing, and never fails', () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => decimal(number));
    fc.assert(
      fc.property(any, any, (weight, percent) => {
        const { perDay, perHour } = maintenance(weight);
        const found = [
          perDay,
          perHour,
          adultMaintenance(weight).water.least,
          burnFluid(weight, percent).first24Hours.most,
        ];
        expect(found.every((amount) => amount.gte(0) && amount.isFinite())).toBe(true);
        expect(usualIntake('child', weight)!.sodium.isFinite()).toBe(true);
      }),
    );
  });
});
