/** The lines of a patient: units, figures that cannot be or are not met, lines that are none. */
import { describe, expect, it } from 'vitest';
import { decimal, findIon } from '../../../src/engine/index.ts';
import { claimed, faultsIn, shown, worked } from './bedside.ts';

function factsOf(lines: string) {
  const [patient] = worked(`patient adult\n${lines}`).patients;
  if (!patient) throw new Error('no patient');
  return patient.facts;
}

const number = (value: { toNumber(): number } | null) => value && Number(value.toNumber().toPrecision(6));

describe('the figures of a patient', () => {
  it.each([
    ['weight 68 kg', 'weight', 68],
    ['weight 3200 g', 'weight', 3.2],
    ['birth weight 980 g', 'birthWeight', 0.98],
    ['height 1.75 m', 'height', 175],
    ['height 175 cm', 'height', 175],
    ['length 52 cm', 'height', 52],
    ['age 54 y', 'age', 54],
    ['age 18 mo', 'age', 1.5],
    ['age 18 months', 'age', 1.5],
    // 365.25 days and 8766 h in a year.
    ['age 10 d', 'age', 0.0273785],
    ['age 0 d', 'age', 0],
    ['gestation 32 weeks', 'gestation', 32],
    ['body water 23 L', 'bodyWater', 23],
    ['total body water 23 L', 'bodyWater', 23],
    ['burn 35 % of body surface', 'burn', 35],
    ['base deficit 8 mEq/L', 'baseDeficit', 8],
  ] as const)('%s', (line, fact, expected) => {
    expect(faultsIn(`patient adult\n  ${line}`)).toEqual([]);
    expect(number(factsOf(`  ${line}`)[fact])).toBe(expected);
  });

  it.each([
    ['serum sodium 134 mmol/L', 'sodium', 134],
    ['serum sodium 134 mEq/L', 'sodium', 134],
    ['serum potassium 3.1 mmol/L', 'potassium', 3.1],
    ['serum bicarbonate 10 mEq/L', 'bicarbonate', 10],
    ['serum glucose 5.5 mmol/L', 'glucose', 5.5],
    // Divided by 18.0156 and 2.8014: molar mass of glucose, and of the two atoms of nitrogen of a urea.
    ['serum glucose 900 mg/dL', 'glucose', 49.9567],
    ['serum urea nitrogen 14 mg/dL', 'urea', 4.9975],
    ['serum urea 30 mg/dL', 'urea', 4.99534],
    ['serum urea 5 mmol/L', 'urea', 5],
  ] as const)('%s', (line, name, expected) => {
    expect(faultsIn(`patient adult\n  ${line}`)).toEqual([]);
    expect(number(factsOf(`  ${line}`).serum[name])).toBe(expected);
  });

  it('in words', () => {
    const facts = factsOf('  sex female\n  onset chronic\n  osmotic demyelination risk high');
    expect(facts).toMatchObject({ sex: 'female', onset: 'chronic', demyelinationRisk: true });
    expect(factsOf('  Sex Male\n  Onset Acute')).toMatchObject({ sex: 'male', onset: 'acute' });
    expect(factsOf('  onset unknown')).toMatchObject({ onset: 'unknown', sex: null, demyelinationRisk: false });
  });

  it('what is not written stays unknown', () => {
    const { serum, losses, demyelinationRisk, ...figures } = factsOf('  weight 70 kg');
    const known = Object.entries({ ...figures, ...serum }).filter(([, value]) => value !== null);
    expect(known).toEqual([['weight', decimal(70)]]);
    expect([losses.length, demyelinationRisk]).toEqual([0, false]);
  });
});

