import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const tonicityFallsInBody = check({
  code: 'tonicity-falls-in-body',
  severity: 'information',
  title: 'More dilute in the body than in the bag',
  faults: ['tonicity-falls-in-body'],
  words: ({ bag, body, inBag, inBody }) => ({
    read: `In the bag it is ${inBag} (${formatQuantity(bag, 'mOsm/L')}).`,
    why: `Once its dextrose is used it is ${inBody}: ${formatQuantity(body, 'mOsm/L')} stay effective.`,
    mend: 'Nothing needs mending; say which of the two is meant where it matters.',
  }),
  page: `Dextrose keeps a bag from being too dilute for the vein and then becomes water. Dextrose 5 % in sodium chloride
0.45 % is hypertonic in the bag (406 mOsm/L) and hypotonic in the body (154 mOsm/L). Adding dextrose to saline adds no
free water to what the saline leaves: the free water is that of its sodium and potassium.`,
  wrong: [
    { block: 'mixture «maintenance»\n  1 L dextrose 5% in sodium chloride 0.45%' },
    { block: 'mixture «sugar»\n  1 L dextrose 5%' },
  ],
  right: [{ block: 'mixture saline-bag\n  1 L sodium chloride 0.9%' }],
});
