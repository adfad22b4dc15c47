import { check } from './check.ts';
import { didYouMean } from './wording.ts';

export const unknownName = check({
  code: 'unknown-name',
  severity: 'error',
  title: 'A name that nothing answers to',
  faults: ['unknown-name'],
  words: ({ found, near }) => ({
    read: `‘${found}’ was read as a fluid or solute.`,
    why: 'It is none that is known here, and no mixture of this note has that name.',
    mend: didYouMean(near, 'Write the full generic name, or begin a mixture of that name in this note.'),
  }),
  page: `A fluid is a solute with a strength, a fluid of the pharmacopoeia by its name, or a mixture of the same note. A
name that is none of these is never guessed: the mixture it belongs to, and whatever is made from it, shows no results
until it is mended. The other mixtures of the note do.`,
  wrong: [
    { block: 'mixture bag\n  1 L «sodum chloride» 0.9%' },
    { block: 'mixture first\n  1 L sodium chloride 0.9%\nmixture other\n  100 mL «frist»' },
  ],
  right: [{ block: 'mixture first\n  1 L sodium chloride 0.9%\nmixture other\n  100 mL first' }],
});
