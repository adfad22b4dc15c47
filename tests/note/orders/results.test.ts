/** What can be asked of an order: every observable, in which units, and what stands in the way of an answer. */
import { describe, expect, it } from 'vitest';
import { fixedObservables } from '../../../src/engine/index.ts';
import { readNote } from '../../../src/markdown/index.ts';
import { workNote } from '../../../src/note/index.ts';
import { orderUnit } from '../../../src/note/orders/all-results.ts';
import { fenced } from '../../annotated.ts';
import { claimed, faultsIn, shown, worked } from './bedside.ts';

const ADULT = `patient adult
  weight 50 kg
  age 40 y
  sex male
  serum sodium 120 mmol/L
`;
const GASTRIC = 'mixture gastric\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL\n';
const ORDER = `${GASTRIC}${ADULT}give gastric at 101 mL/h by central vein to adult through a set of 20 drops/mL as drip\n`;
const asked = (claim: string) => claimed(`${ORDER}  claim ${claim}`)[0];

describe('claims on an order', () => {
  // 1010 mL in 10 h at 50 kg, with 154.0 mmol of sodium, 20 of potassium, 174.0 of chloride.
  it.each([
    'volume 1010 mL',
    'volume 20.2 mL/kg',
    'volume 101 mL/h',
    'rate 101 mL/h',
    'rate 2.02 mL/kg/h',
    'rate 2424 mL/d',
    'drop rate 34 drops/min',
    'duration 10 h',
    'duration 600 min',
    'bags 1',
    'sodium 154 mmol',
    'sodium 154 mEq',
    'sodium 152 mmol/L',
    'sodium 3.1 mmol/kg',
    'sodium 15.4 mmol/h',
    'sodium load 154 mmol',
    'chloride load 174 mmol',
    'potassium rate 2 mmol/h',
    'potassium rate 2 mEq/h',
    'potassium rate 0.04 mmol/kg/h',
    'potassium 0.04 mmol/kg/h',
    'potassium chloride 1.49 g',
    'elemental potassium 782 mg',
    'osmolarity 348 mOsm',
    'osmolarity 345 mOsm/L',
    'free water -120 mL',
    'strong ion difference 0 mEq',
    'sodium to chloride ratio 0.885',
    'energy 0 kcal/kg',
    'density 1.01 g/mL',
    'glucose rate 0 mg/kg/min',
    'predicted sodium 122 mmol/L',
    'predicted sodium 122 mEq/L',
    // (1.03 × 30 × (120 + 23.8) / 1.03 + 1.03 × 174) / 31.01 − 23.8.
    'predicted sodium by regression 121 mmol/L',
    // 1010 − 174 × 1000 / 120.
    'free water for the patient -440 mL',
    'free water for the patient -8.8 mL/kg',
    // Two thirds of the free water, -120 mL, into cells; a quarter of the rest stays in plasma.
    'cells -80 mL',
    'plasma 272 mL within 1 mL',
    'interstitium 817 mL within 1 mL',
  ])('%s', (claim) => {
    expect(faultsIn(`${ORDER}  claim ${claim}`)).toEqual([]);
    expect(asked(claim)?.holds).toBe(true);
  });

  it('are looked for under the order’s name as well, and are mismatched like any other', () => {
    expect(claimed(`${ORDER}mixture other\n  1 L water\nclaim drip potassium rate 2 mmol/h`)[0]?.holds).toBe(true);
    expect(faultsIn(`${ORDER}  claim potassium rate 20 mmol/h`)).toEqual(['claim-mismatch: 20 mmol/h']);
    expect(faultsIn(`${ORDER}  claim rate 100 mL/h`)).toEqual(['nominal-claim: 100 mL/h']);
  });

  it.each([
    ['rate 101 mL', 'wrong-dimension: 101 mL'],
    ['rate 101 mmol/h', 'wrong-dimension: 101 mmol/h'],
    ['duration 10 mL', 'wrong-dimension: 10 mL'],
    ['bags 1 L', 'wrong-dimension: 1 L'],
    ['drop rate 34 mL/h', 'wrong-dimension: 34 mL/h'],
    ['potassium rate 20 mmol', 'wrong-dimension: 20 mmol'],
    ['glucose rate 20 mmol/h', 'wrong-dimension: 20 mmol/h'],
    ['plasma 20 mL/kg', 'wrong-dimension: 20 mL/kg'],
    ['predicted sodium 20 mmol', 'wrong-dimension: 20 mmol'],
    ['free water for the patient 130 mL/L', 'wrong-dimension: 130 mL/L'],
    ['sodium 154 mL', 'wrong-dimension: 154 mL'],
    ['sodium 3.5 g', 'wrong-dimension: 3.5 g'],
    ['sodium to chloride ratio 1 mmol', 'wrong-dimension: 1 mmol'],
    ['body water 30 L', 'not-of-this: body water'],
  ])('in a measure that does not fit: %s', (claim, fault) => {
    expect(faultsIn(`${ORDER}  claim ${claim}`)).toEqual([fault]);
  });

  it('every observable of the table answers of an order or says why not, in its own unit and in none that is wrong', () => {
    for (const observable of fixedObservables()) {
      const { name, of } = observable;
      const block = `${ORDER}  show ${name}`;
      const faults = faultsIn(block);
      if (of.includes('order')) expect(faults, name).toEqual([]);
      else expect(faults[0]?.split(':')[0], name).toBe('not-of-this');
      const symbol = orderUnit(observable);
      if (of.includes('order') && symbol)
        expect(shown(block)[0], name).toMatch(new RegExp(` ${symbol.replace('/', '\\/')}( \\(.*\\))?$`));
    }
  });
});

