/** Numbers against limits. */
import { type AgeGroup, atMost, type Decimal, decimal, inUnit, type Limit, unit } from '../../engine/index.ts';
import type { Held } from '../order-faults.ts';
import type { OrderScene } from '../orders/scene.ts';
import { ageGroup } from './scene.ts';

/**
 * How far labels round (worked out here): potassium chloride 0.3 % is printed as 40 mmol/L and holds 40.2.
 */
const ROUNDING = decimal('1.01');

/** What a number has to do to a limit to be reported; `beyond` and `short of` by more than labels round. */
export type Passing = 'above' | 'beyond' | 'at least' | 'below' | 'short of';

/** One number that may pass a limit, for patients of these ages. */
export interface Candidate {
  readonly limit: string;
  /** In `unit`; null where it cannot be worked out, such as per kg without a weight. */
  readonly value: Decimal | null;
  readonly unit: string;
  /** Every age where it is left out. */
  readonly ages?: readonly AgeGroup[] | undefined;
}

export function limitOf({ limits }: OrderScene, id: string): Limit {
  return limits.get(id)!;
}

/** Per kg; null without a weight. */
export function perKg(value: Decimal, weight: Decimal | null): Decimal | null {
  return weight && value.div(weight);
}

/** The number and the limit it passes, or null. */
export function held(candidate: Candidate, passing: Passing, scene: OrderScene): Held | null {
  const limit = limitOf(scene, candidate.limit);
  const found = candidate.value && inUnit({ value: candidate.value, unit: unit(candidate.unit) }, limit.unit);
  return found && passes(found, passing, limit) ? { found, limit, unsaid: [] } : null;
}

function passes(found: Decimal, passing: Passing, { value }: Limit): boolean {
  switch (passing) {
    case 'above':
      return !atMost(found, value);
    case 'beyond':
      return !atMost(found, value.times(ROUNDING));
    case 'at least':
      return atMost(value, found);
    case 'below':
      return !atMost(value, found);
    case 'short of':
      return !atMost(value, found.times(ROUNDING));
  }
}

/**
 * The limit for the patient's age that is passed by most. Without an age those of every age are tried, and a limit that is not
 * everybody's says that the age is not written.
 */
export function heldForAge(candidates: readonly Candidate[], passing: Passing, scene: OrderScene): Held | null {
  const age = ageGroup(scene.patient);
  let most: { readonly held: Held; readonly by: Decimal } | null = null;
  for (const candidate of candidates) {
    if (age && candidate.ages && !candidate.ages.includes(age)) continue;
    const passed = held(candidate, passing, scene);
    if (!passed) continue;
    const by = passed.found.div(passed.limit.value);
    if (most && !by.gt(most.by)) continue;
    most = { held: !age && candidate.ages ? { ...passed, unsaid: ['age'] } : passed, by };
  }
  return most?.held ?? null;
}
