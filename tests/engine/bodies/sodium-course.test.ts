import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CoursePoint,
  crossing,
  type Decimal,
  decimal,
  type Gain,
  nearlyEqual,
  predictedSodium,
  type SteadyLoss,
  sodiumCourse,
  steepest,
} from '../../../src/engine/index.ts';
import { runs } from '../../runs.ts';
import { near } from './helpers.ts';

const [ZERO, DAY] = [decimal(0), decimal(24)];

function gain(start: string, end: string, volume: string, cations: string): Gain {
  return { start: decimal(start), end: decimal(end), volume: decimal(volume), cations: decimal(cations) };
}

function course(gains: readonly Gain[], losses: readonly SteadyLoss[], hours: string | number, water = '30') {
  return sodiumCourse({ bodyWater: decimal(water), sodium: decimal(110), gains, losses, hours: decimal(hours) });
}

const hoursOf = (points: readonly CoursePoint[]) => points.map(({ hour }) => hour.toNumber());
const sodiumOf = (points: readonly CoursePoint[]) => points.map(({ massBalance }) => massBalance);
const pointsOf = (...points: readonly (readonly [number, number])[]): readonly CoursePoint[] =>
  points.map(([hour, sodium]) => ({ hour: decimal(hour), massBalance: decimal(sodium), regression: decimal(sodium) }));

describe('the course of sodium', () => {
  it('has every whole hour, every start and end within, and the last hour', () => {
    expect(hoursOf(course([gain('0.5', '2.25', '100', '50'), gain('2', '9', '1', '1')], [], '4.5'))).toEqual([
      0, 0.5, 1, 2, 2.25, 3, 4, 4.5,
    ]);
    expect(hoursOf(course([], [], 0))).toEqual([0]);
    expect(hoursOf(course([], [], -3))).toEqual([0]);
    expect(course([], [], 1e9)).toHaveLength(337);
  });

  it('counts what is given at once from its hour on, and keeps hour 0 without it', () => {
    // Three times 100 mL of 3 % saline, 51.3 mmol each.
    const points = course(
      ['0', '1', '1.5'].map((hour) => gain(hour, hour, '100', '51.3')),
      [],
      2,
    );
    expect(hoursOf(points)).toEqual([0, 0, 1, 1.5, 2]);
    const expected = [0, 1, 2, 3, 3].map((times) =>
      decimal(3300)
        .plus(51.3 * times)
        .div(30 + 0.1 * times),
    );
    for (const [index, sodium] of sodiumOf(points).entries()) near(sodium, expected[index]!.toString(), '1e-12');
    near(steepest(points, DAY).rise!.by, '4', '0.05');
  });

  it('takes six times ten minutes for an hour', () => {
    const sixth = decimal(1).div(6);
    const starts = Array.from({ length: 6 }, (_, index) => sixth.times(index));
    const gains = starts.map((start) => ({ ...gain('0', '0', '10', '5'), start, end: start.plus(sixth) }));
    const points = course(gains, [], 2);
    expect(hoursOf(points).filter((hour) => hour > 0.9 && hour < 1.1)).toEqual([1]);
    expect(points.at(-1)!.massBalance.eq(points.at(-2)!.massBalance)).toBe(true);
  });

  it('runs evenly between start and end, and leaves out what ran before', () => {
    const whole = sodiumOf(course([gain('-2', '2', '1000', '154')], [], 4));
    const rest = sodiumOf(course([gain('0', '2', '500', '77')], [], 4));
    for (const [index, sodium] of whole.entries()) expect(nearlyEqual(sodium, rest[index]!)).toBe(true);
    expect(sodiumOf(course([gain('-2', '-1', '1000', '513')], [], 3)).every((sodium) => sodium.eq(110))).toBe(true);
  });

  it('rises by dilute urine, and ends where no water is left', () => {
    // 60 kg, 36 L: three boluses of 3 % and 3 L of urine without salts: 36 L × 110 + 153.9 mmol in 33.3 L.
    const boluses = ['0', '0', '0'].map((hour) => gain(hour, hour, '100', '51.3'));
    const urine: SteadyLoss = { rate: decimal(125), cations: ZERO };
    near(course(boluses, [urine], 24, '36').at(-1)!.massBalance, '123.54', '0.01');
    expect(hoursOf(course([], [{ rate: decimal(1000), cations: ZERO }], 48, '10')).at(-1)).toBe(9);
    expect(course([], [], 3, '0')).toEqual([]);
  });

  const hour = fc.integer({ min: 0, max: 60 * 48 }).map((minutes) => decimal(minutes).div(60));
  const amount = fc.integer({ min: 0, max: 2000 }).map((value) => decimal(value));
  const anyGain = fc
    .tuple(hour, hour, amount, amount)
    .map(([start, length, volume, cations]): Gain => ({ start, end: start.plus(length), volume, cations }));
  const someGains = fc.array(anyGain, { maxLength: 12 });
  const someLosses = fc.array(
    fc.record({
      rate: fc.integer({ min: 0, max: 50 }).map(decimal),
      cations: fc.integer({ min: 0, max: 90 }).map(decimal),
    }),
    { maxLength: 2 },
  );

  it('ends where one prediction of the totals ends', () => {
    fc.assert(
      fc.property(someGains, someLosses, (gains, losses) => {
        const hours = decimal(97);
        const total = (each: readonly Decimal[]) => each.reduce((sum, value) => sum.plus(value), ZERO);
        const litres = losses.map(({ rate }) => rate.times(hours).div(1000));
        const expected = predictedSodium({
          bodyWater: decimal(30),
          sodium: decimal(110),
          gained: {
            volume: total(gains.map(({ volume }) => volume)).div(1000),
            cations: total(gains.map((g) => g.cations)),
          },
          lost: { volume: total(litres), cations: total(losses.map(({ cations }, i) => cations.times(litres[i]!))) },
        })!;
        const end = course(gains, losses, 97).at(-1)!;
        expect(end.hour.eq(hours)).toBe(true);
        expect(nearlyEqual(end.massBalance, expected.massBalance)).toBe(true);
        expect(nearlyEqual(end.regression, expected.regression)).toBe(true);
      }),
    );
  });

  it('does not depend on the order of what is given', () => {
    fc.assert(
      fc.property(someGains, someLosses, (gains, losses) => {
        const there = course(gains, losses, 48);
        const back = course([...gains].reverse(), [...losses].reverse(), 48);
        expect(hoursOf(back)).toEqual(hoursOf(there));
        for (const [index, sodium] of sodiumOf(there).entries()) {
          expect(nearlyEqual(sodium, sodiumOf(back)[index]!)).toBe(true);
        }
      }),
      runs(30),
    );
  });

  it('ascends, and never fails', () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => decimal(value));
    const wild = fc.record({ start: any, end: any, volume: any, cations: any });
    const loss = fc.record({ rate: any, cations: any });
    const near0 = fc.integer({ min: -5, max: 40 }).map((value) => decimal(value));
    const request = fc.tuple(any, any, fc.array(fc.oneof(wild, anyGain), { maxLength: 4 }), fc.array(loss), near0);
    fc.assert(
      fc.property(request, ([bodyWater, sodium, gains, losses, hours]) => {
        const points = sodiumCourse({ bodyWater, sodium, gains, losses, hours });
        const ascending = hoursOf(points);
        expect(ascending).toEqual([...ascending].sort((a, b) => a - b));
        for (const { massBalance, regression } of points) {
          expect(massBalance.isFinite() && regression.isFinite()).toBe(true);
        }
        expect(() => [steepest(points, hours), crossing(points, sodium, hours)]).not.toThrow();
      }),
    );
  });
});

