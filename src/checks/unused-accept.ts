import { check } from './check.ts';
import { didYouMean } from './wording.ts';

export const unusedAccept = check({
  code: 'unused-accept',
  severity: 'warning',
  title: 'An acceptance of what is not there',
  faults: ['unused-accept'],
  words({ found, why, near }) {
    const read = `‘${found}’ is to be accepted.`;
    switch (why) {
      case 'no-such-code':
        return {
          read,
          why: 'No finding goes by that name.',
          mend: didYouMean(near, 'Write the finding’s name as it stands beside it.'),
        };
      case 'error':
        return {
          read,
          why: 'It stands for something that is false or must not be given so, and is mended rather than accepted.',
          mend: 'Mend what it names, and leave the acceptance out.',
        };
      case 'nothing-found':
        return {
          read,
          why: 'Nothing of that name is found on the line above, so the acceptance no longer speaks of anything.',
          mend: 'Leave it out, or put it directly below the line that it is about.',
        };
    }
  },
  fixes: () => [{ title: 'Leave the acceptance out', leavesOut: 'line', changesNumber: false }],
  page: `An acceptance stands directly below the line whose finding it accepts, or below the header of a mixture, patient
or order for all of it. When the finding is gone the acceptance is left over, and would hide the next one of its kind.
What is false is not accepted: errors are mended.`,
  wrong: [
    { block: 'mixture bag\n  500 mL sodium chloride 0.9%\n  accept «volume-added» because "counted"' },
    { block: 'mixture bag\n  500 mL sodium chloride 0.9%\n  accept «volume-ded» because "counted"' },
  ],
  right: [
    {
      block:
        'mixture drip\n  1 L sodium chloride 0.45%\n  3 x 50 mL sodium bicarbonate 8.4%\n  accept volume-added because "counted with 1150 mL"',
    },
  ],
});
