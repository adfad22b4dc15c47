import { check } from './check.ts';

export const acceptWithoutReason = check({
  code: 'accept-without-reason',
  severity: 'error',
  title: 'A finding accepted without a reason',
  faults: ['accept-without-reason'],
  words: ({ of }) => ({
    read: `‘${of}’ is to be accepted.`,
    why: 'A finding is accepted only with a reason that others can read.',
    mend: 'Write because and the reason in quotation marks.',
  }),
  page: `An accepted finding stays in every report with the reason that was given. Without one it is not accepted, and the
finding stands.`,
  wrong: [{ block: "mixture bag\n  500 mL lactated Ringer's\n  accept volume-added «because»" }],
  right: [
    {
      block:
        'mixture drip\n  1 L sodium chloride 0.45%\n  3 x 50 mL sodium bicarbonate 8.4%\n  accept volume-added because "counted with 1150 mL"',
    },
  ],
});
