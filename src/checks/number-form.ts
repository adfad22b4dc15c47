import { check } from './check.ts';
import { chosen, either } from './wording.ts';

const FORMS = {
  comma: 'A comma in a number means thousands to one reader and a decimal to another.',
  space: 'A space in a number may stand for thousands, or part two numbers.',
  exponent: 'A power of ten is easily misread in an order.',
  points: 'A number has one decimal point.',
  glued: 'Digits run into letters that are no unit.',
  range: 'A range is no amount: one number is worked with.',
  'zero-denominator': 'A fraction over zero has no value.',
} as const;

export const numberForm = check({
  code: 'number-form',
  severity: 'error',
  title: 'A number that can be read two ways',
  faults: ['number-form'],
  words: ({ form, found, readings }) => ({
    read: `‘${found}’ was read.`,
    why: FORMS[form],
    mend:
      readings.length > 0
        ? `Write ${either(readings, true)}, ${readings.length > 1 ? 'whichever' : 'if that'} is meant.`
        : 'Write digits with at most one decimal point.',
  }),
  fixes: ({ readings }) => chosen(readings),
  page: `Numbers are written with digits and one decimal point, without separators and without powers of ten. \`1,000\` and
\`1,5\` are never guessed: a wrong guess would be off by a factor of a thousand. Both readings are offered.`,
  wrong: [
    { block: 'mixture bag\n  «1,000 mL» sodium chloride 0.9%' },
    { block: 'mixture bag\n  «1e3 mL» sodium chloride 0.9%' },
  ],
  right: [{ block: 'mixture bag\n  1000 mL sodium chloride 0.9%' }],
});
