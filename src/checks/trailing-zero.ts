import { check } from './check.ts';
import { rewritten } from './wording.ts';

export const trailingZero = check({
  code: 'trailing-zero',
  severity: 'hint',
  title: 'A zero at the end of a decimal',
  faults: ['trailing-zero'],
  words: ({ found, safe }) => ({
    read: `‘${found}’ was read as ${safe}.`,
    why: 'When the point is overlooked the amount is ten times too large.',
    mend: `Write ${safe}.`,
    source:
      'Joint Commission, official ‘Do Not Use’ list, 2009; ISMP, list of error-prone abbreviations, symbols and dose designations, 2006',
  }),
  fixes: ({ safe }) => rewritten(safe),
  page: `In a step or an order a number ends with a digit that says something: 1 L and 0.5 mg, not 1.0 L and 0.50 mg. The number
is read all the same. Where the last zero says how exactly a value is meant it stays: claims, targets, labels of stocks
and laboratory values are exempt.`,
  wrong: [
    { block: 'mixture bag\n  «1.0» L sodium chloride 0.9%' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  «20.0» mEq potassium chloride' },
  ],
  right: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 154.0 mmol/L' },
    { block: 'mixture bag\n  10 L sodium chloride 0.9%' },
  ],
});