describe('per day', () => {
  it('what is given in the first day of the order, whenever it starts', () => {
    const perDay = (order: string, claim: string) => claimed(`${ADULT}${order} to adult\n  claim ${claim}`)[0]?.holds;
    expect(perDay('give 1 L sodium chloride 0.9% over 8 h by vein', 'sodium 154 mmol/d')).toBe(true);
    expect(perDay('give 1 L sodium chloride 0.9% by vein', 'sodium 3.08 mmol/kg/d')).toBe(true);
    expect(perDay('give 2 L sodium chloride 0.9% over 48 h by vein from 30 h', 'sodium 154 mmol/d')).toBe(true);
    expect(perDay('give sodium chloride 0.9% at 100 mL/h by vein', 'volume 2400 mL/d')).toBe(true);
    expect(perDay('give 3 x 100 mL sodium chloride 0.9% over 1 h every 8 h by vein', 'volume 300 mL/d')).toBe(true);
    expect(perDay('give 6 x 100 mL sodium chloride 0.9% over 1 h every 8 h by vein', 'volume 300 mL/d')).toBe(true);
  });

  it('per hour and per minute while it runs', () => {
    const block = `${ADULT}give 3 x 100 mL sodium chloride 0.9% over 1 h every 8 h by vein to adult\n  claim volume 100 mL/h`;
    expect(claimed(block)[0]?.holds).toBe(true);
    expect(faultsIn(`${ADULT}give 100 mL sodium chloride 0.9% by vein to adult\n  claim volume 100 mL/h`)).toEqual([
      'no-result: 100 mL/h',
    ]);
  });
});

describe('what stands in the way of an answer', () => {
  it.each([
    ['give 500 mL sodium chloride 0.9% by vein\n  claim rate 3 mL/h', 'no-result: 3 mL/h'],
    ['give sodium chloride 0.9% at 80 mL/h by vein\n  claim duration 3 h', 'no-result: 3 h'],
    ['give 500 mL sodium chloride 0.9% over 4 h by vein\n  claim bags 1', 'no-result: 1'],
    ['give 500 mL sodium chloride 0.9% over 4 h by vein\n  claim drop rate 3 drops/min', 'no-result: 3 drops/min'],
    ['give 500 mL sodium chloride 0.9% over 4 h by vein\n  claim predicted sodium 3 mmol/L', 'no-result: 3 mmol/L'],
    ['give 500 mL mannitol 20% over 4 h by vein\n  claim plasma 3 mL', 'no-result: 3 mL'],
    ['give 500 mL water over 4 h by mouth\n  claim plasma 3 mL', 'no-result: 3 mL'],
    ['give 500 mL sodium chloride 0.9% over 4 h by vein\n  claim volume 3 mL/kg', 'missing-patient-value: 3 mL/kg'],
    ['give dextrose 5% at 80 mL/h by vein\n  claim glucose rate 3 mg/kg/min', 'missing-patient-value: 3 mg/kg/min'],
    [
      'give 500 mL sodium chloride 0.9% over 4 h by vein\n  claim free water for the patient 3 mL',
      'missing-patient-value: 3 mL',
    ],
    [
      `${ADULT}give 500 mL mannitol 20% over 4 h by vein to adult\n  claim predicted sodium 3 mmol/L`,
      'no-result: 3 mmol/L',
    ],
    [
      `${ADULT}give 1 L sodium chloride 0.9% over 400 h by vein to adult\n  claim predicted sodium 3 mmol/L`,
      'no-result: 3 mmol/L',
    ],
    [
      `${ADULT}  urine 3 L/h sodium 10 mmol/L\ngive 1 L sodium chloride 0.9% over 24 h by vein to adult\n  claim predicted sodium 3 mmol/L`,
      'no-result: 3 mmol/L',
    ],
    [
      `${ADULT.replace('  sex male\n', '')}give 1 L sodium chloride 0.9% over 24 h by vein to adult\n  claim predicted sodium 3 mmol/L`,
      'missing-patient-value: 3 mmol/L',
    ],
  ])('%s', (block, fault) => {
    expect(faultsIn(block)).toEqual([fault]);
  });

  it('is told where a line only asks', () => {
    expect(shown('give 500 mL sodium chloride 0.9% by vein\n  show rate, sodium')).toEqual(['rate –, sodium 77 mmol']);
    expect(shown('give dextrose 5% at 80 mL/h by vein\n  show glucose rate')).toEqual(['weight is not written']);
  });
});

