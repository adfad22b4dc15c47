/** What something comes to at each combination of the tolerances that it rests on. */
import type { Contents } from '../engine/index.ts';
import { type Choices, type Combination, MOST_COMBINATIONS } from './choices.ts';
import type { Entity } from './model.ts';
import { type Desk, Reporter } from './reporter.ts';

/** `at` works it out once more, in silence. Empty where nothing varies, and where too much does, which is then said. */
export function extremesOf(
  { block, name, header }: Entity,
  choices: Choices,
  desk: Desk,
  at: (combination: Combination) => Contents | null,
): readonly Contents[] {
  const combinations = choices.combinations();
  if (combinations) return combinations.flatMap((combination) => at(combination) ?? []);
  new Reporter(block, desk).at(name?.span ?? header, { code: 'too-many-tolerances', limit: MOST_COMBINATIONS });
  return [];
}
