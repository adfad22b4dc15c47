import { MISREADINGS } from './abbreviations.ts';
import { check } from './check.ts';
import { rewritten } from './wording.ts';

export const unsafeAbbreviation = check({
  code: 'unsafe-abbreviation',
  severity: 'hint',
  title: 'An abbreviation that is easily misread',
  faults: ['unsafe-abbreviation'],
  words: ({ kind, found, safe }) => ({
    read: `‘${found}’ was read as ${safe}.`,
    ...MISREADINGS[kind],
    mend: `Write ${safe}${kind === 'micro' ? ', or microgram in full' : ''}.`,
  }),
  fixes: ({ safe }) => rewritten(safe),
  page: `Trade shorthand such as \`LR\` or \`D5W\`, chemical symbols of drugs such as \`KCl\` and \`MgSO4\`, \`µg\` and \`ml\` are
understood, and what they are misread as is why the safe form is offered: a note that is taught from or ordered from says
the name in full. The results are the same. Steps and orders are looked at; claims, targets and labels are not, and names
that a note gives itself never are.`,
  wrong: [
    { block: 'mixture bag\n  1 L «LR»' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  20 mmol «KCl»' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  2 g «MgSO4»' },
    { block: 'mixture bag\n  500 «ml» sodium chloride 0.9%' },
    { block: 'substance fentanyl\nmixture bag\n  500 «µg» fentanyl in 50 mL sodium chloride 0.9%' },
  ],
  right: [
    { block: "mixture bag\n  1 L lactated Ringer's" },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 154 mmol/l' },
  ],
});
