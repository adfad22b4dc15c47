import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const noWater = check({
  code: 'no-water',
  severity: 'error',
  title: 'No room left for water',
  faults: ['no-water'],
  words: ({ substance, limit }) => ({
    read: `So much ${substance} takes up the whole volume itself.`,
    why: `About ${formatQuantity(limit, 'g')} of it fill 100 mL alone, and no water is left to dissolve it in.`,
    mend: 'Check the amount, its unit (g or mg) and the volume.',
    source: 'apparent volumes worked out from density tables',
  }),
  page: `Dissolved solutes take up room: 500 g of dextrose fill about 310 mL. When the solutes alone fill the volume that is
written, there is no solution.`,
  wrong: [{ block: 'mixture bag\n  1 L sodium lactate «400%»' }],
  right: [{ block: 'mixture bag\n  1 L dextrose 50%' }],
});