describe('the steepest change', () => {
  const points = pointsOf([0, 110], [0, 112], [6, 111], [12, 116], [30, 121], [36, 118]);

  it('is the largest between two points no further apart', () => {
    expect(steepest(points, DAY)).toEqual({
      rise: { from: decimal(6), to: decimal(30), by: decimal(10) },
      fall: { from: decimal(30), to: decimal(36), by: decimal(3) },
    });
    expect(steepest(points, decimal(1)).rise).toEqual({ from: ZERO, to: ZERO, by: decimal(2) });
    expect(steepest(points, decimal(1)).fall).toBeNull();
    expect(steepest([], DAY)).toEqual({ rise: null, fall: null });
  });

  it('crosses a limit at the first hour beyond it', () => {
    expect(crossing(points, decimal(5), DAY)).toEqual(decimal(12));
    expect(crossing(points, decimal(6), DAY)).toEqual(decimal(30));
    expect(crossing(points, decimal(10), DAY)).toBeNull();
    expect(crossing(points, decimal('-2.5'), DAY)).toEqual(decimal(36));
    expect(crossing(points, decimal(-3), DAY)).toBeNull();
  });

  it('is what a comparison of all pairs finds', () => {
    const walk = fc.array(fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 100, max: 160 })), {
      maxLength: 25,
    });
    fc.assert(
      fc.property(walk, fc.integer({ min: 0, max: 40 }), (steps, within) => {
        const hourAt = (index: number) => steps.slice(0, index + 1).reduce((sum, [apart]) => sum + apart, 0);
        const walked = steps.map(([, sodium], index) => [hourAt(index), sodium] as const);
        const pairs = walked.flatMap(([to, after], index) =>
          walked.slice(0, index).flatMap(([from, before]) => (to - from <= within ? [after - before] : [])),
        );
        const { rise, fall } = steepest(pointsOf(...walked), decimal(within));
        expect(rise?.by.toNumber() ?? 0).toBe(Math.max(0, ...pairs));
        expect(fall?.by.toNumber() ?? 0).toBe(Math.max(0, ...pairs.map((by) => 0 - by)));
      }),
    );
  });
});
