/** Concentrates, haemolysis, peripheral veins. Osmolarities: full dissociation of the labelled strength. */
import { describe, expect, it } from 'vitest';
import { decimal, defaultLimits } from '../../../src/engine/index.ts';
import { found, lookAt, messages, order, patient } from './orders.ts';

const adult = patient({ age: 50, weight: 70 });

describe('concentrates', () => {
  it.each([
    ['potassium chloride 1 mmol/mL', true], // the edge itself counts
    ['potassium chloride 0.99 mmol/mL', false],
    ['potassium acetate 2 mmol/mL', true],
    ['potassium phosphates', true],
    ['sodium chloride 23.4%', true],
    ['sodium chloride 7.5%', false],
    ['sodium chloride 10%', false],
    ['magnesium sulfate 50%', true],
    ['magnesium sulfate 20%', false],
    ['sodium phosphates', true],
  ])('%s by a central vein: %s', (fluid, reported) => {
    const codes = lookAt(adult, [`give 10 mL ${fluid} over 10 h by central vein`]).map((one) => one.located.fault.code);
    expect(codes.includes('undiluted-concentrate')).toBe(reported);
    expect(codes.filter((code) => code === 'undiluted-concentrate').length).toBeLessThan(2);
  });

  it('are reported once: not as too strong for the vein as well', () => {
    expect(found(adult, ['give 10 mL potassium chloride 2 mmol/mL over 4 h by peripheral vein'])).toEqual([
      'undiluted-concentrate: potassium chloride 2 mmol/mL',
    ]);
  });

  it('are taken to go into a vein where no route is written, and go where they like by other routes', () => {
    expect(found(adult, ['give 10 mL potassium chloride 2 mmol/mL over 4 h'])).toHaveLength(1);
    expect(messages(adult, ['give 10 mL potassium chloride 2 mmol/mL over 4 h'])[0]).toContain('No route is written');
    expect(found(adult, ['give 10 mL potassium chloride 2 mmol/mL over 4 h by feeding tube'])).toEqual([]);
  });
});

describe('haemolysis', () => {
  const reaches = (fluid: string) =>
    lookAt(adult, [`give 100 mL ${fluid} over 10 h by central vein`])
      .map(({ located }) => located.fault)
      .flatMap((fault) => (fault.code === 'haemolysis' ? [`${fault.reaches} ${fault.found.toFixed(0)}`] : []));

  // In-vitro lysis of normal red cells: begins at 0.5 %, complete at 0.3 % sodium chloride, 103 mOsm/L
  // (Laboratory handbook, osmotic fragility); sodium chloride 0.45 % (154 mOsm/L) is accepted practice.
  it.each([
    ['water', ['water 0']],
    ['sodium chloride 0.225%', ['complete 77']],
    ['sodium chloride 0.3%', ['begins 103']],
    ['sodium chloride 0.4%', ['begins 137']],
    ['sodium chloride 0.45%', []],
    ['dextrose 2.5%', ['begins 126']],
    ['dextrose 5%', []],
    ['dextrose 5% in sodium chloride 0.225%', []],
    ['urea 1.63%', ['water 0']], // iso-osmotic, and lyses (standard pharmaceutics)
    ['glycerol 2.6%', ['water 0']],
    ['ammonium chloride 0.8%', ['water 0']],
    ['albumin 5%', []],
  ])('of %s', (fluid, expected) => expect(reaches(fluid)).toEqual(expected));

  it('is of the blood only', () => {
    for (const route of ['feeding tube', 'mouth', 'bladder catheter', 'subcutaneous needle', 'dialysis circuit']) {
      expect(found(adult, [`give 500 mL water over 10 h by ${route}`])).toEqual([]);
    }
    expect(found(adult, ['give 500 mL water over 10 h by intraosseous needle'])).toEqual(['haemolysis: water']);
  });

  it('counts a drug without a molar mass for the most that it may add', () => {
    const drug =
      'substance azobine\nmixture push\n  4 mg azobine\n  water to 50 mL\nmixture strong\n  1 g azobine\n  water to 50 mL';
    expect(found(adult, ['give 50 mL push over 5 h by central vein'], { above: drug })).toEqual(['haemolysis: push']);
    expect(found(adult, ['give 50 mL strong over 5 h by central vein'], { above: drug })).toEqual([]);
  });
});

