/** To whom, by which route, when and under which name an order stands; what a fault in it withholds, and what not. */
import { describe, expect, it } from 'vitest';
import { routeNames } from '../../../src/engine/index.ts';
import { readNote } from '../../../src/markdown/index.ts';
import { workNote } from '../../../src/note/index.ts';
import { fenced } from '../../annotated.ts';
import { faultsIn, orderIn, shown, worked } from './bedside.ts';

const SALINE = 'sodium chloride 0.9%';
const states = (block: string) => worked(block).orders.map(({ name, state }) => `${name}: ${state}`);
const hours = (block: string, name: string) =>
  orderIn(block, name).runs.map(({ start, end }) => [start.toNumber(), end.toNumber()]);

describe('routes', () => {
  it('every name of the closed list is read, however it is cased', () => {
    for (const name of routeNames()) {
      const written = name.toUpperCase();
      expect(orderIn(`give 1 L ${SALINE} over 8 h by ${written}`).route, written).not.toBeNull();
    }
    expect(routeNames().length).toBeGreaterThan(50);
  });

  it('‘via’ is the same, and none written is said', () => {
    expect(orderIn(`give 1 L ${SALINE} over 8 h via central-line`).route?.id).toBe('central-vein');
    const order = orderIn(`give 1 L ${SALINE} over 8 h`);
    expect(order.route).toBeNull();
    expect(order.assumptions.map(({ kind }) => kind)).toContain('no-route');
  });

  it('an unknown one is a fault and never taken for another', () => {
    const block = `give 1 L ${SALINE} over 8 h by peripheral vien`;
    expect(faultsIn(block)).toEqual(['unknown-route: peripheral vien']);
    expect(orderIn(block)).toMatchObject({ state: 'incomplete', route: null });
  });
});

describe('when', () => {
  it('from a time, or after another order, wherever that is written', () => {
    const block = `give 1 L ${SALINE} over 8 h by vein after next as third
give 500 mL ${SALINE} over 2 h by vein from 3 h as first
give 1 L ${SALINE} over 4 h by vein after first as next`;
    expect(faultsIn(block)).toEqual([]);
    expect(hours(block, 'first')).toEqual([[3, 5]]);
    expect(hours(block, 'next')).toEqual([[5, 9]]);
    expect(hours(block, 'third')).toEqual([[9, 17]]);
  });

  it('after the last of several, and after what is given at once', () => {
    const block = `give 3 x 100 mL ${SALINE} over 1 h every 4 h by vein as one-dose
give 250 mL ${SALINE} by vein after one-dose as then
give 250 mL ${SALINE} over 1 h by vein after then as last`;
    expect(hours(block, 'then')).toEqual([[9, 9]]);
    expect(hours(block, 'last')).toEqual([[9, 10]]);
  });

  it.each([
    [
      `give ${SALINE} at 80 mL/h by vein as first\ngive 1 L ${SALINE} over 8 h by vein after first`,
      'after-endless: first',
    ],
    [`give 1 L ${SALINE} over 8 h by vein after frist`, 'unknown-name: frist'],
    [`mixture bag\n  1 L ${SALINE}\ngive 1 L ${SALINE} over 8 h by vein after bag`, 'wrong-kind: bag'],
    [`patient adult\n  weight 70 kg\ngive 1 L ${SALINE} over 8 h by vein after adult`, 'wrong-kind: adult'],
    [`give 1 L ${SALINE} over 8 h by vein after self as self`, 'circular-mixture: self'],
  ])('%s', (block, fault) => {
    expect(faultsIn(block)).toEqual([fault]);
    expect(worked(block).orders.at(-1)?.state).toBe('incomplete');
  });

  it('a circle is reported once; what leads into it is withheld without a finding', () => {
    const block = `give 1 L ${SALINE} over 8 h by vein after next as first
give 1 L ${SALINE} over 8 h by vein after first as next
give 1 L ${SALINE} over 8 h by vein after first as third
give 1 L ${SALINE} over 8 h by vein as apart`;
    expect(faultsIn(block)).toEqual(['circular-mixture: first']);
    expect(states(block)).toEqual(['first: incomplete', 'next: incomplete', 'third: incomplete', 'apart: complete']);
  });

  it('a chain of four thousand, last first, is followed', () => {
    const length = 4_000;
    const chain = Array.from(
      { length },
      (_, index) => `give 10 mL ${SALINE} over 1 h after order${index + 1} as order${index}`,
    );
    const block = `${chain.join('\n')}\ngive 10 mL ${SALINE} over 1 h as order${length}`;
    expect(hours(block, 'order0')).toEqual([[length, length + 1]]);
  });
});

