/** Serum sodium over hours, while fluids run in and water and salts leave. */
import { Decimal, decimal, ZERO } from '../decimal.ts';
import { type Flow, predictedSodium } from './serum-sodium.ts';

/** What is given evenly between two hours. */
export interface Gain {
  /** h after the sodium was measured. */
  readonly start: Decimal;
  /** h; equal to `start` where it is given at once. */
  readonly end: Decimal;
  /** mL. */
  readonly volume: Decimal;
  /** mmol of sodium and potassium. */
  readonly cations: Decimal;
}

/** What leaves from hour 0 on. */
export interface SteadyLoss {
  /** mL/h. */
  readonly rate: Decimal;
  /** mmol/L of sodium and potassium. */
  readonly cations: Decimal;
}

/** mmol/L at an hour, after what is given at once then. */
export interface CoursePoint {
  readonly hour: Decimal;
  readonly massBalance: Decimal;
  readonly regression: Decimal;
}

/** h; a course is carried no further. */
export const LONGEST_COURSE = decimal(336);
const ML_PER_LITRE = decimal(1000);
/** So that six times ten minutes end at one hour, however each was divided. */
const PLACES = 30;

/**
 * At every whole hour, at the start and the end of each gain, and at the last hour, from 0 to `hours` (14 days at most);
 * ascending. No hour comes twice, but for 0 where something is given at once then: first without it, then with it. Ends
 * early where no water would be left. Of a gain that began before hour 0 only the rest counts.
 */
export function sodiumCourse({
  bodyWater,
  sodium,
  gains,
  losses,
  hours,
}: {
  /** L. */
  readonly bodyWater: Decimal;
  /** mmol/L. */
  readonly sodium: Decimal;
  readonly gains: readonly Gain[];
  readonly losses: readonly SteadyLoss[];
  readonly hours: Decimal;
}): readonly CoursePoint[] {
  const last = at(Decimal.min(Decimal.max(hours, ZERO), LONGEST_COURSE));
  const counted = gains.flatMap(withinCourse);
  const gainedBy = gainedOverTime(counted);
  const perHour = lostPerHour(losses);
  const course: CoursePoint[] = [];
  const reach = (hour: Decimal, gained: Flow): boolean => {
    const lost = { volume: perHour.volume.times(hour), cations: perHour.cations.times(hour) };
    const predicted = predictedSodium({ bodyWater, sodium, gained, lost });
    if (predicted) course.push({ hour, ...predicted });
    return predicted !== null;
  };
  const atOnce = counted.some(({ start, end }) => start.isZero() && end.isZero());
  if (atOnce && !reach(ZERO, { volume: ZERO, cations: ZERO })) return course;
  for (const hour of hoursOf(counted, last)) {
    if (!reach(hour, gainedBy(hour))) break;
  }
  return course;
}

function at(hour: Decimal): Decimal {
  return hour.toDecimalPlaces(PLACES);
}

/** The part of a gain from hour 0 on. One that would end before it starts is taken as given at its start. */
function withinCourse(gain: Gain): readonly Gain[] {
  const start = at(gain.start);
  const end = Decimal.max(at(gain.end), start);
  if (!start.lt(0)) return [{ ...gain, start, end }];
  if (!end.gt(0)) return [];
  const rest = end.div(end.minus(start));
  return [{ start: ZERO, end, volume: gain.volume.times(rest), cations: gain.cations.times(rest) }];
}

function hoursOf(gains: readonly Gain[], last: Decimal): readonly Decimal[] {
  const whole = Array.from({ length: last.floor().toNumber() + 1 }, (_, hour) => decimal(hour));
  const turns = gains.flatMap(({ start, end }) => [start, end]).filter((hour) => hour.lt(last));
  const ascending = [...whole, ...turns, last].sort((a, b) => a.cmp(b));
  return ascending.filter((hour, index) => index === 0 || !hour.eq(ascending[index - 1]!));
}

/**
 * What has been gained by an hour; to be asked in ascending order. Running gains are kept as one sum of rates, and as what
 * these rates would have given before they began, so that a course takes time in proportion to its gains.
 */
function gainedOverTime(gains: readonly Gain[]): (hour: Decimal) => Flow {
  const starting = gains.filter(({ start, end }) => end.gt(start)).sort((a, b) => a.start.cmp(b.start));
  const ending = [...gains].sort((a, b) => a.end.cmp(b.end));
  let [started, ended] = [0, 0];
  let given: Flow = { volume: ZERO, cations: ZERO };
  let rate = given;
  let before = given;
  return (hour) => {
    for (; started < starting.length && starting[started]!.start.lte(hour); started += 1) {
      const gain = starting[started]!;
      rate = sum(rate, rateOf(gain));
      before = sum(before, scaled(rateOf(gain), gain.start));
    }
    for (; ended < ending.length && ending[ended]!.end.lte(hour); ended += 1) {
      const gain = ending[ended]!;
      given = sum(given, wholeOf(gain));
      if (!gain.end.gt(gain.start)) continue;
      rate = difference(rate, rateOf(gain));
      before = difference(before, scaled(rateOf(gain), gain.start));
    }
    return sum(given, difference(scaled(rate, hour), before));
  };
}

function wholeOf({ volume, cations }: Gain): Flow {
  return { volume: volume.div(ML_PER_LITRE), cations };
}

function rateOf(gain: Gain): Flow {
  const duration = gain.end.minus(gain.start);
  const { volume, cations } = wholeOf(gain);
  return { volume: volume.div(duration), cations: cations.div(duration) };
}

function lostPerHour(losses: readonly SteadyLoss[]): Flow {
  const each = losses.map(({ rate, cations }) => {
    const volume = rate.div(ML_PER_LITRE);
    return { volume, cations: volume.times(cations) };
  });
  return each.reduce(sum, { volume: ZERO, cations: ZERO });
}

function sum(a: Flow, b: Flow): Flow {
  return { volume: a.volume.plus(b.volume), cations: a.cations.plus(b.cations) };
}

function difference(a: Flow, b: Flow): Flow {
  return { volume: a.volume.minus(b.volume), cations: a.cations.minus(b.cations) };
}

function scaled({ volume, cations }: Flow, factor: Decimal): Flow {
  return { volume: volume.times(factor), cations: cations.times(factor) };
}
