/** How much, how fast and how long: any two fix the third, and what each is told in. */
import { describe, expect, it } from 'vitest';
import { faultsIn, figures, orderIn, shown, worked } from './bedside.ts';

const SALINE = 'sodium chloride 0.9%';
const GASTRIC = 'mixture gastric\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL\n';
const ADULT = 'patient adult\n  weight 80 kg\n';

describe('amount, rate and time', () => {
  it.each([
    [`give 500 mL ${SALINE} over 4 h`, { volume: 500, rate: 125, duration: 4 }],
    [`give 500 mL ${SALINE} for 4 h`, { volume: 500, rate: 125, duration: 4 }],
    [`give 1 L ${SALINE} at 125 mL/h`, { volume: 1000, rate: 125, duration: 8 }],
    [`give ${SALINE} at 125 mL/h for 8 h`, { volume: 1000, rate: 125, duration: 8 }],
    [`give ${SALINE} 125 mL/h for 480 min`, { volume: 1000, rate: 125, duration: 8 }],
    [`give ${SALINE} at 2 mL/min over ½ h`, { volume: 60, rate: 120, duration: 0.5 }],
    [`give 2.4 L ${SALINE} over 1 d`, { volume: 2400, rate: 100, duration: 24 }],
  ])('%s', (order, expected) => {
    expect(faultsIn(order)).toEqual([]);
    expect(figures(orderIn(order))).toEqual(expected);
  });

  it('an amount alone is given at once, and a rate alone runs until it is stopped, looked at for a day', () => {
    const bolus = orderIn(`give 500 mL ${SALINE} by vein`);
    expect(figures(bolus)).toEqual({ volume: 500, rate: null, duration: null });
    expect(bolus.assumptions.map(({ kind }) => kind)).toEqual(['at-once']);
    const drip = orderIn(`give ${SALINE} at 80 mL/h by vein`);
    expect(figures(drip)).toEqual({ volume: 1920, rate: 80, duration: null });
    expect(drip.endless).toBe(true);
    expect(drip.assumptions.map(({ kind }) => kind)).toEqual(['endless']);
  });

  it('neither an amount nor a rate is a fault, and so is a rate that is repeated without saying how long', () => {
    expect(faultsIn(`give ${SALINE} by vein`)).toEqual([`order-without-amount: ${SALINE}`]);
    expect(faultsIn(`give ${SALINE} over 4 h by vein`)).toEqual([`order-without-amount: ${SALINE}`]);
    expect(faultsIn(`give ${SALINE} at 60 mL/h every 6 h by vein`)).toEqual([`order-without-amount: ${SALINE}`]);
  });

  // 42 mL/h for 24 h is 1008 mL, 167 mL/h for 6 h 1002 mL: a rate is rounded to what a pump takes.
  it.each([
    [`give 1 L ${SALINE} at 42 mL/h over 24 h`, true],
    [`give 1 L ${SALINE} at 41.7 mL/h over 24 h`, true],
    [`give 1 L ${SALINE} at 167 mL/h for 6 h`, true],
    [`give 100 mL ${SALINE} at 200 mL/h over 30 min`, true],
    // 16.67 h: written as hours it rounds to 17, within 5 % of it.
    [`give 1 L ${SALINE} at 60 mL/h over 17 h`, true],
    [`give 1 L ${SALINE} at 60 mL/h over 16 h`, false],
    // An hour is not anything up to an hour and a half.
    [`give 140 mL ${SALINE} at 100 mL/h over 1 h`, false],
    [`give 1 L ${SALINE} at 100 mL/h over 8 h`, false],
    [`give 1 L ${SALINE} at 45 mL/h over 24 h`, false],
    [`give 1 L ${SALINE} at 1000 mL/h over 8 h`, false],
  ])('three agree when they do by rounding: %s', (order, agree) => {
    expect(orderIn(order).state).toBe(agree ? 'complete' : 'incomplete');
    expect(faultsIn(order).map((fault) => fault.split(':')[0])).toEqual(agree ? [] : ['rate-mismatch']);
  });

  it('a mismatch names all three, in mL, mL/h and h', () => {
    const { faults } = worked(`give 1 L ${SALINE} at 100 mL/h over 480 min by vein`);
    const fault = faults.map((located) => located.fault).find(({ code }) => code === 'rate-mismatch');
    if (fault?.code !== 'rate-mismatch') throw new Error('no mismatch');
    expect([fault.amount, fault.rate, fault.duration].map(Number)).toEqual([1000, 100, 8]);
  });

  it.each([
    [`give ${SALINE} at 0 mL/h`, 'fluid: 0 mL/h'],
    [`give ${SALINE} at 10 mL/h for 0 h`, 'fluid: 0 h'],
    [`give 0 mL ${SALINE} over 1 h`, 'fluid: 0 mL'],
    [`give 100 mL ${SALINE} over 1 h every 0 h`, 'fluid: 0 h'],
    [`give 100 mL ${SALINE} over 5 mL`, 'wrong-dimension: 5 mL'],
    [`give 100 mL ${SALINE} from 5 mL`, 'wrong-dimension: 5 mL'],
    [`give 100 mL ${SALINE} every 5 mL`, 'wrong-dimension: 5 mL'],
    [`give 5 cm ${SALINE}`, 'wrong-dimension: 5 cm'],
    [`give ${SALINE} at 5 mL/kg/m2`, 'wrong-dimension: 5 mL/kg/m2'],
    [`give 9 g sodium chloride by mouth`, 'volume-basis-missing: 9 g'],
    [`give sodium chloride at 5 g/h by vein`, 'volume-basis-missing: 5 g/h'],
    [`give 500 mL ± 5 % ${SALINE} over 4 h`, 'syntax: ± 5 %'],
    [`give 500 mL sodium chloride 0.9% ± 1 % over 4 h`, 'syntax: ± 1 %'],
    [`give 500 mL ${SALINE} over 4 h ± 1 h`, 'syntax: ± 1 h'],
  ])('cannot stand: %s', (order, fault) => {
    expect(faultsIn(order)).toEqual([fault]);
    expect(orderIn(order).state).toBe('incomplete');
    expect(orderIn(order).contents).toBeNull();
  });
});

