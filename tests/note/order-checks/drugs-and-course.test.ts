/** Other electrolytes, ceftriaxone, the course of sodium. */
import { describe, expect, it } from 'vitest';
import { findingOf } from '../../../src/checks/index.ts';
import { decimal } from '../../../src/engine/index.ts';
import type { Course } from '../../../src/note/orders/scene.ts';
import { DAYS, found, lookAt, messages, patient } from './orders.ts';

const adult = patient({ age: 50, weight: 70 });

describe('how fast other electrolytes are given', () => {
  // United States labels, from memory: magnesium sulfate 150 mg/min, phosphate 6.8 and 15 mmol/h, calcium gluconate 200
  // and 100 mg/min.
  it.each([
    ['give 100 mL magnesium sulfate 4% over 27 min by vein', 0], // 148 mg/min
    ['give 100 mL magnesium sulfate 4% over 26 min by vein', 1], // 154 mg/min
    ['give 100 mL monobasic sodium phosphate 136 mmol/L in dextrose 5% over 2 h by vein', 0], // 6.8 mmol/h
    ['give 100 mL monobasic sodium phosphate 140 mmol/L in dextrose 5% over 2 h by vein', 1],
    ['give 100 mL monobasic sodium phosphate 150 mmol/L in dextrose 5% over 1 h by central vein monitored', 0],
    ['give 100 mL monobasic sodium phosphate 150 mmol/L in dextrose 5% over 1 h by central vein', 1],
    ['give 20 mL calcium gluconate injection over 10 min by vein', 0],
    ['give 20 mL calcium gluconate injection over 9 min by vein', 1],
    ["give 1 L lactated Ringer's over 15 min by vein", 0],
    ['give 100 mL magnesium sulfate 4% over 10 min by feeding tube', 0],
  ])('%s', (line, times) => {
    expect(found(adult, [line]).filter((text) => text.startsWith('electrolyte-rate'))).toHaveLength(times);
  });

  it('holds calcium to half in a child', () => {
    const child = patient({ age: 6, weight: 20 });
    const given = (minutes: number) => [`give 10 mL calcium gluconate injection over ${minutes} min by vein`];
    expect(found(child, given(10))).toEqual([]);
    expect(found(child, given(9))).toEqual(['electrolyte-rate: 9 min']);
    expect(found(adult, given(9))).toEqual([]);
    expect(messages(null, given(9))[0]).toContain('No age is written');
  });
});

describe('ceftriaxone and calcium', () => {
  const above = [
    'substance ceftriaxone sodium',
    'mixture antibiotic',
    '  1 g ceftriaxone sodium in 50 mL sodium chloride 0.9%',
    'mixture wrong',
    "  1 g ceftriaxone sodium in 50 mL lactated Ringer's",
  ].join('\n');
  const lines = ['give 30 mL antibiotic over 30 min by vein', "give 30 mL lactated Ringer's over 8 h by vein"];
  const severities = (who: typeof adult | null, given = lines) =>
    lookAt(who, given, { above })
      .filter(({ located }) => located.fault.code === 'calcium-ceftriaxone')
      .map(({ located }) => findingOf(located).severity);

  // Prescribing information of ceftriaxone, January 2012: contraindicated up to 28 days; in others sequentially.
  it('is a warning up to 28 days and without an age, information in others', () => {
    expect(severities(patient({ age: DAYS(10), weight: 3 }))).toEqual(['warning']);
    expect(severities(patient({ age: DAYS(28), weight: 3 }))).toEqual(['warning']);
    expect(severities(patient({ age: DAYS(29), weight: 3 }))).toEqual(['information']);
    expect(severities(patient({ age: 40 }))).toEqual(['information']);
    expect(severities(patient({}))).toEqual(['warning']);
    expect(messages(patient({}), lines, { above })[0]).toContain('No age is written.');
  });

  it('is a warning for everybody in one fluid, and nothing by another way', () => {
    expect(severities(adult, ['give 30 mL wrong over 30 min by vein'])).toEqual(['warning']);
    expect(severities(adult, [lines[0]!, "give 30 mL lactated Ringer's over 8 h by feeding tube"])).toEqual([]);
    expect(severities(adult, [lines[0]!])).toEqual([]);
    expect(severities(null)).toEqual([]);
  });
});

