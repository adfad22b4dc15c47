import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const impossibleConcentration = check({
  code: 'impossible-concentration',
  severity: 'error',
  title: 'More than can be dissolved',
  faults: ['impossible-concentration'],
  words({ overload: { substance, gramsPer100gWater, limit, celsius, source } }) {
    const counted = substance.formula?.includes('·') ? ' (counted without its crystal water)' : '';
    return {
      read: `This is ${formatQuantity(gramsPer100gWater, 'g')} of ${substance.family}${counted} in 100 g of water.`,
      why: `Water dissolves ${formatQuantity(limit, 'g')} at ${celsius} °C, so it cannot be a solution.`,
      mend: 'Check the amount, its unit (g or mg) and the volume.',
      source,
    };
  },
  page: `A solution cannot hold more of a solute than dissolves at room temperature. Strengths that a pharmacopoeia or a
product label lists are never reported, even where they rest on supersaturation (mannitol 20 %, calcium gluconate
10 %). The usual cause is a slip: grams for milligrams, a misplaced decimal point, a volume in mL that was meant in L.`,
  wrong: [
    { block: 'mixture bag\n  1 L sodium chloride «90%»' },
    { block: 'mixture bag\n  «500 g» sodium chloride\n  water to 1 L' },
  ],
  right: [
    { block: 'mixture bag\n  1 L dextrose 70%' },
    { block: 'mixture bag\n  500 mL sodium chloride 23.4%' },
    { block: 'mixture bag\n  10 mL calcium chloride 10%' },
  ],
});
