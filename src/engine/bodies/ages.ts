/** Groups of age that formulas and limits are told by. */
import { atMost, type Decimal, decimal } from '../decimal.ts';
import { BODIES } from '../reference.ts';
import type { AgeGroup } from './facts.ts';

const HOURS_PER_DAY = decimal(24);
/** A year of 365.25 days, as the units have it. */
const HOURS_PER_YEAR = decimal(8766);

const INFANT_FROM = decimal(BODIES.ages.neonate.value).times(HOURS_PER_DAY).div(HOURS_PER_YEAR);
const CHILD_FROM = decimal(BODIES.ages.infant.value);
const ADULT_FROM = decimal(BODIES.ages.child.value);

/** The group of an age in years; null where none is known, or where it lies before birth. */
export function ageGroup(age: Decimal | null): AgeGroup | null {
  if (!age || age.lt(0)) return null;
  if (atMost(ADULT_FROM, age)) return 'adult';
  if (atMost(CHILD_FROM, age)) return 'child';
  return atMost(INFANT_FROM, age) ? 'infant' : 'neonate';
}
