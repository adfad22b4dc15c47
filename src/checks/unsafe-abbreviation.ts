import { check } from './check.ts';

export const unsafeAbbreviation = check({
  code: 'unsafe-abbreviation',
  severity: 'hint',
  title: 'Shorthand for a fluid',
  faults: ['unsafe-abbreviation'],
  words: ({ found, safe }) => ({
    read: `‘${found}’ was read as ${safe}.`,
    why: 'Abbreviated fluid names are read differently by different readers.',
    mend: `Write ${safe}.`,
    source: 'error-prone abbreviation lists of medication-safety bodies; common practice',
  }),
  page: `Trade shorthand such as \`LR\` or \`D5W\` is understood, and its full name is offered: a note that is taught from or ordered
from says the name in full. The results are the same.`,
  wrong: [{ block: 'mixture bag\n  1 L «LR»' }],
  right: [{ block: "mixture bag\n  1 L lactated Ringer's" }],
});
