import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const withdrawTooMuch = check({
  code: 'withdraw-too-much',
  severity: 'error',
  title: 'More taken out than there is',
  faults: ['withdraw-too-much'],
  words: ({ asked, held }) => ({
    read: `${formatQuantity(asked, 'mL')} is to be taken out.`,
    why: `At this step the mixture holds ${formatQuantity(held, 'mL')}.`,
    mend: held.isZero()
      ? 'Add the fluid above this line.'
      : `Take out at most ${formatQuantity(held, 'mL')}, or add the fluid above this line.`,
  }),
  page: `Steps are carried out in the order written. A withdrawal or an exchange can take out what is there at that step,
and no more.`,
  wrong: [{ block: 'mixture bag\n  100 mL sodium chloride 0.9%\n  withdraw «150 mL»' }],
  right: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  withdraw 150 mL' }],
});
