import { check } from './check.ts';
import { both } from './wording.ts';

/** Of those that two notes give. */
const MOST_NAMES = 5;

export const duplicateName = check({
  code: 'duplicate-name',
  severity: 'error',
  title: 'A name given twice',
  faults: ['duplicate-name', 'used-twice'],
  words(fault) {
    if (fault.code === 'used-twice') {
      const { path, clashes } = fault;
      const shown = clashes.slice(0, MOST_NAMES).map(({ name }) => name);
      const more = clashes.length > shown.length ? ` and ${clashes.length - shown.length} more` : '';
      return {
        read: `‘${path}’ gives ${more ? shown.map((name) => `‘${name}’`).join(', ') : both(shown, true)}${more}, and so does ‘${clashes[0]!.other}’.`,
        why: 'Where it is used, nobody can tell which of the two is meant, so whatever is made from it shows no results.',
        mend: 'Use one of the two notes, or give the fluid another name in one of them.',
      };
    }
    const { name } = fault;
    return {
      read: `‘${name}’ is the name of something above, too.`,
      why: 'Where it is used, nobody can tell which of the two is meant, so whatever is made from it shows no results.',
      mend: 'Give one of them another name, or mark a block that is to stand by itself with ‘infusion alone’.',
    };
  },
  page: `All the infusion blocks of one note share their names, whatever their order. Capital letters, hyphens and spaces
make no difference. Each of the two still shows its own results; anything made from the name does not. A block whose
fence says \`infusion alone\` has names of its own.

Of two notes that are used and give the same name, the second is reported. A name of the note itself is taken before
any of a used note, and a used note's before one of the formulary of local policy.`,
  wrong: [
    { block: 'mixture drip\n  1 L sodium chloride 0.9%\nmixture «Drip»\n  1 L sodium chloride 0.45%' },
    {
      block: 'use ./a.md\nuse «./b.md»\nmixture bag\n  500 mL drip',
      notes: {
        './a.md': 'mixture drip\n  1 L sodium chloride 0.9%',
        './b.md': 'mixture drip\n  1 L sodium chloride 0.45%',
      },
    },
  ],
  right: [{ block: 'mixture drip\n  1 L sodium chloride 0.9%\nmixture drip-2\n  1 L sodium chloride 0.45%' }],
});