describe('the course of sodium', () => {
  /** Changes evenly by so much an hour until an hour, and is looked at for 48 h. */
  const steady = (perHour: number, until = 48): Course => ({
    ok: true,
    counted: [],
    notCounted: [],
    points: Array.from({ length: 49 }, (_, hour) => {
      const sodium = decimal(130).plus(decimal(perHour).times(Math.min(hour, until)));
      return { hour: decimal(hour), massBalance: sodium, regression: sodium };
    }),
  });
  const line = ['give 100 mL sodium chloride 0.9% over 24 h by vein'];
  const limitOf = (who: typeof adult, inDay: number) =>
    lookAt(who, line, { course: steady(inDay / 24) })
      .map(({ located }) => located.fault)
      .flatMap((fault) => (fault.code === 'sodium-rise' || fault.code === 'sodium-fall' ? [fault.limit.id] : []));

  // American panel 2013: 8 in 24 h at high risk, else 12 in 24 h and 18 in 48 h; 10 in 24 h: European guideline 2014.
  it('rises within 10 and 12 mmol/L in 24 h, 18 in 48 h', () => {
    const low = patient({ age: 50, weight: 60 }, { sodium: 115, potassium: 4 });
    expect(limitOf(low, 9)).toEqual([]);
    expect(limitOf(low, 9.1)).toEqual(['sodium-rise-two-days']);
    expect(limitOf(low, 12.1)).toEqual(['sodium-rise-day']);
    expect(lookAt(low, line, { course: steady(11 / 24, 24) }).map(({ located }) => located.fault)).toMatchObject([
      { code: 'sodium-rise', limit: { id: 'sodium-rise-caution' } },
    ]);
  });

  it.each([
    [patient({ age: 50, demyelinationRisk: true }, { sodium: 115 }), 'declared high'],
    [patient({ age: 50 }, { sodium: 105 }), 'as low as this'],
    [patient({ age: 50 }, { sodium: 115, potassium: 3.4 }), 'low serum potassium'],
  ])('rises within 8 mmol/L in 24 h at high risk: %#', (who, words) => {
    expect(limitOf(who, 8)).toEqual([]);
    expect(limitOf(who, 8.1)).toEqual(['sodium-rise-high-risk']);
    expect(messages(who, line, { course: steady(9 / 24) })[0]).toContain(words);
  });

  it('is at no high risk at 106 and 3.5 mmol/L', () => {
    expect(limitOf(patient({ age: 50 }, { sodium: 106, potassium: 3.5 }), 8.5)).toEqual([]);
  });

  // Queensland Children's Hospital 2023: 10 in the first 24 h, 18 in the first 48 h.
  it('rises within 10 mmol/L in 24 h in a child', () => {
    const child = patient({ age: 6, weight: 20 }, { sodium: 115 });
    expect(limitOf(child, 10.1)).toEqual(['sodium-rise-child-day']);
    expect(limitOf(child, 9.5)).toEqual(['sodium-rise-child-two-days']);
  });

  it('is held to the limits of a child where no age is written', () => {
    const unknown = patient({ weight: 60 }, { sodium: 115 });
    expect(limitOf(unknown, 13)).toEqual(['sodium-rise-child-day']);
    expect(messages(unknown, line, { course: steady(13 / 24) })[0]).toContain('No age is written');
  });

  it('is looked at only from a low or a high sodium on', () => {
    expect(limitOf(patient({ age: 50 }, { sodium: 135 }), 20)).toEqual([]);
    expect(limitOf(patient({ age: 50 }, { sodium: 145 }), -20)).toEqual([]);
    expect(limitOf(patient({ age: 50 }), 20)).toEqual([]);
  });

  // Sodium 160 to 146 in 24 h, 0.58 mmol/L/h: beyond 12 in a day and 0.5 an hour (RCH Melbourne) in a child; in an adult a
  // caution, since the evidence differs.
  it('falls by 14 mmol/L in a day: too fast for a child, a caution in an adult', () => {
    const child = patient({ age: 6, weight: 20 }, { sodium: 160 });
    const grown = patient({ age: 50, weight: 60 }, { sodium: 160 });
    expect(limitOf(child, -14)).toEqual(['sodium-fall-child-day']);
    expect(limitOf(child, -12)).toEqual([]);
    expect(limitOf(grown, -14)).toEqual(['sodium-fall-adult-day']);
    expect(messages(grown, line, { course: steady(-14 / 24) })[0]).toMatch(/cautious fall.*Evidence in adults differs/);
  });

  it('falls within 0.5 mmol/L/h in a child over 6 h', () => {
    const child = patient({ age: 6, weight: 20 }, { sodium: 160 });
    expect(lookAt(child, line, { course: steady(-4 / 6, 6) }).map(({ located }) => located.fault)).toMatchObject([
      { code: 'sodium-fall', limit: { id: 'sodium-fall-child-hourly' } },
    ]);
  });

  it('says what is predicted, how far such predictions miss and what of urine is counted', () => {
    const low = patient({ age: 50, weight: 60, onset: 'acute' }, { sodium: 115 });
    const [message] = messages(low, line, { course: steady(13 / 24) });
    expect(message).toContain(
      'From a serum sodium of 115 mmol/L a rise of 13 mmol/L within 24 h is predicted (0 to 24 h), and the limit is passed at 23 h.',
    );
    expect(message).toContain('missed by 4.8 to 6.4 mmol/L');
    expect(message).toContain('No urine is written, so none is counted');
    expect(message).toContain('Its onset is acute: faster correction is accepted by some guidance.');
  });
});