describe('the predicted sodium of a patient', () => {
  const water = 30; // 0.6 × 50 kg
  const mixed = (litres: number, cations: number) => (120 * water + cations) / (water + litres);

  it('counts all the orders for him, and at the end of one, of the others what is in by then', () => {
    const block = `${ADULT}give 1 L sodium chloride 3% over 10 h by central vein to adult as strong
  claim predicted sodium 0 mmol/L
give 1 L dextrose 5% over 20 h by vein to adult as weak
  claim predicted sodium 0 mmol/L
give 1 L sodium chloride 3% over 10 h by central vein as of-nobody
claim adult predicted sodium 0 mmol/L`;
    const [strong, weak, all] = claimed(block).map(({ found }) => found);
    const sodium = (30 / 58.443) * 1000;
    expect(strong).toBeCloseTo(mixed(1.5, sodium), 2);
    expect(weak).toBeCloseTo(mixed(2, sodium), 2);
    expect(all).toBeCloseTo(mixed(2, sodium), 2);
  });

  it('and the losses of which sodium or potassium is told', () => {
    const block = `${ADULT}  urine 100 mL/h sodium 50 mmol/L potassium 50 mmol/L
  loss skin 1 L/d
  show predicted sodium
  claim predicted sodium 0 mmol/L`;
    expect(claimed(block)[0]?.found).toBeCloseTo(mixed(-2.4, -240), 4);
  });

  it('ends at an hour that no decimal number ends at', () => {
    const block = `${ADULT}give 1 L sodium chloride 0.9% at 150 mL/h by vein to adult\n  claim predicted sodium 121 mmol/L`;
    expect(claimed(block)[0]).toMatchObject({ holds: true });
  });

  it('of an order without an end is that of its first day, beginning at whatever hour', () => {
    const block = `${ADULT}give dextrose 5% at 100 mL/h by vein from 0.5 h to adult\n  claim predicted sodium 0 mmol/L
give 1 L sodium chloride 0.9% over 40 h by vein to adult`;
    expect(claimed(block)[0]?.found).toBeCloseTo(mixed(2.4 + 24.5 / 40, (24.5 / 40) * (9 / 58.443) * 1000), 2);
  });

  it('leaves out what does not reach the body', () => {
    const block = `${ADULT}give 2 L sodium chloride 3% over 10 h by bladder irrigation to adult\n  claim predicted sodium 120 mmol/L`;
    expect(claimed(block)[0]?.holds).toBe(true);
  });

  describe('is withheld without a finding where an order may be missing', () => {
    const ask = `${ADULT}  claim predicted sodium 999 mmol/L\n  show predicted sodium\n`;

    it.each([
      ['an order for him that cannot be bound', 'give 1 L sodum chloride 3% over 10 h by vein to adult'],
      ['an order that cannot be read', 'give 1 L sodium chloride 3% nonsense to adult'],
      ['an order for nobody that is known', 'give 1 L sodium chloride 3% over 10 h by vein to adlt'],
    ])('%s', (_, order) => {
      expect(faultsIn(ask + order)).toHaveLength(1);
      expect(claimed(ask + order)).toEqual([]);
      expect(shown(ask + order)).toEqual(['–']);
    });

    it('but not by one for another patient, or in a block of its own', () => {
      const other = `${ask}patient child\n  weight 20 kg\ngive 1 L sodum chloride 3% over 10 h by vein to child`;
      expect(shown(other)).toEqual([expect.stringMatching(/^120 mmol\/L/)]);
      const apart = `${fenced(ask)}\n${fenced('give 1 L sodium chloride 3% nonsense to adult', { info: 'alone' })}`;
      expect(workNote(readNote(apart)).claims).toHaveLength(1);
      expect(worked(ask).claims).toHaveLength(1);
    });
  });

  it('of two thousand orders takes a moment', () => {
    const orders = Array.from(
      { length: 2_000 },
      (_, index) =>
        `give 1 mL sodium chloride 0.9% over 1 h by vein to adult from ${index % 300} h\n  show predicted sodium`,
    );
    const before = performance.now();
    worked(ADULT + orders.join('\n'));
    expect(performance.now() - before).toBeLessThan(15_000);
  });
});
