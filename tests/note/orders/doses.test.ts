/** Amounts and rates that count something in the fluid, turned into volumes of it. */
import { describe, expect, it } from 'vitest';
import { claimed, faultsIn, figures, orderIn, shown } from './bedside.ts';

const MAGNESIUM = 'mixture mag\n  10 g magnesium sulfate\n  sodium chloride 0.9% to 100 mL\n';
const DRUG = 'substance norepinephrine\nmixture nor\n  4 mg norepinephrine in 250 mL sodium chloride 0.9%\n';
const INSULIN = 'substance insulin\nmixture drip\n  100 mL sodium chloride 0.9%\n  100 units insulin\n';
const ADULT = 'patient adult\n  weight 50 kg\n';

describe('a rate of a solute', () => {
  it('1 g/h of 10 % magnesium sulfate is 10 mL/h', () => {
    const order = orderIn(`${MAGNESIUM}give mag at 1 g/h of magnesium sulfate by vein`);
    expect(figures(order)).toEqual({ volume: 100, rate: 10, duration: 10 });
    expect(order.dose?.of).toBe('magnesium sulfate');
    expect(order.dose?.perMl.toNumber()).toBeCloseTo(0.1, 10);
  });

  it('0.1 mcg/kg/min at 50 kg of 16 mcg/mL is 18.75 mL/h (0.1 × 50 × 60 / 16)', () => {
    const block = `${ADULT}${DRUG}give nor at 0.1 mcg/kg/min of norepinephrine by central vein to adult
  claim rate 18.75 mL/h
  claim norepinephrine 0.1 mcg/kg/min
  claim norepinephrine 300 mcg/h`;
    expect(claimed(block).map(({ holds }) => holds)).toEqual([true, true, true]);
    expect(faultsIn(block)).toEqual([]);
  });

  it('in units: 2 units/h of 1 unit/mL; of several solutes it is the only one in units', () => {
    const block = `${INSULIN}give drip at 2 units/h by vein\n  show rate, insulin`;
    expect(figures(orderIn(block))).toEqual({ volume: 100, rate: 2, duration: 50 });
    // What is counted in units has no mass: it is told in units, and never as 0 mg.
    expect(shown(block)).toEqual(['rate 2 mL/h, insulin 100 units']);
    expect(shown(`${INSULIN}show drip insulin`)).toEqual(['1 units/mL']);
  });

  it('of an ion, in mmol and mEq, or in the mass of the element when that is said', () => {
    // 10 g of the heptahydrate (246.47 g/mol) are 40.57 mmol in 100 mL.
    const rate = (dose: string) => figures(orderIn(`${MAGNESIUM}give mag at ${dose} by vein`)).rate;
    expect(rate('4.057 mmol/h of magnesium')).toBeCloseTo(10, 2);
    expect(rate('8.115 mEq/h of magnesium')).toBeCloseTo(10, 2);
    // 40.57 mmol × 24.305 g/mol = 0.986 g of the element.
    expect(rate('98.6 mg/h of elemental magnesium')).toBeCloseTo(10, 1);
  });
});

