/** When an order's fluid runs. Hours from the start of the note's orders. */
import { type Contents, type Decimal, decimal, ONE, times, ZERO } from '../../engine/index.ts';
import type { Run } from '../order-model.ts';

/** An order that has no end is looked at for a day. */
export const DAY = decimal(24);
/** More stretches than anybody writes an order for. */
export const MOST_RUNS = 500;

export interface Pattern {
  readonly start: Decimal;
  /** Of one run; null: given at once. */
  readonly duration: Decimal | null;
  /** Hours between the starts of two runs; null for a single one. */
  readonly every: Decimal | null;
  /** How many; null: for as long as the day lasts. */
  readonly count: number | null;
  /** mL of one run. */
  readonly volume: Decimal;
}

/** The runs in time; null when there are more than can be meant. */
export function runsOf({ start, duration, every, count, volume }: Pattern, perMl: Contents): readonly Run[] | null {
  const contents = times(perMl, volume);
  const run = (from: Decimal): Run => ({ start: from, end: from.plus(duration ?? ZERO), contents });
  if (!every) return [run(start)];
  const runs = count ?? DAY.div(every).toDecimalPlaces(0, 0).toNumber();
  if (runs > MOST_RUNS) return null;
  return Array.from({ length: runs }, (_, index) => run(start.plus(every.times(index))));
}

/** When the last of it is in. */
export function endOf(runs: readonly Run[]): Decimal {
  return runs.reduce((latest, { end }) => (end.gt(latest) ? end : latest), ZERO);
}

/** Hours during which something runs, runs added up. */
export function runningTime(runs: readonly Run[]): Decimal {
  return runs.reduce((sum, { start, end }) => sum.plus(end.minus(start)), ZERO);
}

/** The part of a run that falls before an hour. */
export function shareBefore(hour: Decimal, { start, end }: Run): Decimal {
  if (start.gte(hour)) return ZERO;
  if (end.lte(hour) || end.eq(start)) return ONE;
  return hour.minus(start).div(end.minus(start));
}

/** The part of all runs, which bring the same each, that falls into the 24 h from the start of the first. */
export function firstDayShare(runs: readonly Run[]): Decimal {
  const [first] = runs;
  if (!first) return ZERO;
  const upTo = first.start.plus(DAY);
  return runs.reduce((sum, run) => sum.plus(shareBefore(upTo, run)), ZERO).div(runs.length);
}
