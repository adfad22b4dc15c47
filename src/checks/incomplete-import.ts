import { check, type FaultOf } from './check.ts';

const WORDS: Record<
  FaultOf<'incomplete-import'>['why'],
  (from: string, other: string | null) => { readonly why: string; readonly mend: string }
> = {
  'no-results': (from) => ({
    why: 'It has no results there, so neither has what is made from it here.',
    mend: `Open ‘${from}’ and mend what is found there.`,
  }),
  twice: (from) => ({
    why: 'That name is given twice there, and nobody can tell which of the two is meant.',
    mend: `Give one of the two in ‘${from}’ another name.`,
  }),
  clash: (_, other) => ({
    why: `The formulary of local policy has that name in ‘${other}’ as well, and nobody can tell which of the two is meant.`,
    mend: `Give one of them another name, or write ‘use’ with the path of the note that is meant.`,
  }),
};

export const incompleteImport = check({
  code: 'incomplete-import',
  severity: 'error',
  title: 'A fluid of another note that has no results there',
  faults: ['incomplete-import'],
  words({ name, from, why, other }) {
    return { read: `‘${name}’ is taken from the note ‘${from}’.`, ...WORDS[why](from, other) };
  },
  page: `What another note gives must have results there. Its own findings stand in that note; here it is said once, where
the name is first used, and what is made from it shows no results.`,
  wrong: [
    {
      block: 'use ./formulary.md\nmixture bag\n  500 mL «gastric»\n  100 mL gastric',
      notes: { './formulary.md': 'mixture gastric\n  1 L sodum chloride 0.9%' },
    },
    {
      block: 'use ./formulary.md\nmixture bag\n  500 mL «gastric»',
      notes: {
        './formulary.md': 'mixture gastric\n  1 L sodium chloride 0.9%\nmixture gastric\n  1 L sodium chloride 0.45%',
      },
    },
  ],
  right: [
    {
      block: 'use ./formulary.md\nmixture bag\n  500 mL gastric',
      notes: { './formulary.md': 'mixture gastric\n  1 L sodium chloride 0.9%\nmixture other\n  1 L sodum chloride' },
    },
  ],
});