describe('an amount of a solute', () => {
  it('20 mmol of potassium chloride 2 mmol/mL are 10 mL', () => {
    const order = orderIn('give 20 mmol potassium chloride 2 mmol/mL over 2 h by central vein');
    expect(figures(order)).toEqual({ volume: 10, rate: 5, duration: 2 });
  });

  it('of the solute that it stands before, whatever that is dissolved in', () => {
    const order = orderIn('give 20 mmol potassium chloride 40 mmol/L in sodium chloride 0.9% over 4 h by vein');
    expect(figures(order)).toEqual({ volume: 500, rate: 125, duration: 4 });
    expect(order.dose?.of).toBe('potassium chloride');
    expect(
      figures(orderIn('give 5 mmol/h potassium chloride 40 mmol/L in sodium chloride 0.9% for 4 h by vein')).rate,
    ).toBe(125);
  });

  it('per kg of a patient', () => {
    const block = `${ADULT}give 0.4 mmol/kg potassium chloride 40 mmol/L over 4 h by vein to adult\n  claim potassium 20 mmol`;
    expect(figures(orderIn(block))).toEqual({ volume: 500, rate: 125, duration: 4 });
    expect(claimed(block)[0]?.holds).toBe(true);
  });

  it('0.5 g/kg dextrose of 10 % at 20 kg is 100 mL', () => {
    const child = 'patient child\n  weight 20 kg\n';
    expect(figures(orderIn(`${child}give 0.5 g/kg dextrose 10% over 10 min by vein to child`)).volume).toBe(100);
  });

  it('several times', () => {
    const order = orderIn('give 3 x 20 mmol potassium chloride 40 mmol/L over 2 h every 8 h by vein');
    expect(figures(order)).toEqual({ volume: 1500, rate: 250, duration: 2 });
  });

  it('amount and rate may both be doses', () => {
    const order = orderIn(`${MAGNESIUM}give 4 g mag at 1 g/h of magnesium sulfate by vein`);
    expect(figures(order)).toEqual({ volume: 40, rate: 10, duration: 4 });
  });
});

describe('a dose that cannot stand', () => {
  it.each([
    // Two solutes and none named.
    [`${MAGNESIUM}give mag at 1 g/h by vein`, 'dose-names-no-solute: 1 g/h'],
    [`${MAGNESIUM}give mag at 1 g/h of calcium chloride by vein`, 'dose-names-no-solute: calcium chloride'],
    [`${MAGNESIUM}give mag at 4 mmol/h of calcium by vein`, 'dose-names-no-solute: calcium'],
    [`${MAGNESIUM}give mag at 4 mmol/h of osmolarity by vein`, 'dose-names-no-solute: osmolarity'],
    [`${MAGNESIUM}give mag at 4 mmol/h of nothing known by vein`, 'dose-names-no-solute: nothing known'],
    ["give lactated Ringer's at 4 mmol/h by vein", 'dose-names-no-solute: 4 mmol/h'],
    ['give water at 4 mmol/h by mouth', 'dose-names-no-solute: 4 mmol/h'],
    // The mass of an ion must say elemental.
    [`${MAGNESIUM}give mag at 1 g/h of magnesium by vein`, 'wrong-dimension: 1 g/h'],
    // Units and masses are never converted into each other, and without a molar mass there are no mmol.
    [`${INSULIN}give drip at 2 mg/h of insulin by vein`, 'wrong-dimension: 2 mg/h'],
    [`${DRUG}give nor at 2 units/h of norepinephrine by vein`, 'wrong-dimension: 2 units/h'],
    [`${DRUG}give nor at 2 mmol/h of norepinephrine by vein`, 'wrong-dimension: 2 mmol/h'],
    // A strength is no amount, and an amount no rate.
    ['give sodium chloride 0.9% at 2 mL/mL by vein', 'wrong-dimension: 2 mL/mL'],
    ['give sodium chloride 0.9% at 3 mOsm/h by vein', 'wrong-dimension: 3 mOsm/h'],
  ])('%s', (block, fault) => {
    expect(faultsIn(block)[0]).toBe(fault);
    expect(orderIn(block).state).toBe('incomplete');
    expect(orderIn(block).dose).toBeNull();
  });

  it('says what would fit', async () => {
    const { findings, fenced } = await import('../../annotated.ts');
    const message = (block: string) => findings(fenced(block)).find(({ code }) => code === 'wrong-dimension')?.message;
    expect(message(`${MAGNESIUM}give mag at 1 g/h of magnesium by vein`)).toMatch(
      /mass per time.*mmol\/h or.*elemental/,
    );
    expect(message(`${INSULIN}give drip at 2 mg/h of insulin by vein`)).toMatch(/units\/h/);
  });
});