describe('osmolarity by a peripheral vein', () => {
  const loud = (line: string, limits = defaultLimits(null)) =>
    found(adult, [line], { limits }).filter((text) => text.startsWith('hypertonic-peripheral'));

  it.each([
    ['dextrose 10%', false], // 505
    ['dextrose 5% in sodium chloride 0.9%', false], // 560
    ['dextrose 20%', true], // 1009
    ['sodium chloride 3%', true], // 1027
    ['mannitol 15%', false], // 823
  ])('of %s: %s', (fluid, reported) => {
    expect(loud(`give 500 mL ${fluid} over 10 h by peripheral vein`)).toHaveLength(reported ? 1 : 0);
    expect(loud(`give 500 mL ${fluid} over 10 h by central vein`)).toEqual([]);
  });

  it('stands at the route, else at the fluid, and says what is not written', () => {
    expect(loud('give 500 mL dextrose 20% over 24 h by peripheral vein')).toEqual([
      'hypertonic-peripheral: peripheral vein',
    ]);
    expect(loud('give 500 mL dextrose 20% over 24 h')).toEqual(['hypertonic-peripheral: dextrose 20%']);
    expect(messages(adult, ['give 500 mL dextrose 20% over 24 h'])[0]).toContain('No route is written');
    expect(messages(adult, ['give 500 mL dextrose 20% over 24 h by vein'])[0]).toContain('Which vein');
  });

  // 100 mL over 10 min (American panel 2013), 150 mL over 20 min (European guideline 2014), by a peripheral vein
  // (Frontiers in Medicine 2019;6:47).
  it.each([
    'give 3 x 100 mL sodium chloride 3% over 10 min by peripheral vein',
    'give 150 mL sodium chloride 3% over 20 min by peripheral vein',
    'give 250 mL sodium chloride 3% over 30 min by peripheral vein',
    'give 100 mL sodium chloride 3% by peripheral vein',
    'give 50 mL dextrose 50% over 5 min by peripheral vein monitored',
    'give 50 mL sodium bicarbonate 8.4% over 5 min by peripheral vein monitored',
  ])('leaves a short dose alone: %s', (line) => expect(loud(line)).toEqual([]));

  it.each([
    'give 260 mL sodium chloride 3% over 30 min by peripheral vein',
    'give 250 mL sodium chloride 3% over 40 min by peripheral vein',
    'give 100 mL sodium chloride 5% over 10 min by peripheral vein',
    'give 50 mL dextrose 50% over 5 min by peripheral vein',
  ])('names what is no such dose: %s', (line) => expect(loud(line)).toHaveLength(1));

  it('follows local policy', () => {
    const limits = new Map(defaultLimits(null));
    const limit = limits.get('peripheral-osmolarity')!;
    limits.set(limit.id, { ...limit, value: decimal(600), source: 'our pharmacy', local: true });
    const line = 'give 100 mL mannitol 15% over 2 h by peripheral vein';
    expect(loud(line, limits)).toHaveLength(1);
    expect(messages(adult, [line], { limits })[0]).toMatch(/600 mOsm\/L, set by local policy\..*\[our pharmacy\]$/);
  });
});

describe('the orders of these tests', () => {
  it('are put together as written', () => {
    const { rate, runs, duration } = order('give 3 x 100 mL sodium chloride 3% over 10 min every 1 h');
    expect(rate?.toNumber()).toBeCloseTo(600, 9);
    expect(duration?.times(60).toNumber()).toBeCloseTo(10, 9);
    expect(runs.map(({ start }) => start.toNumber())).toEqual([0, 1, 2]);
  });
});