describe('whole recipes and containers', () => {
  it.each([
    ['give gastric at 60 mL/h by vein', { volume: 1010, rate: 60, duration: 16.83 }, 1],
    ['give gastric over 8 h by vein', { volume: 1010, rate: 126.25, duration: 8 }, 1],
    ['give gastric by vein', { volume: 1010, rate: null, duration: null }, 1],
    ['give gastric at 60 mL/h for 24 h by vein', { volume: 1440, rate: 60, duration: 24 }, 1.43],
    ['give 500 mL gastric over 4 h by vein', { volume: 500, rate: 125, duration: 4 }, 0.5],
    ['give 2 x gastric over 16 h by vein', { volume: 2020, rate: 126.25, duration: 16 }, 2],
  ])('%s', (order, expected, bags) => {
    const block = GASTRIC + order;
    expect(faultsIn(block)).toEqual([]);
    expect(figures(orderIn(block))).toEqual(expected);
    expect(orderIn(block).bags?.toDecimalPlaces(2).toNumber()).toBe(bags);
  });

  it('a stock is given by its container', () => {
    const block = `stock ward
  sodium 154 mmol/L
  chloride 154 mmol/L
  container 500 mL
give 2 x ward over 8 h by vein`;
    expect(figures(orderIn(block))).toEqual({ volume: 1000, rate: 125, duration: 8 });
    expect(orderIn(block).bags?.toNumber()).toBe(2);
  });

  it('a count without an amount, of a fluid without a recipe, is a fault', () => {
    expect(faultsIn(`give 2 x ${SALINE} over 4 h`)).toEqual(['fluid: 2 x']);
    expect(faultsIn(`give 0 x 100 mL ${SALINE}`)).toEqual(['fluid: 0 x']);
    expect(faultsIn(`give ? x 100 mL ${SALINE}`)).toEqual(['misplaced: ? x']);
  });
});

