import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const elementalOrSalt = check({
  code: 'elemental-or-salt',
  severity: 'error',
  title: 'A mass that may be the ion or its salt',
  faults: ['elemental-or-salt'],
  words: ({ found, ion, substance, per, asSalt, asElement }) => ({
    read: `‘${found}’ of ${ion} as ${substance} was read.`,
    why: `It can be ${found} of the salt, ${formatQuantity(asSalt, per)} of ${ion}, or ${found} of elemental ${ion}, ${formatQuantity(asElement, per)}.`,
    mend: `Write ${found} ${substance}, or ${found} elemental ${ion} as ${substance}.`,
  }),
  page: `A mass of an ion "as" its salt is read as the salt by some and as the element by others; for magnesium sulfate
the two differ tenfold. Write the salt alone, say \`elemental\`, or write mmol, which has one meaning.`,
  wrong: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  «2 g» magnesium as magnesium sulfate' }],
  right: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  2 g magnesium sulfate' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  93 mg elemental calcium as calcium chloride' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  8 mmol magnesium as magnesium sulfate' },
  ],
});
