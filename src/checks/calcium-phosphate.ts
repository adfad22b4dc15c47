import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const calciumPhosphate = check({
  code: 'calcium-phosphate',
  severity: 'information',
  title: 'Calcium together with phosphate',
  faults: ['calcium-phosphate'],
  words: ({ calcium, phosphate }) => ({
    read: `Calcium ${formatQuantity(calcium, 'mmol/L')} and phosphate ${formatQuantity(phosphate, 'mmol/L')} are in one fluid.`,
    why: 'Whether they stay in solution depends on the calcium salt, the amino acids, the pH, the temperature and the order of mixing.',
    mend: 'Consult the validated solubility curve for the products used, and note which one it was.',
    source: 'common practice, no source',
  }),
  page: `No product of the two concentrations is used as a limit here: such rules have failed, and validated curves for the
products in use are needed.`,
  wrong: [
    {
      block:
        'mixture «feed»\n  1 L sodium chloride 0.45%\n  10 mmol monobasic sodium phosphate\n  5 mL calcium chloride 10%',
    },
  ],
  right: [{ block: 'mixture feed\n  1 L sodium chloride 0.45%\n  5 mL calcium chloride 10%' }],
});
