import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const finalVolumeTooSmall = check({
  code: 'final-volume-too-small',
  severity: 'error',
  title: 'A final volume smaller than what is there',
  faults: ['final-volume-too-small'],
  words: ({ held, to }) => ({
    read: `The mixture is to be made up to ${formatQuantity(to, 'mL')}.`,
    why: `Before this step it already holds ${formatQuantity(held, 'mL')}.`,
    mend: `Make it up to more than ${formatQuantity(held, 'mL')}, or add less above.`,
  }),
  page: `Making up to a volume adds what is missing. It cannot take anything away: for that, write \`withdraw\`.`,
  wrong: [{ block: 'mixture bag\n  600 mL sodium chloride 0.9%\n  water to «500 mL»' }],
  right: [{ block: 'mixture bag\n  64 mL sodium chloride 23.4%\n  water to 500 mL' }],
});
