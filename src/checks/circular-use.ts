import { check } from './check.ts';
import { both } from './wording.ts';

export const circularUse = check({
  code: 'circular-use',
  severity: 'error',
  title: 'Notes that use each other',
  faults: ['circular-use'],
  words: ({ path, back }) => ({
    read: `‘${path}’ was read as the path of a note.`,
    why:
      back.length === 0
        ? 'That is this note itself.'
        : `That note leads back to this one by way of ${both(back, true)}, so nothing is taken from it.`,
    mend:
      back.length === 0
        ? 'Leave the line out: all blocks of a note share their names already.'
        : 'Move what both need into a third note that both use.',
  }),
  page: `A note may use another, and that one others, as long as no round leads back to where it began. Nothing is taken from a
note of the round. A block of its own (\`infusion alone\`) gives nothing to other notes, so what it uses is in no round.`,
  wrong: [
    { block: 'use «./formulary.md»', notes: { './formulary.md': 'use ./note.md' } },
    { block: 'use «./a.md»', notes: { './a.md': 'use ./b.md', './b.md': 'use ./note.md' } },
    { block: 'use «./note.md»', notes: {} },
  ],
  right: [{ block: 'use ./a.md\nuse ./b.md', notes: { './a.md': 'use ./b.md', './b.md': '' } }],
});
