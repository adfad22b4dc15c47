import { check } from './check.ts';
import { both } from './wording.ts';

export const circularMixture = check({
  code: 'circular-mixture',
  severity: 'error',
  title: 'Mixtures made from each other, or orders that follow each other',
  faults: ['circular-mixture'],
  words: ({ names }) => ({
    read: names.length > 1 ? `${both(names, true)} lead back to each other.` : `‘${names[0]}’ leads back to itself.`,
    why: 'So there is no first one to begin with.',
    mend: 'Write out one of them without the others: with fluids that exist by themselves, or with its own time.',
  }),
  page: `A mixture may be made from other mixtures of the note, in any order of writing, as long as no round leads back to
where it began. An order may follow another in the same way.`,
  wrong: [{ block: 'mixture «one»\n  1 L two\nmixture two\n  1 L one' }],
  right: [{ block: 'mixture one\n  1 L two\nmixture two\n  1 L sodium chloride 0.9%' }],
});
