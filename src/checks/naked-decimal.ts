import { check } from './check.ts';
import { rewritten } from './wording.ts';

export const nakedDecimal = check({
  code: 'naked-decimal',
  severity: 'hint',
  title: 'A decimal point with nothing on one side',
  faults: ['naked-decimal'],
  words: ({ found, safe }) => ({
    read: `‘${found}’ was read as ${safe}.`,
    why: 'A point without a digit on both sides is easily overlooked, and the number is then ten times too large or more.',
    mend: `Write ${safe}.`,
    source:
      'Joint Commission, official ‘Do Not Use’ list, 2009; ISMP, list of error-prone abbreviations, symbols and dose designations, 2006; SI brochure, 9th edition, 2019',
  }),
  fixes: ({ safe }) => rewritten(safe),
  page: `A zero goes before a decimal point, and no point stands at the end: 0.9 and 5, not .9 and 5. — both are published
error-prone forms, since the point is lost in a copy or a hasty reading. The number is read all the same.`,
  wrong: [{ block: 'mixture bag\n  1 L sodium chloride «.9»%' }],
  right: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%' }],
});