describe('a line that cannot stand withholds the patient', () => {
  it.each([
    ['weight 70 mL', 'wrong-dimension: 70 mL'],
    ['weight 70 kg/h', 'wrong-dimension: 70 kg/h'],
    ['weight 0 kg', 'fluid: 0 kg'],
    ['height 3 kg', 'wrong-dimension: 3 kg'],
    ['age 3 kg', 'wrong-dimension: 3 kg'],
    ['serum sodium 3.1 g/L', 'wrong-dimension: 3.1 g/L'],
    ['serum sodium 140', 'syntax: 140'],
    ['serum urea nitrogen 5 mmol/L', 'wrong-dimension: 5 mmol/L'],
    ['burn 35 %', 'wrong-dimension: 35 %'],
    ['weight 70 kg ± 5 kg', 'syntax: ± 5 kg'],
    ['urine 50 mL/h ± 5 mL/h', 'syntax: ± 5 mL/h'],
    ['urine 50 mL/h sodium 60 mmol/L ± 5 %', 'syntax: ± 5 %'],
    ['hair 5 cm', 'misplaced: hair 5 cm'],
    ['sex unknown', 'misplaced: sex unknown'],
    ['onset yesterday', 'misplaced: onset yesterday'],
    ['osmotic demyelination risk low', 'misplaced: osmotic demyelination risk low'],
    ['weight 70 kg height 175 cm', 'misplaced: weight 70 kg height 175 cm'],
    ['loss 60 mL/h', 'misplaced: loss 60 mL/h'],
    ['gives sodium 2', 'misplaced: gives sodium 2'],
    ['10 mL potassium chloride 2 mmol/mL', 'misplaced: 10 mL potassium chloride 2 mmol/mL'],
    ['loss stomach 60 mg/h', 'wrong-dimension: 60 mg/h'],
    ['loss stomach 60 mL/h fooium 5 mmol/L', 'unknown-name: fooium'],
    ['loss stomach 60 mL/h sodium 5 mmol', 'wrong-dimension: 5 mmol'],
    ['loss stomach 60 mL/h phosphate 5 mEq/L', 'wrong-dimension: 5 mEq/L'],
    ['loss stomach 60 mL/h sodium 5 mmol/L sodium 6 mmol/L', 'syntax: sodium'],
  ])('%s', (line, fault) => {
    const block = `patient adult\n  ${line}\n  show body water`;
    expect(faultsIn(block).map((one) => (fault === 'syntax: 140' ? one.split(':')[0] : one))).toEqual([
      fault === 'syntax: 140' ? 'syntax' : fault,
    ]);
    expect(worked(block).patients[0]).toMatchObject({ state: 'incomplete', facts: { weight: null } });
    expect(shown(block)).toEqual([]);
  });

  it.each([
    ['weight 70 kg\n  weight 71 kg', 'syntax: weight'],
    ['height 170 cm\n  length 170 cm', 'syntax: length'],
    ['serum urea 5 mmol/L\n  serum urea nitrogen 14 mg/dL', 'syntax: serum urea nitrogen'],
    ['sex male\n  sex male', 'syntax: sex male'],
    ['urine 50 mL/h\n  urine 60 mL/h', 'syntax: urine'],
    ['loss stomach 50 mL/h\n  loss stomach 60 mL/h', 'syntax: loss stomach'],
  ])('the same detail twice: %s', (lines, fault) => {
    expect(faultsIn(`patient adult\n  ${lines}`)).toEqual([fault]);
  });

  it('a figure below zero is refused as it is read', () => {
    expect(faultsIn('patient adult\n  serum sodium -134 mmol/L')).toHaveLength(1);
    expect(worked('patient adult\n  serum sodium -134 mmol/L').patients[0]?.state).toBe('incomplete');
  });
});

describe('a figure beyond what is met is said, and worked with', () => {
  it.each([
    ['weight 700 kg', '700 kg'],
    ['weight 100 g', '100 g'],
    ['height 17 m', '17 m'],
    ['age 130 y', '130 y'],
    ['serum sodium 13 mmol/L', '13 mmol/L'],
    ['serum potassium 40 mmol/L', '40 mmol/L'],
    ['serum glucose 4000 mg/dL', '4000 mg/dL'],
    ['gestation 60 wk', '60 wk'],
    ['burn 120 % of body surface', '120 % of body surface'],
    ['urine 6 L/h', '6 L/h'],
  ])('%s', (line, place) => {
    const block = `patient adult\n  ${line}`;
    expect(faultsIn(block)).toEqual([`unusual-patient-value: ${place}`]);
    expect(worked(block).patients[0]?.state).toBe('complete');
  });
});

