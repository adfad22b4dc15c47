import { check } from './check.ts';

export const unclosedFence = check({
  code: 'unclosed-fence',
  severity: 'error',
  title: 'A block that is never closed',
  faults: ['unclosed-fence'],
  words: () => ({
    read: 'The infusion block opens here and is not closed.',
    why: 'Without a closing fence the rest of the note belongs to it; lines below its first empty line are not read.',
    mend: 'Close it with a line of the same three marks.',
  }),
  fixes: () => [{ title: 'Close the block', closesFence: true, changesNumber: false, preferred: true }],
  page: `A fenced block runs to the next fence of its own kind or to the end of the note. When the closing fence is
missing, prose would be read as steps. Only the lines up to the first empty one are read, and this finding stands at
the opening fence.`,
  wrong: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n\nThe drip runs overnight.', open: true }],
  right: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%' }],
});
