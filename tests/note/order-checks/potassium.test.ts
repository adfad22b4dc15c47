/** Potassium, by section E of the worked examples: 40 mmol/L at 125 and at 300 mL/h, 20 mmol in 100 mL, 0.3 %. */
import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../../src/engine/index.ts';
import { DAYS, found, messages, patient } from './orders.ts';

const adult = patient({ age: 50, weight: 70 });
const child = patient({ age: 4, weight: 16 });
const baby = patient({ age: DAYS(5), weight: 3 });
const forty = 'potassium chloride 40 mmol/L in sodium chloride 0.9%';

describe('the concentration of potassium', () => {
  const strong = (who: typeof adult, mmol: number | string, route: string, region: 'US' | null = null) =>
    found(who, [`give 10 mL potassium chloride ${mmol} in dextrose 5% over 10 h by ${route}`], {
      limits: defaultLimits(region),
    }).filter((text) => text.startsWith('potassium-concentration'));

  // Peripheral 40 mmol/L (NHS Highland), central 400 mmol/L (NHS Lothian); labels of 0.3 % print 40 and hold 40.2.
  it('is held to 40 mmol/L by a peripheral and 400 mmol/L by a central vein', () => {
    expect(strong(adult, '40 mmol/L', 'peripheral vein')).toEqual([]);
    expect(strong(adult, '0.3%', 'peripheral vein')).toEqual([]);
    expect(strong(adult, '41 mmol/L', 'peripheral vein')).toHaveLength(1);
    expect(strong(adult, '200 mmol/L', 'peripheral vein')).toHaveLength(1);
    expect(strong(adult, '400 mmol/L', 'central vein')).toEqual([]);
    expect(strong(adult, '410 mmol/L', 'central vein')).toHaveLength(1);
  });

  it('is 100 mmol/L by a peripheral vein in the United States', () => {
    expect(strong(adult, '100 mmol/L', 'peripheral vein', 'US')).toEqual([]);
    expect(strong(adult, '110 mmol/L', 'peripheral vein', 'US')).toHaveLength(1);
  });

  // Canberra neonatal manual: peripheral 40, central 80 mmol/L.
  it('is lower by a central vein in a child', () => {
    expect(strong(child, '80 mmol/L', 'central vein')).toEqual([]);
    expect(strong(child, '82 mmol/L', 'central vein')).toHaveLength(1);
    expect(strong(baby, '82 mmol/L', 'central vein')).toHaveLength(1);
  });

  it('takes the strictest limit where no age is written, and says so', () => {
    const unknown = patient({ weight: 70 });
    expect(strong(unknown, '82 mmol/L', 'central vein')).toHaveLength(1);
    const line = 'give 10 mL potassium chloride 82 mmol/L in dextrose 5% over 10 h by central vein';
    expect(messages(unknown, [line])[0]).toContain(
      '80 mmol/L. No age is written, so the limits of every age were tried.',
    );
    expect(messages(null, [line])[0]).toContain('No age is written');
  });

  it('says when no route is written', () => {
    expect(messages(adult, ['give 10 mL potassium chloride 200 mmol/L in dextrose 5% over 10 h'])[0]).toContain(
      'No route is written',
    );
  });
});

