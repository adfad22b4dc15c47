import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';
import { both } from './wording.ts';

export const tonicityFallsInBody = check({
  code: 'tonicity-falls-in-body',
  severity: 'information',
  title: 'More dilute in the body than in the bag',
  faults: ['tonicity-falls-in-body'],
  words({ used, crossing, bag, body, inBag, inBody }) {
    const changes = [
      ...(used.length > 0 ? [`its ${both(used)} ${used.length > 1 ? 'are' : 'is'} used`] : []),
      ...(crossing.length > 0 ? [`its ${both(crossing)} ${crossing.length > 1 ? 'have' : 'has'} entered cells`] : []),
    ];
    return {
      read: `In the bag it is ${inBag} (${formatQuantity(bag, 'mOsm/L')}).`,
      why: `Once ${both(changes)} it is ${inBody}: ${formatQuantity(body, 'mOsm/L')} stay effective.`,
      mend: 'Nothing needs mending; say which of the two is meant where it matters.',
    };
  },
  page: `Dextrose keeps a bag from being too dilute for the vein and then becomes water. Dextrose 5 % in sodium chloride
0.45 % is hypertonic in the bag (406 mOsm/L) and hypotonic in the body (154 mOsm/L). Adding dextrose to saline adds no
free water to what the saline leaves: the free water is that of its sodium and potassium. Urea, glycerol and alcohol
enter cells, and leave the water to follow in the same way.`,
  wrong: [
    { block: 'mixture «maintenance»\n  1 L dextrose 5% in sodium chloride 0.45%' },
    { block: 'mixture «sugar»\n  1 L dextrose 5%' },
    { block: 'mixture «washout»\n  1 L urea 1.6%' },
  ],
  right: [{ block: 'mixture saline-bag\n  1 L sodium chloride 0.9%' }],
});
