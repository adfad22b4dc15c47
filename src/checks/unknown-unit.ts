import { misreadUnit } from './abbreviations.ts';
import { check } from './check.ts';
import { chosen, didYouMean, rewritten } from './wording.ts';

const UNKNOWN = 'It is none that is known here; capital letters count, since Mg and mg are different things.';

export const unknownUnit = check({
  code: 'unknown-unit',
  severity: 'error',
  title: 'A unit that is not known',
  faults: ['unknown-unit'],
  words({ found, near }) {
    const read = `‘${found}’ was read as a unit.`;
    if (/^% *v/.test(found)) {
      return {
        read,
        why: 'Here % is grams in 100 mL; millilitres in 100 do not say what a solute weighs.',
        mend: 'Write its mass or amount, such as g/L or mmol/L.',
      };
    }
    const misread = near.length > 0 ? misreadUnit(found) : null;
    return {
      read,
      why: UNKNOWN,
      mend: didYouMean(near, 'Write a unit such as mL, L, g, mg, mcg, mmol, mEq or a ratio such as mmol/L.'),
      ...misread,
    };
  },
  fixes: ({ found, near }) => (near.length === 1 && misreadUnit(found) ? rewritten(near[0]!) : chosen(near)),
  page: `Units are a closed list, and their capital letters matter: \`Mg\` would be a thousand million milligrams. A unit
that is nearly one of the list is proposed, never assumed; so are the safe forms of \`cc\`, \`U\`, \`IU\` and \`ug\`. \`%\` is
grams in 100 mL and \`% w/w\` grams in 100 g; a percentage by volume (\`% v/v\`) is not converted.`,
  wrong: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  2 «Mg» magnesium sulfate' },
    { block: 'mixture bag\n  10 «mll» sodium chloride 0.9%' },
    { block: 'mixture bag\n  500 «cc» sodium chloride 0.9%' },
    { block: 'mixture bag\n  1 L ethanol 5 «% v/v»' },
  ],
  right: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  2 g magnesium sulfate' }],
});