describe('several', () => {
  it('together: the time and the rate are those of all of them', () => {
    const order = orderIn(`give 3 x 500 mL ${SALINE} over 12 h by vein`);
    expect(figures(order)).toEqual({ volume: 1500, rate: 125, duration: 12 });
    expect(order.runs).toHaveLength(1);
    expect(order.bags?.toNumber()).toBe(3);
    expect(order.assumptions.map(({ kind }) => kind)).toEqual(['together']);
  });

  it('every so often: each has its own time', () => {
    const order = orderIn('give 3 x 100 mL sodium chloride 3% over 10 min every 20 min by vein');
    expect(figures(order, 3)).toEqual({ volume: 300, rate: 600, duration: 0.167 });
    expect(order.runs.map(({ start, end }) => [start, end].map((hour) => hour.toDecimalPlaces(3).toNumber()))).toEqual([
      [0, 0.167],
      [0.333, 0.5],
      [0.667, 0.833],
    ]);
  });

  it('one behind the other without a gap', () => {
    expect(orderIn('give 3 x 100 mL sodium chloride 3% over 10 min every 10 min by vein').state).toBe('complete');
    expect(orderIn('give 3 x 100 mL sodium chloride 3% over 20 min every 1/3 h by vein').state).toBe('complete');
  });

  it('every so often without a count goes on: a day of it is looked at', () => {
    const order = orderIn(`give 100 mL ${SALINE} over 30 min every 6 h by vein`);
    expect(order.endless).toBe(true);
    expect(order.runs).toHaveLength(4);
    expect(figures(order)).toEqual({ volume: 400, rate: 200, duration: 0.5 });
    expect(orderIn(`give 100 mL ${SALINE} every 7 h by vein`).runs).toHaveLength(4);
  });

  it('is held to whole numbers, to runs that do not overlap, and to 500', () => {
    expect(faultsIn(`give 1.5 x 100 mL ${SALINE} every 2 h`)).toEqual(['fluid: 1.5 x']);
    const order = `give 100 mL ${SALINE} over 2 h every 1 h`;
    expect(faultsIn(order)).toEqual([`runs-overlap: ${order}`]);
    expect(faultsIn(`give 501 x 10 mL ${SALINE} every 1 h`)).toEqual(['over-limit: 501 x']);
    expect(faultsIn(`give 500 x 10 mL ${SALINE} every 1 h`)).toEqual([]);
    expect(faultsIn(`give 10 mL ${SALINE} every 1 s`).map((fault) => fault.split(':')[0])).toEqual(['over-limit']);
  });
});

describe('drops', () => {
  it('go through a set of so many in a millilitre', () => {
    const block = `give 1 L ${SALINE} at 60 drops/min by vein through a set of 20 drops/mL
  show rate, duration, drop rate`;
    expect(figures(orderIn(block))).toEqual({ volume: 1000, rate: 180, duration: 5.56 });
    expect(shown(block)).toEqual(['rate 180 mL/h, duration 5.56 h, drop rate 60 drops/min']);
  });

  it('are told of a rate in mL/h as well', () => {
    expect(shown(`give ${SALINE} at 100 mL/h by vein through 15 drops/mL set\n  show drop rate`)).toEqual([
      '25 drops/min',
    ]);
  });

  it('need the set, and the set its drops', () => {
    expect(faultsIn(`give ${SALINE} at 20 drops/min by vein`)).toEqual(['drops-without-set: 20 drops/min']);
    expect(faultsIn(`give ${SALINE} at 20 drops/min by vein through a set of 20 mg/mL`)).toEqual([
      'wrong-dimension: 20 mg/mL',
    ]);
    expect(faultsIn(`give ${SALINE} at 20 drops/min by vein through a set of 0 drops/mL`)).toEqual([
      'fluid: 0 drops/mL',
    ]);
  });
});

describe('by weight of the patient', () => {
  it('times the weight, in either place', () => {
    expect(figures(orderIn(`${ADULT}give 10 mL/kg ${SALINE} over 1 h by vein to adult`)).volume).toBe(800);
    expect(figures(orderIn(`${ADULT}give ${SALINE} at 1.5 mL/kg/h by vein to adult`)).rate).toBe(120);
  });

  it('whose weight must be written', () => {
    const block = `patient adult\n  age 40 y\ngive 10 mL/kg ${SALINE} over 1 h by vein to adult`;
    expect(faultsIn(block)).toEqual(['missing-patient-value: 10 mL/kg']);
    expect(faultsIn(`give 10 mL/kg ${SALINE} over 1 h by vein`)).toEqual(['missing-patient-value: 10 mL/kg']);
  });

  it('and a fault of the patient is not told twice', () => {
    expect(faultsIn(`patient adult\n  weight 70 mL\ngive 1 mL/kg ${SALINE} by vein to adult`)).toEqual([
      'wrong-dimension: 70 mL',
    ]);
    expect(faultsIn(`give 1 mL/kg ${SALINE} by vein to adlt`)).toEqual(['unknown-name: adlt']);
  });
});
