import { check } from './check.ts';

export const withdrawAfterAdding = check({
  code: 'withdraw-after-adding',
  severity: 'warning',
  title: 'Taken out after an additive went in',
  faults: ['withdraw-after-adding'],
  words: () => ({
    read: 'Something is taken out after more than one fluid went in.',
    why: 'Part of the additive goes with it, so less stays in the bag than was added.',
    mend: 'Make room before adding, if that is what is meant.',
  }),
  page: `Making room is done before the additive goes in. Taken out afterwards, the discarded volume takes its share of the
additive along: 150 mL out of 1150 mL is 13 % of it. The results here count that share as gone.`,
  wrong: [
    {
      block: 'mixture drip\n  1 L sodium chloride 0.45%\n  40 mL sodium bicarbonate 8.4%\n  withdraw «40 mL»',
    },
  ],
  right: [{ block: 'mixture drip\n  1 L sodium chloride 0.45%\n  withdraw 40 mL\n  40 mL sodium bicarbonate 8.4%' }],
});
