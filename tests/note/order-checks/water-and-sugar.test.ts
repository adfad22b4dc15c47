/** Free water, maintenance, dextrose, sodium and chloride loads. */
import { describe, expect, it } from 'vitest';
import { DAYS, found, messages, patient } from './orders.ts';

describe('free water against a low sodium', () => {
  const low = patient({ age: 50, weight: 70 }, { sodium: 128 });
  // 70 kg: 350 mL in a day is 5 mL/kg.
  it('counts from 5 mL/kg in a day', () => {
    expect(found(low, ['give 349 mL dextrose 5% over 24 h by vein'])).toEqual([]);
    expect(found(low, ['give 350 mL dextrose 5% over 24 h by vein'])).toEqual(['hypotonic-to-low-sodium: dextrose 5%']);
    expect(
      found(patient({ age: 50, weight: 70 }, { sodium: 135 }), ['give 1 L dextrose 5% over 24 h by vein']),
    ).toEqual([]);
    expect(found(patient({ age: 50 }, { sodium: 128 }), ['give 1 L dextrose 5% over 24 h by vein'])).toEqual([]);
  });

  it('is reckoned against this serum sodium: lactated Ringer’s is nearly without', () => {
    // 1 - 134/128 is below zero; of half-strength saline 1 - 77/128 = 40 %.
    expect(found(low, ["give 2 L lactated Ringer's over 24 h by vein"])).toEqual([]);
    expect(messages(low, ['give 1 L sodium chloride 0.45% over 24 h by vein'])[0]).toContain('398 mL of free water');
  });

  it('adds up the orders of 24 h, by the gut as well, and stands at the largest', () => {
    const drip = 'give 250 mL dextrose 5% over 6 h by vein';
    const tube = 'give 200 mL water over 1 h by feeding tube';
    expect(found(low, [drip, tube])).toEqual(['hypotonic-to-low-sodium: dextrose 5%']);
    expect(found(low, [drip, `${tube} from 30 h`])).toEqual([]);
    expect(found(low, ['give 2 L dextrose 5% over 10 d by vein'])).toEqual([]);
    expect(found(low, ['give 5 x 80 mL water over 1 min by feeding tube every 4 h'])).toHaveLength(1);
  });

  it('leaves out what is not absorbed, and fluids for which the sum does not hold', () => {
    expect(found(low, ['give 3 L glycine 1.5% over 2 h by bladder catheter'])).toEqual([]);
    expect(found(low, ['give 3 L water over 2 h by dialysis circuit'])).toEqual([]);
    expect(found(low, ['give 500 mL mannitol 10% over 4 h by vein'])).toEqual([]);
  });
});

describe('maintenance of a child', () => {
  const child = patient({ age: 6, weight: 20 }); // 4-2-1: 60 mL/h
  const half = 'dextrose 5% in sodium chloride 0.45%';
  it('is isotonic', () => {
    expect(found(child, [`give 1 L ${half} at 60 mL/h by peripheral vein`])).toEqual([
      `hypotonic-maintenance: ${half}`,
    ]);
    expect(found(child, [`give 1 L ${half} at 30 mL/h by peripheral vein`])).toHaveLength(1);
    expect(found(child, [`give 1 L ${half} at 29 mL/h by peripheral vein`])).toEqual([]);
    expect(found(child, [`give 230 mL ${half} at 60 mL/h by peripheral vein`])).toEqual([]); // under 4 h
    expect(found(child, ['give 1 L dextrose 5% in sodium chloride 0.9% at 60 mL/h by peripheral vein'])).toEqual([]);
    expect(found(child, ["give 1 L lactated Ringer's at 60 mL/h by peripheral vein"])).toEqual([]);
    expect(found(child, [`give ${half} at 60 mL/h by peripheral vein`])).toHaveLength(1);
    expect(found(child, [`give 1 L ${half} at 60 mL/h by feeding tube`])).toEqual([]);
  });

  it.each([
    [27, 0],
    [28, 1],
  ])('begins at 28 days: %s d', (days, times) => {
    const who = patient({ age: DAYS(days), weight: 4 });
    const line = 'give 380 mL dextrose 5% in sodium chloride 0.2% at 16 mL/h by peripheral vein';
    expect(found(who, [line]).filter((text) => text.startsWith('hypotonic'))).toHaveLength(times);
  });

  it('ends at 18 years; without an age it goes by weight', () => {
    expect(found(patient({ age: 18, weight: 60 }), [`give 1 L ${half} at 100 mL/h by vein`])).toEqual([]);
    expect(found(patient({ age: 17.9, weight: 60 }), [`give 1 L ${half} at 100 mL/h by vein`])).toHaveLength(1);
    expect(found(patient({ weight: 41 }), [`give 1 L ${half} at 80 mL/h by vein`])).toEqual([]);
    expect(messages(patient({ weight: 12 }), [`give 1 L ${half} at 40 mL/h by vein`])[0]).toContain(
      'No age is written',
    );
  });

  it('is left to its purpose where the sodium is high', () => {
    expect(found(patient({ age: 6, weight: 20 }, { sodium: 158 }), [`give 1 L ${half} at 60 mL/h by vein`])).toEqual(
      [],
    );
  });
});