describe('to whom', () => {
  const both = 'patient twin-a\n  weight 2 kg\npatient twin-b\n  weight 4 kg\n';

  it('each order has its own patient', () => {
    const block = `${both}give 10 mL/kg ${SALINE} over 1 h by vein to twin-a as first
give 10 mL/kg ${SALINE} over 1 h by vein to TWIN-B as next`;
    expect(orderIn(block, 'first').contents?.volume.toNumber()).toBe(20);
    expect(orderIn(block, 'next').contents?.volume.toNumber()).toBe(40);
  });

  it.each([
    [`${both}give 1 L ${SALINE} over 8 h by vein to twin-c`, 'unknown-name: twin-c'],
    [`mixture bag\n  1 L ${SALINE}\ngive 1 L ${SALINE} over 8 h by vein to bag`, 'wrong-kind: bag'],
    [`give 1 L ${SALINE} over 8 h by vein as first\ngive 1 L ${SALINE} over 8 h by vein to first`, 'wrong-kind: first'],
  ])('%s', (block, fault) => {
    expect(faultsIn(block)).toEqual([fault]);
    expect(worked(block).orders.at(-1)?.state).toBe('incomplete');
  });

  it('a name given twice is bound to nothing', () => {
    const block = `patient adult\n  weight 70 kg\npatient adult\n  weight 80 kg\ngive 1 mL/kg ${SALINE} by vein to adult`;
    expect(faultsIn(block)).toEqual(['duplicate-name: adult']);
    expect(states(block)).toEqual([': incomplete']);
  });

  it('a block of its own has patients of its own', () => {
    const shared = fenced('patient adult\n  weight 70 kg');
    const alone = fenced(`give 1 mL/kg ${SALINE} by vein to adult`, { info: 'alone' });
    const own = fenced(`patient adult\n  weight 50 kg\ngive 1 mL/kg ${SALINE} by vein to adult`, { info: 'alone' });
    const { orders, faults } = workNote(readNote(`${shared}\n${alone}\n${own}`));
    expect(orders.map(({ state }) => state)).toEqual(['incomplete', 'complete']);
    expect(orders[1]?.contents?.volume.toNumber()).toBe(50);
    expect(faults.map(({ fault }) => fault.code)).toEqual(['unknown-name']);
  });
});

describe('fluids and names of another kind', () => {
  it.each([
    [`patient adult\n  weight 70 kg\ngive 1 L adult over 8 h by vein`, 'wrong-kind: adult'],
    [`give 1 L ${SALINE} over 8 h by vein as drip\ngive 1 L drip over 8 h by vein`, 'wrong-kind: drip'],
    [`give 1 L ${SALINE} over 8 h by vein as drip\nmixture bag\n  1 L drip`, 'wrong-kind: drip'],
    [`give 1 L ${SALINE} over 8 h by vein as drip\ncompare drip, ${SALINE} by sodium`, 'wrong-kind: drip'],
    [
      `give 1 L ${SALINE} over 8 h by vein as drip\ngive 1 L ${SALINE} over 8 h by vein as drip`,
      'duplicate-name: drip',
    ],
    [`give 1 L ${SALINE} over 8 h by vein as sodium`, 'name-taken: sodium'],
  ])('%s', (block, fault) => {
    expect(faultsIn(block)).toEqual([fault]);
  });
});

describe('a fault withholds its order and what rests on it, and only that', () => {
  it('of the fluid', () => {
    const block = `mixture bad
  1 L sodum chloride 0.9%
mixture good
  1 L ${SALINE}
give bad at 60 mL/h by vein as first
  claim volume 3 mL
  show rate
give 1 L ${SALINE} over 8 h by vein after first as next
give good at 60 mL/h by vein as third
show next rate
claim next rate 3 mL/h`;
    expect(faultsIn(block)).toEqual(['unknown-name: sodum chloride']);
    expect(states(block)).toEqual(['first: incomplete', 'next: incomplete', 'third: complete']);
    expect(shown(block)).toEqual([]);
    const [first, next] = worked(block).orders;
    expect(next?.cause).toEqual(first?.cause);
  });

  it('of the patient', () => {
    const block = `patient bad
  weight 70 mL
  show body water
patient good
  weight 70 kg
give 1 L ${SALINE} over 8 h by vein to bad as first
give 1 L ${SALINE} over 8 h by vein to good as next`;
    expect(faultsIn(block)).toEqual(['wrong-dimension: 70 mL']);
    expect(states(block)).toEqual(['first: incomplete', 'next: complete']);
    expect(shown(block)).toEqual([]);
  });

  it('of a name that is taken, once', () => {
    const block = `give 1 L ${SALINE} over 8 h by vein as sodium\ngive 1 L ${SALINE} over 8 h by vein after sodium as next`;
    expect(faultsIn(block)).toEqual(['name-taken: sodium']);
    expect(states(block)).toEqual(['sodium: incomplete', 'next: incomplete']);
  });

  it('of a line that an order does not take', () => {
    expect(faultsIn(`give 1 L ${SALINE} over 8 h by vein\n  10 mL potassium chloride 2 mmol/mL`)).toEqual([
      'misplaced: 10 mL potassium chloride 2 mmol/mL',
    ]);
    expect(orderIn(`give 1 L ${SALINE} over 8 h by vein\n  weight 70 kg`).state).toBe('incomplete');
  });

  it('an order that could not be read takes those that follow it with it', () => {
    const block = `give 1 L ${SALINE} nonsense 8 as first\ngive 1 L ${SALINE} over 8 h by vein after first as next`;
    expect(faultsIn(block)).toHaveLength(1);
    const { orders, faults } = worked(block);
    expect(orders.map(({ state }) => state)).toEqual(['incomplete']);
    expect(orders[0]?.cause?.start).toBeLessThanOrEqual(faults[0]?.at.start ?? 0);
  });
});
