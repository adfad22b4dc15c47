import { check } from './check.ts';
import { both } from './wording.ts';

export const circularMixture = check({
  code: 'circular-mixture',
  severity: 'error',
  title: 'Mixtures made from each other',
  faults: ['circular-mixture'],
  words: ({ names }) => ({
    read: names.length > 1 ? `${both(names, true)} are made from each other.` : `‘${names[0]}’ is made from itself.`,
    why: 'So there is no first one to begin with.',
    mend: 'Write out one of them with fluids that exist without the others.',
  }),
  page: `A mixture may be made from other mixtures of the note, in any order of writing, as long as no round leads back to
where it began.`,
  wrong: [{ block: 'mixture «one»\n  1 L two\nmixture two\n  1 L one' }],
  right: [{ block: 'mixture one\n  1 L two\nmixture two\n  1 L sodium chloride 0.9%' }],
});