describe('the rate of potassium', () => {
  it('is held to 10 mmol/h in an adult', () => {
    // 40 mmol/L at 125 mL/h is 5 mmol/h, at 250 mL/h 10, at 300 mL/h 12.
    expect(found(adult, [`give 500 mL ${forty} at 125 mL/h by peripheral vein`])).toEqual([]);
    expect(found(adult, [`give 500 mL ${forty} at 250 mL/h by peripheral vein`])).toEqual([]);
    expect(found(adult, [`give 500 mL ${forty} at 300 mL/h by peripheral vein`])).toEqual(['potassium-rate: 300 mL/h']);
    expect(found(adult, [`give 500 mL ${forty} at 500 mL/h by peripheral vein monitored`])).toEqual([]);
    expect(found(adult, [`give 500 mL ${forty} at 520 mL/h by peripheral vein monitored`])).toHaveLength(1);
  });

  // 0.2 mmol/kg/h or 10 mmol/h, whichever is lower; 0.5 mmol/kg/h in intensive care (an Irish children's hospital).
  it('goes by weight in a child, up to 10 mmol/h', () => {
    expect(found(child, [`give 160 mL ${forty} over 2 h by peripheral vein`])).toEqual([]); // 3.2 mmol/h
    expect(found(child, [`give 200 mL ${forty} over 2 h by peripheral vein`])).toEqual(['potassium-rate: 2 h']);
    expect(found(child, [`give 400 mL ${forty} over 2 h by peripheral vein monitored`])).toEqual([]); // 0.5
    expect(messages(child, [`give 200 mL ${forty} over 2 h by peripheral vein`])[0]).toContain('0.25 mmol/kg/h');
    const heavy = patient({ age: 16, weight: 90 });
    expect(messages(heavy, [`give 550 mL ${forty} over 2 h by peripheral vein`])[0]).toContain(
      'in a child of any weight without heart monitoring is 10 mmol/h',
    );
  });

  // Usually below 0.25, never above 0.5 mmol/kg/h (a neonatal manual).
  it('is 0.25 mmol/kg/h in a newborn infant', () => {
    expect(found(baby, [`give 18 mL ${forty} at 18 mL/h by peripheral vein`])).toEqual([]); // 0.24
    expect(found(baby, [`give 21 mL ${forty} at 21 mL/h by peripheral vein`])).toEqual(['potassium-rate: 21 mL/h']);
  });

  it('tries every age without one, and the limits by weight only with one', () => {
    expect(found(patient({ weight: 40 }), [`give 225 mL ${forty} over 1 h by peripheral vein`])).toHaveLength(1);
    expect(found(patient({}), [`give 225 mL ${forty} over 1 h by peripheral vein`])).toEqual([]);
    expect(found(null, [`give 300 mL ${forty} over 1 h by peripheral vein`])).toHaveLength(1);
  });

  it('passes over what only replaces plasma', () => {
    expect(found(adult, ["give 500 mL lactated Ringer's over 5 min by peripheral vein"])).toEqual([]);
    expect(found(patient({ age: 50 }, { potassium: 6 }), ["give 500 mL lactated Ringer's over 5 h by vein"])).toEqual(
      [],
    );
  });

  it('adds up what runs at the same time, once', () => {
    const six = `give 150 mL ${forty} at 150 mL/h by peripheral vein`;
    expect(found(adult, [six, six])).toEqual(['potassium-rate: 150 mL/h']);
    expect(messages(adult, [six, six])[0]).toContain('12 mmol/h was read, of 2 orders together');
    expect(found(adult, [six, `${six} from 1 h`])).toEqual([]);
    expect(found(adult, [six, `${six} from 30 min`])).toHaveLength(1);
    expect(found(adult, [six, `give 300 mL ${forty} at 300 mL/h by peripheral vein`])).toEqual([
      'potassium-rate: 300 mL/h',
    ]);
    expect(found(adult, [`${six} monitored`, `${six} monitored`])).toEqual([]);
    expect(found(adult, [six, `${six} monitored`])).toHaveLength(1);
  });

  it('leaves other routes alone', () => {
    expect(found(adult, [`give 500 mL ${forty} at 500 mL/h by feeding tube`])).toEqual([]);
  });
});

describe('potassium while it is high', () => {
  const given = [`give 500 mL ${forty} over 8 h by peripheral vein`];
  it('is named above 5.5 mmol/L', () => {
    expect(found(patient({ age: 50 }, { potassium: 5.5 }), given)).toEqual([]);
    expect(found(patient({ age: 50 }, { potassium: 5.6 }), given)).toEqual([`potassium-while-high: ${forty}`]);
  });
});
