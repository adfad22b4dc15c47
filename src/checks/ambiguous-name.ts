import { check } from './check.ts';
import { chosen, either } from './wording.ts';

export const ambiguousName = check({
  code: 'ambiguous-name',
  severity: 'warning',
  title: 'A name with two readings',
  faults: ['ambiguous-name'],
  words: ({ found, readings }) => ({
    read: `‘${found}’ was read.`,
    why: `It can mean ${either(readings)}, and they are not the same.`,
    mend: 'Write the one that is meant; until then nothing is worked out from it.',
  }),
  fixes: ({ readings }) => chosen(readings),
  page: `Some names are read in two ways: \`0.45 NS\` is 0.45 % sodium chloride to most, and 0.45 times normal saline
(0.405 %) to some; a mass of sodium acetate is the anhydrous salt or the trihydrate, which weighs 1.66 times as much per
mmol; \`MSO4\` and \`MS\` are morphine sulfate to some and magnesium sulfate to others. Neither is chosen silently, and what
depends on it is withheld.`,
  wrong: [
    { block: 'mixture bag\n  1 L «0.45 NS»' },
    { block: 'mixture bag\n  3.68 g «sodium acetate»\n  water to 1 L' },
  ],
  right: [
    { block: 'mixture bag\n  1 L sodium chloride 0.45%' },
    { block: 'mixture bag\n  3.68 g sodium acetate trihydrate\n  water to 1 L' },
    { block: 'mixture bag\n  27 mmol sodium acetate\n  water to 1 L' },
  ],
});
