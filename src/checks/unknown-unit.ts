import { check } from './check.ts';
import { didYouMean } from './wording.ts';

export const unknownUnit = check({
  code: 'unknown-unit',
  severity: 'error',
  title: 'A unit that is not known',
  faults: ['unknown-unit'],
  words: ({ found, near }) => ({
    read: `‘${found}’ was read as a unit.`,
    why: 'It is none that is known here; capital letters count, since Mg and mg are different things.',
    mend: didYouMean(near, 'Write a unit such as mL, L, g, mg, mcg, mmol, mEq or a ratio such as mmol/L.'),
  }),
  page: `Units are a closed list, and their capital letters matter: \`Mg\` would be a thousand million milligrams. A unit
that is nearly one of the list is proposed, never assumed.`,
  wrong: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  2 «Mg» magnesium sulfate' },
    { block: 'mixture bag\n  10 «mll» sodium chloride 0.9%' },
  ],
  right: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  2 g magnesium sulfate' }],
});
