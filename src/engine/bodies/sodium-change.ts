/** How fast serum sodium changes along a course. */
import { atMost, type Decimal } from '../decimal.ts';
import type { CoursePoint } from './sodium-course.ts';

/** A change of the mass balance between two hours of a course. */
export interface Change {
  /** h. */
  readonly from: Decimal;
  /** h. */
  readonly to: Decimal;
  /** mmol/L, above zero for a rise and for a fall. */
  readonly by: Decimal;
}

/** The largest change up to each point of a course from one at most `within` hours before it. */
interface Changes {
  readonly rise: Change | null;
  readonly fall: Change | null;
}

/** The largest rise and the largest fall between two points at most `within` hours apart; null where there is none. */
export function steepest(course: readonly CoursePoint[], within: Decimal): Changes {
  let rise: Change | null = null;
  let fall: Change | null = null;
  for (const upTo of changes(course, within)) {
    rise = larger(rise, upTo.rise);
    fall = larger(fall, upTo.fall);
  }
  return { rise, fall };
}

/**
 * The hour of the first point by which sodium has risen by more than `limit` mmol/L within that many hours, or has fallen by
 * more where `limit` is below zero; null where it never does.
 */
export function crossing(course: readonly CoursePoint[], limit: Decimal, within: Decimal): Decimal | null {
  for (const { rise, fall } of changes(course, within)) {
    const change = limit.lt(0) ? fall : rise;
    if (change && !atMost(change.by, limit.abs())) return change.to;
  }
  return null;
}

function larger(best: Change | null, next: Change | null): Change | null {
  return next && (!best || next.by.gt(best.by)) ? next : best;
}

/** One pass: of the points still in the window, only those are kept that may yet be its lowest or its highest. */
function* changes(course: readonly CoursePoint[], within: Decimal): Generator<Changes> {
  const low: CoursePoint[] = [];
  const high: CoursePoint[] = [];
  for (const point of course) {
    for (const kept of [low, high]) {
      while (kept[0] && !atMost(point.hour.minus(kept[0].hour), within)) kept.shift();
    }
    yield {
      rise: low[0] ? changed(low[0], point, point.massBalance.minus(low[0].massBalance)) : null,
      fall: high[0] ? changed(high[0], point, high[0].massBalance.minus(point.massBalance)) : null,
    };
    while (low.at(-1)?.massBalance.gt(point.massBalance)) low.pop();
    while (high.at(-1)?.massBalance.lt(point.massBalance)) high.pop();
    low.push(point);
    high.push(point);
  }
}

function changed({ hour: from }: CoursePoint, { hour: to }: CoursePoint, by: Decimal): Change | null {
  return by.gt(0) ? { from, to, by } : null;
}
