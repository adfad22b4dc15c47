import { check } from './check.ts';

export const duplicateName = check({
  code: 'duplicate-name',
  severity: 'error',
  title: 'A name given twice',
  faults: ['duplicate-name'],
  words: ({ name }) => ({
    read: `‘${name}’ is the name of something above, too.`,
    why: 'Where it is used, nobody can tell which of the two is meant, so whatever is made from it shows no results.',
    mend: 'Give one of them another name, or mark a block that is to stand by itself with ‘infusion alone’.',
  }),
  page: `All the infusion blocks of one note share their names, whatever their order. Capital letters, hyphens and spaces
make no difference. Each of the two still shows its own results; anything made from the name does not. A block whose
fence says \`infusion alone\` has names of its own.`,
  wrong: [{ block: 'mixture drip\n  1 L sodium chloride 0.9%\nmixture «Drip»\n  1 L sodium chloride 0.45%' }],
  right: [{ block: 'mixture drip\n  1 L sodium chloride 0.9%\nmixture drip-2\n  1 L sodium chloride 0.45%' }],
});
