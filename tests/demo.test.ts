/** The demo lesson is what it shows: nothing to mend, every number true, every question and table answered. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readNote } from '../src/markdown/index.ts';
import { workNote } from '../src/note/index.ts';
import { formattingOf } from '../src/service/index.ts';
import { found } from './annotated.ts';

const lesson = readFileSync(new URL('../demo/lesson.md', import.meta.url), 'utf8');
const model = workNote(readNote(lesson));

it('has nothing to mend and is in the one form', () => {
  expect(found(lesson)).toEqual([]);
  expect(formattingOf(model)).toEqual([]);
});

it('has true numbers in its text', () => {
  expect(model.numbers.length).toBeGreaterThanOrEqual(3);
  expect(model.numbers.filter(({ stale }) => stale)).toEqual([]);
});

it('answers every question, and every row of what if', () => {
  expect(model.shows.filter(({ question }) => question !== null)).toHaveLength(lesson.match(/^ *ask "/gm)!.length);
  expect(model.whatIfs).toHaveLength(lesson.match(/^ *what if /gm)!.length);
  const answers = model.whatIfs.flatMap(({ rows }) => rows.flatMap((row) => row.answers));
  expect(answers.length).toBeGreaterThan(15);
  for (const answer of answers) expect(answer?.held ?? (answer?.answer.ok || null)).not.toBeNull();
});
