import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const calciumBicarbonate = check({
  code: 'calcium-bicarbonate',
  severity: 'information',
  title: 'Calcium together with bicarbonate',
  faults: ['calcium-bicarbonate'],
  words: ({ calcium, bicarbonate }) => ({
    read: `Calcium ${formatQuantity(calcium, 'mmol/L')} and bicarbonate ${formatQuantity(bicarbonate, 'mmol/L')} are in one fluid.`,
    why: 'Together they can come out as calcium carbonate; above what haemofiltration fluids hold nothing is known to stay clear.',
    mend: 'Give them apart, or consult compatibility data for these concentrations.',
    source: 'product characteristics of two-chamber haemofiltration solutions; Critical Care 2001;5 Suppl 3:P37',
  }),
  page: `Licensed haemofiltration fluids hold calcium up to 1.75 mmol/L with bicarbonate up to about 35 mmol/L, mixed just
before use; up to that nothing is said. With 2.5 mmol/L of calcium, crystals were weighed in such fluids.`,
  wrong: [
    {
      block:
        'mixture «drip»\n  1 L sodium chloride 0.45%\n  40 mL sodium bicarbonate 8.4%\n  10 mL calcium chloride 10%',
    },
  ],
  right: [{ block: 'mixture circuit\n  31 mmol sodium bicarbonate\n  1.75 mmol calcium chloride\n  water to 1 L' }],
});