describe('the rate of dextrose', () => {
  // % × mL/h ÷ (6 × kg): 10 % at 12 mL/h, 3 kg: 6.67; 10 % at 125 mL/h, 70 kg: 2.98; 5 % at 100 mL/h, 20 kg: 4.17.
  it.each([
    [patient({ age: DAYS(3), weight: 3 }), 'give 288 mL dextrose 10% at 12 mL/h by vein', 0],
    [patient({ age: 50, weight: 70 }), 'give 1 L dextrose 10% at 125 mL/h by vein', 0],
    [patient({ age: 50, weight: 70 }), 'give 1 L dextrose 10% at 210 mL/h by vein', 0], // 5.0
    [patient({ age: 50, weight: 70 }), 'give 1 L dextrose 10% at 215 mL/h by vein', 1], // 5.12
    [patient({ age: DAYS(3), weight: 3 }), 'give 500 mL dextrose 10% at 21.6 mL/h by vein', 0], // 12
    [patient({ age: DAYS(3), weight: 3 }), 'give 500 mL dextrose 10% at 22 mL/h by vein', 1],
    [patient({ age: DAYS(3), birthWeight: 3 }), 'give 500 mL dextrose 10% at 22 mL/h by vein', 1],
    [patient({ age: 0.5, weight: 7 }), 'give 1 L dextrose 10% in sodium chloride 0.9% at 54 mL/h by vein', 0], // 12.9
    [patient({ age: 0.5, weight: 7 }), 'give 1 L dextrose 10% in sodium chloride 0.9% at 56 mL/h by vein', 1],
    [patient({ age: 9, weight: 30 }), 'give 1 L dextrose 10% in sodium chloride 0.9% at 149 mL/h by vein', 0], // 8.28
    [patient({ age: 9, weight: 30 }), 'give 1 L dextrose 10% in sodium chloride 0.9% at 155 mL/h by vein', 1],
    [patient({ age: 50 }), 'give 1 L dextrose 10% at 400 mL/h by vein', 0], // no weight
    [patient({ age: 50, weight: 70 }), 'give 250 mL dextrose 10% over 15 min by vein', 0], // a dose
    [patient({ weight: 3 }), 'give 288 mL dextrose 10% in sodium chloride 0.9% at 10 mL/h by vein', 1], // 5.6, an adult's limit
  ])('%#', (who, line, times) => {
    expect(found(who, [line]).filter((text) => text.startsWith('glucose-rate'))).toHaveLength(times);
  });

  it('adds up infusions that run together, once', () => {
    const who = patient({ age: 50, weight: 70 });
    const line = 'give 500 mL dextrose 10% at 125 mL/h by vein';
    expect(found(who, [line, line])).toEqual(['glucose-rate: 125 mL/h']);
    expect(found(who, [line, `${line} from 4 h`])).toEqual([]);
  });

  it('has a lower end for a newborn infant’s own infusion', () => {
    const baby = patient({ age: DAYS(3), weight: 3 });
    expect(found(baby, ['give 100 mL dextrose 10% at 7.1 mL/h by vein'])).toEqual(['glucose-rate: 7.1 mL/h']); // 3.94
    expect(found(baby, ['give 100 mL dextrose 10% at 7.2 mL/h by vein'])).toEqual([]); // 4
    expect(messages(baby, ['give 100 mL dextrose 10% at 5 mL/h by vein'])[0]).toContain('Less than 4 mg/kg/min');
    const drug = 'substance azobine\nmixture drip\n  3 mg azobine in 50 mL dextrose 5%';
    expect(found(baby, ['give 24 mL drip at 1 mL/h by vein'], { above: drug })).toEqual([]);
    expect(
      found(patient({ weight: 3 }), ['give 100 mL dextrose 10% in sodium chloride 0.45% at 1 mL/h by vein']),
    ).toEqual([]);
  });
});

describe('sodium and chloride in a day', () => {
  const adult = patient({ age: 50, weight: 70 });
  // NICE CG174: chloride daily where fluids with more than 120 mmol/L are used; 5 mmol/kg/d and 1 L common practice.
  it.each([
    ['give 999 mL sodium chloride 0.9% over 12 h by vein', 0],
    ['give 1 L sodium chloride 0.9% over 12 h by vein', 1],
    ["give 2 L lactated Ringer's over 12 h by vein", 0],
    ["give 3 L lactated Ringer's over 24 h by vein", 1], // 390 mmol, 5.6 mmol/kg
    ["give 3 L lactated Ringer's over 48 h by vein", 0],
    ['give 2 L sodium chloride 0.9% over 2 h by dialysis circuit', 0],
  ])('%s', (line, times) => {
    expect(found(adult, [line]).filter((text) => text.startsWith('sodium-chloride-load'))).toHaveLength(times);
  });

  it('goes by weight in a small adult', () => {
    expect(
      found(patient({ age: 80, weight: 40 }), ['give 600 mL sodium chloride 0.9% over 12 h by vein']),
    ).toHaveLength(1);
  });

  it('is said once for both, and not of a child', () => {
    expect(messages(adult, ['give 3 L sodium chloride 0.9% over 24 h by vein'])).toHaveLength(1);
    expect(messages(adult, ['give 3 L sodium chloride 0.9% over 24 h by vein'])[0]).toContain(
      '6.6 mmol/kg/d of sodium and 3000 mL of fluids rich in chloride',
    );
    expect(found(patient({ age: 6, weight: 20 }), ['give 1 L sodium chloride 0.9% over 24 h by vein'])).toEqual([]);
    expect(
      found(patient({ age: DAYS(4), weight: 3 }), ['give 120 mL sodium chloride 0.9% over 24 h by vein']),
    ).toHaveLength(1);
  });
});
