import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const mayCrystallise = check({
  code: 'may-crystallise',
  severity: 'warning',
  title: 'Dissolved when warm, crystals in the cold',
  faults: ['may-crystallise'],
  words: ({ overload: { substance, gramsPer100gWater, limit, celsius, source } }) => ({
    read: `This is ${formatQuantity(gramsPer100gWater, 'g')} of ${substance.family} in 100 g of water.`,
    why: `At ${celsius} °C water holds ${formatQuantity(limit, 'g')}; it dissolves at room temperature and may crystallise in a refrigerator.`,
    mend: 'Keep it at room temperature if its stability allows, and look at it against the light before use.',
    source,
  }),
  page: `Some solutions are clear at 20 °C and shed crystals at 5 °C. Strengths that a pharmacopoeia or a label lists are
passed over: their storage is printed on them.`,
  wrong: [{ block: 'mixture bag\n  «9 g» sodium bicarbonate\n  water to 100 mL' }],
  right: [{ block: 'mixture bag\n  100 mL sodium bicarbonate 8.4%' }],
});
