import { check } from './check.ts';

export const withdrawAfterUnknown = check({
  code: 'withdraw-after-unknown',
  severity: 'error',
  title: 'Taken out of what is not yet known',
  faults: ['withdraw-after-unknown'],
  words: () => ({
    read: 'This takes something out below an amount that is asked for.',
    why: 'How much of each thing it takes out depends on that amount, and two answers may then be right.',
    mend: 'Withdraw above the line with the question mark.',
  }),
  page: `While nothing is withdrawn after an unknown amount, everything in the mixture grows in proportion to it, and there
is one answer. A withdrawal below it would take out part of the unknown. Withdraw first, then ask.`,
  wrong: [
    {
      block:
        'mixture bag\n  500 mL sodium chloride 0.9%\n  ? mL sodium chloride 23.4%\n  «withdraw 100 mL»\n  target sodium 513 mmol/L',
    },
  ],
  right: [
    {
      block:
        'mixture bag\n  500 mL sodium chloride 0.9%\n  withdraw 100 mL\n  ? mL sodium chloride 23.4%\n  target sodium 513 mmol/L',
    },
  ],
});
