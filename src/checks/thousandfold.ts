import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const thousandfold = check({
  code: 'thousandfold',
  severity: 'error',
  title: 'A thousandth of what fits',
  faults: ['thousandfold'],
  words: ({ found, meant, substance, concentration, usual, claimed }) => ({
    read: `${found} of ${substance} was read.`,
    why: claimed
      ? `With ${meant} the claim of ${claimed} below would hold; as written it is off by a factor of 1000.`
      : `It makes ${formatQuantity(concentration, '%')}; with ${meant} it would be ${usual}, a strength that is in use.`,
    mend: `Write ${meant} if that is meant.`,
  }),
  page: `Milligrams written for grams are off by a factor of 1000. This is reported where a thousand times the amount makes
a claim of the same mixture hold, or gives a strength of that solute that is in use while the amount as written is far
below every one. Nothing is changed: the mixture's results are those of the amount as written.`,
  wrong: [
    { block: 'mixture bag\n  «9 mg» sodium chloride\n  water to 1 L' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  «2 mg» magnesium sulfate\n  claim magnesium 8.11 mmol' },
  ],
  right: [
    { block: 'mixture bag\n  9 g sodium chloride\n  water to 1 L' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  2 g magnesium sulfate\n  claim magnesium 8.11 mmol' },
  ],
});
