/** What holds of any order, whatever its figures. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearlyEqual, particleById } from '../../../src/engine/index.ts';
import type { WorkedOrder } from '../../../src/note/index.ts';
import { runs } from '../../runs.ts';
import { claimed, orderIn, worked } from './bedside.ts';

const volume = fc.integer({ min: 1, max: 3000 });
const hours = fc.integer({ min: 1, max: 48 });
const fluid = fc.constantFrom(
  'sodium chloride 0.9%',
  'sodium chloride 3%',
  'dextrose 5%',
  'potassium chloride 40 mmol/L in dextrose 5% in sodium chloride 0.45%',
  "lactated Ringer's",
);
const SODIUM = particleById('sodium')!;

const ADULT = 'patient adult\n  weight 50 kg\n  body water 30 L\n  serum sodium 120 mmol/L\n';

function product({ contents, rate, duration }: WorkedOrder): boolean {
  return nearlyEqual(rate!.times(duration!), contents!.volume);
}

describe('any order', () => {
  it('gives rate times time, whichever two are written', () => {
    fc.assert(
      fc.property(fluid, volume, hours, (what, mL, h) => {
        const orders = [
          `give ${mL} mL ${what} over ${h} h`,
          `give ${mL} mL ${what} at ${mL}/${h} mL/h`,
          `give ${what} at ${mL}/${h} mL/h for ${h} h`,
          `give ${mL} mL ${what} at ${mL}/${h} mL/h for ${h} h`,
        ].map((order) => orderIn(order));
        for (const order of orders) {
          expect(order.state).toBe('complete');
          expect(product(order)).toBe(true);
          expect(nearlyEqual(order.contents!.volume, orders[0]!.contents!.volume)).toBe(true);
          expect(nearlyEqual(order.duration!, orders[0]!.duration!)).toBe(true);
        }
      }),
      runs(100),
    );
  });

  it('of so many times as much brings so many times as much, and is no stronger', () => {
    fc.assert(
      fc.property(fluid, volume, fc.integer({ min: 2, max: 9 }), hours, (what, mL, times, h) => {
        const one = orderIn(`give ${mL} mL ${what} over ${h} h`);
        const more = orderIn(`give ${mL * times} mL ${what} over ${h} h`);
        for (const [particle, amount] of one.contents!.particles) {
          expect(nearlyEqual(more.contents!.particles.get(particle)!, amount.times(times))).toBe(true);
          expect(nearlyEqual(more.perMl!.particles.get(particle)!, one.perMl!.particles.get(particle)!)).toBe(true);
        }
        expect(nearlyEqual(more.rate!, one.rate!.times(times))).toBe(true);
      }),
      runs(60),
    );
  });

  it('in so many parts every so often brings as much as all together', () => {
    fc.assert(
      fc.property(fluid, volume, fc.integer({ min: 1, max: 20 }), hours, (what, mL, count, every) => {
        const apart = orderIn(`give ${count} x ${mL} mL ${what} over 1 h every ${every} h`);
        const together = orderIn(`give ${count} x ${mL} mL ${what} over ${count * every} h`);
        expect(apart.runs).toHaveLength(count);
        expect(apart.contents!.volume.eq(together.contents!.volume)).toBe(true);
        const brought = apart.runs.reduce((sum, run) => sum + (run.contents.particles.get(SODIUM)?.toNumber() ?? 0), 0);
        expect(brought).toBeCloseTo(together.contents!.particles.get(SODIUM)?.toNumber() ?? 0, 6);
      }),
      runs(60),
    );
  });

  it('split in two, one after the other, ends at the same serum sodium at the same hour', () => {
    fc.assert(
      fc.property(fluid, volume, hours, fc.integer({ min: 1, max: 9 }), (what, mL, h, tenths) => {
        const whole = `${ADULT}give ${mL} mL ${what} over ${h} h to adult\n  claim predicted sodium 0 mmol/L\n  claim duration 0 h`;
        const split = `${ADULT}give ${mL * tenths}/10 mL ${what} over ${h * tenths}/10 h to adult as part-one
give ${mL * (10 - tenths)}/10 mL ${what} over ${h * (10 - tenths)}/10 h to adult after part-one as part-two
  claim predicted sodium 0 mmol/L`;
        const [sodium] = claimed(whole);
        const [splitSodium] = claimed(split);
        expect(splitSodium!.found).toBeCloseTo(sodium!.found, 9);
        const [first, then] = worked(split).orders;
        const volumes = first!.contents!.volume.plus(then!.contents!.volume);
        expect(nearlyEqual(volumes, orderIn(whole).contents!.volume)).toBe(true);
        expect(nearlyEqual(then!.runs[0]!.end, orderIn(whole).runs[0]!.end)).toBe(true);
      }),
      runs(60),
    );
  });

  it('comes out the same wherever it is written', () => {
    const lines = [
      ADULT,
      'give 500 mL sodium chloride 3% over 4 h to adult as strong\n',
      'give 1 L dextrose 5% over 8 h after strong to adult as weak\n',
      'give sodium chloride 0.9% at 80 mL/h from 2 h to adult as drip\n',
      'claim weak predicted sodium 0 mmol/L\n',
      'mixture bag\n  1 L sodium chloride 0.9%\n  20 mmol potassium chloride\n',
      'give bag over 10 h to adult after weak as last\n',
    ];
    const found = (order: readonly string[]) => {
      const block = order.join('');
      const { orders } = worked(block);
      const each = orders
        .toSorted((a, b) => a.name.localeCompare(b.name))
        .map(({ name, state, runs }) => `${name} ${state} ${runs.map(({ start, end }) => `${start}-${end}`)}`);
      return [...each, claimed(block)[0]?.found.toFixed(9)];
    };
    const expected = found(lines);
    fc.assert(
      fc.property(fc.shuffledSubarray(lines, { minLength: lines.length }), (order) => {
        expect(found(order)).toEqual(expected);
      }),
      runs(60),
    );
  });

  it('times the clauses in any order is one order', () => {
    const clauses = ['over 8 h', 'by central vein', 'to adult', 'from 2 h', 'every 12 h', 'monitored', 'as drip'];
    fc.assert(
      fc.property(fc.shuffledSubarray(clauses, { minLength: clauses.length }), (order) => {
        const found = orderIn(`${ADULT}give 2 x 500 mL sodium chloride 0.9% ${order.join(' ')}`);
        expect(found).toMatchObject({ state: 'complete', name: 'drip', monitored: true });
        expect(found.route?.id).toBe('central-vein');
        expect(found.runs.map(({ start, end }) => [start.toNumber(), end.toNumber()])).toEqual([
          [2, 10],
          [14, 22],
        ]);
      }),
      runs(60),
    );
  });
});
