import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

/** As finely as a syringe measures. */
const ROOM_DIGITS = 4;

export const volumeAdded = check({
  code: 'volume-added',
  severity: 'warning',
  title: 'Additives that swell the bag',
  faults: ['volume-added', 'solid-added'],
  words(fault) {
    if (fault.code === 'solid-added') {
      const { substance, container, space, made, meant } = fault;
      return {
        read: `${substance} is added dry to ${formatQuantity(container, 'mL')}.`,
        why: `It takes up ${formatQuantity(space, 'mL')} itself, so this is ${formatQuantity(made, '%')}, and not ${formatQuantity(meant, '%')}.`,
        mend: `To make ${formatQuantity(meant, '%')}, write the solute first and then: water to ${formatQuantity(container, 'mL')}.`,
        source: 'apparent volumes worked out from density tables',
      };
    }
    const { container, added, total } = fault;
    return {
      read: `${formatQuantity(added, 'mL')} is added to a container of ${formatQuantity(container, 'mL')} without making room.`,
      why: `The bag then holds ${formatQuantity(total, 'mL')}, and every concentration is that much lower than in ${formatQuantity(container, 'mL')}.`,
      mend: `Withdraw ${formatQuantity(added, 'mL')} first, make up to ${formatQuantity(container, 'mL')}, or keep it and count with ${formatQuantity(total, 'mL')}.`,
      source: 'common practice, no source',
    };
  },
  fixes(fault) {
    if (fault.code === 'solid-added') {
      if (!fault.madeUp) return [];
      const title = `Write the solute first, then make up to ${formatQuantity(fault.container, 'mL')}`;
      return [{ title, edits: fault.madeUp, changesNumber: true }];
    }
    if (!fault.makesRoom) return [];
    const line = `withdraw ${formatQuantity(fault.added, 'mL', ROOM_DIGITS)}`;
    return [{ title: `Write ‘${line}’ above this line`, lines: [line], put: 'above', changesNumber: true }];
  },
  page: `Three ampoules of 50 mL in a full litre make 1150 mL: 150 mmol in the bag is 130 mmol per litre. Whoever counts per
litre of the bag's label forgets the volume of the additives. Silent up to 5 % of the container, when the mixture is made
up to a volume, and when two fluids of like volume are mixed.`,
  wrong: [
    { block: 'mixture salty\n  1 L water\n  «200 g» sodium chloride' },
    { block: 'mixture drip\n  1 L sodium chloride 0.45%\n  3 x «50 mL» sodium bicarbonate 8.4%' },
  ],
  right: [
    { block: 'mixture syrup\n  500 g dextrose\n  water to 1 L' },
    { block: 'mixture drip\n  1 L dextrose 5%\n  withdraw 150 mL\n  3 x 50 mL sodium bicarbonate 8.4%' },
    { block: 'mixture drip\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL' },
    { block: 'mixture half\n  500 mL sodium chloride 0.9%\n  500 mL dextrose 5%' },
  ],
});
