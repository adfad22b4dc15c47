import { check } from './check.ts';
import { rewritten } from './wording.ts';

export const numberRunIntoUnit = check({
  code: 'number-run-into-unit',
  severity: 'hint',
  title: 'A number run into its unit',
  faults: ['number-run-into-unit'],
  words: ({ found, safe }) => ({
    read: `‘${found}’ was read as ${safe}.`,
    why: 'Without a space the first letter of a unit has been read as a figure, an m as one zero or two, and the amount is then ten or a hundred times too large.',
    mend: `Write ${safe}.`,
    source:
      'ISMP, list of error-prone abbreviations, symbols and dose designations, 2006; SI brochure, 9th edition, 2019',
  }),
  fixes: ({ safe }) => rewritten(safe),
  page: `A space stands between a number and its unit: 10 mEq and 100 mL. Without it the number is read all the same. \`0.9%\`
is how strengths are printed on bags, and is accepted beside \`0.9 %\`.`,
  wrong: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  «20mEq» potassium chloride' },
    { block: 'mixture bag\n  3x«50mL» sodium bicarbonate 8.4%' },
  ],
  right: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  20 mEq potassium chloride' }],
});
