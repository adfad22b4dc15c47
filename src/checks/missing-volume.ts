import { check } from './check.ts';

export const missingVolume = check({
  code: 'missing-volume',
  severity: 'error',
  title: 'A mixture without a volume',
  faults: ['missing-volume'],
  words: ({ name }) => ({
    read: name ? `‘${name}’ was read.` : 'A mixture was read.',
    why: 'No line leaves any liquid in it, so nothing can be said per litre.',
    mend: 'Add the liquid it is dissolved in, or make it up with: water to 1 L.',
  }),
  page: `A mixture holds liquid: a solution that is added, or water to a final volume. Dry solutes alone take up a little
space, but no strength follows from it.`,
  wrong: [{ block: 'mixture «bag»\n  9 g sodium chloride' }],
  right: [{ block: 'mixture bag\n  9 g sodium chloride\n  water to 1 L' }],
});