describe('losses', () => {
  const [sodium, potassium, calcium] = ['sodium', 'potassium', 'calcium'].map((name) => findIon(name)!);

  it('have a rate and the ions told', () => {
    const { losses } = factsOf(
      '  urine 1.2 L/d\n  loss stomach 60 mL/h sodium 60 mmol/L potassium 10 mEq/L calcium 2 mEq/L',
    );
    expect(losses.map(({ name, rate }) => [name, rate.toNumber()])).toEqual([
      ['urine', 50],
      ['stomach', 60],
    ]);
    const { perLitre } = losses[1]!;
    expect([sodium, potassium, calcium].map((ion) => perLitre.get(ion!)?.toNumber())).toEqual([60, 10, 1]);
    expect(losses[0]!.perLitre.size).toBe(0);
  });

  it('per kg wait for the weight, wherever it is written', () => {
    expect(factsOf('  urine 2 mL/kg/h\n  weight 70 kg').losses[0]?.rate.toNumber()).toBe(140);
    expect(faultsIn('patient adult\n  urine 2 mL/kg/h')).toEqual(['missing-patient-value: 2 mL/kg/h']);
    expect(faultsIn('patient adult\n  weight 70 mL\n  urine 2 mL/kg/h')).toEqual(['wrong-dimension: 70 mL']);
  });

  it('may be nothing', () => {
    expect(factsOf('  urine 0 mL/h').losses[0]?.rate.toNumber()).toBe(0);
  });
});

describe('results of a patient', () => {
  it('name what is not written', () => {
    const block = (of: string, lines = '') => `patient adult\n${lines}  claim ${of}`;
    expect(faultsIn(block('body water 40 L'))).toEqual(['missing-patient-value: 40 L']);
    expect(shown('patient adult\n  show body water')).toEqual(['weight is not written']);
    expect(shown('patient adult\n  weight 70 kg\n  show body water')).toEqual(['age is not written']);
    expect(shown('patient adult\n  weight 70 kg\n  age 40 y\n  show body water')).toEqual(['sex is not written']);
    expect(shown('patient adult\n  body water 34 L\n  show free water deficit')).toEqual([
      'serum sodium is not written',
    ]);
    expect(shown('patient adult\n  weight 70 kg\n  show bicarbonate deficit')).toEqual([
      'serum bicarbonate is not written',
    ]);
    expect(shown('patient adult\n  serum sodium 140 mmol/L\n  show serum osmolality, corrected sodium')).toEqual([
      'serum osmolality serum glucose is not written, corrected sodium serum glucose is not written',
    ]);
    expect(shown('patient adult\n  show maintenance rate')).toEqual(['weight is not written']);
  });

  it.each([
    ['body water 40 kg', 'wrong-dimension: 40 kg'],
    ['serum osmolality 290 mmol/L', 'wrong-dimension: 290 mmol/L'],
    ['maintenance rate 70 mL', 'wrong-dimension: 70 mL'],
    ['corrected sodium 140 mmol', 'wrong-dimension: 140 mmol'],
    ['predicted sodium 140 mmol', 'wrong-dimension: 140 mmol'],
    ['body water 40', 'syntax: 40'],
    ['volume 3 mL', 'not-of-this: volume'],
    ['rate 3 mL/h', 'not-of-this: rate'],
    ['tonicity in the body isotonic', 'not-of-this: tonicity in the body'],
  ])('are asked in their own measure: %s', (claim, fault) => {
    const found = faultsIn(`patient adult\n  claim ${claim}`);
    expect(found.map((one) => (fault.startsWith('syntax') ? one.split(': ')[1] : one))).toEqual([
      fault.startsWith('syntax') ? '40' : fault,
    ]);
  });

  it('of sodium and bicarbonate may be asked in mEq', () => {
    const block = `patient adult
  weight 70 kg
  serum sodium 130 mmol/L
  serum glucose 33.6 mmol/L
  serum bicarbonate 10 mmol/L
  claim corrected sodium 138 mEq/L
  claim bicarbonate deficit 490 mEq`;
    expect(claimed(block).map(({ holds }) => holds)).toEqual([true, true]);
  });

  it('the usual maintenance of a child is not told of a newborn infant', () => {
    const block = 'patient neo\n  weight 3 kg\n  age 2 d\n  claim maintenance rate 12 mL/h';
    expect(faultsIn(block)).toEqual(['no-result: 12 mL/h']);
    expect(faultsIn(block.replace('2 d', '28 d'))).toEqual([]);
  });
});
