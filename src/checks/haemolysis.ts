import { formatQuantity } from '../engine/index.ts';
import type { FaultOf } from './check.ts';
import { check } from './check.ts';
import { asideOf, limitText } from './limit-words.ts';

const WATER = 'Pennsylvania Patient Safety Advisory 2008;5(2):53-6';

function why(fault: FaultOf<'haemolysis'>): string {
  const least = limitText(fault.limit);
  switch (fault.reaches) {
    case 'water':
      return asideOf('Water without solute bursts the red cells that it meets, and is never given alone by a vein.', {
        ...fault,
        limit: { ...fault.limit, disagree: null },
      });
    case 'complete':
      return asideOf(
        `Below ${least} all normal red cells may be lysed, as they are by sodium chloride 0.3 % in the test tube.`,
        fault,
      );
    case 'begins':
      return asideOf(
        `Below ${least} the most fragile red cells begin to burst; sodium chloride 0.45 % is the weakest in accepted use.`,
        fault,
      );
  }
}

export const haemolysis = check({
  code: 'haemolysis',
  severity: 'warning',
  title: 'Too dilute for red cells',
  faults: ['haemolysis'],
  words: (fault) => ({
    read: `${formatQuantity(fault.found, 'mOsm/L')} of particles that red cells keep out, by a vein, was read.`,
    why: why(fault),
    mend: 'Give it with enough solute, such as dextrose, or by another way; local policy decides.',
    source: fault.reaches === 'water' ? WATER : fault.limit.source,
  }),
  page: `Water without solute bursts red cells where it enters a vein; deaths are on record. What counts is the osmolarity in the
bag of the particles that red cells keep out. Dextrose is one of them, so dextrose 5 % in sodium chloride 0.225 % is not
reported. Urea, glycerol, boric acid and ammonium pass into red cells and are not counted.

Three cases are told apart: no such particle at all; below 103 mOsm/L (sodium chloride 0.3 %), where normal cells are all
lysed in the test tube; below 154 mOsm/L (sodium chloride 0.45 %), which is itself in accepted use. The span from the first
lysed cell to the last is wide in health, and texts differ. Fluids that hold a drug without a molar mass, or a colloid, are
passed over.`,
  wrong: [
    { block: 'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL «water» over 5 h by central vein to adult' },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL «sodium chloride 0.225%» over 5 h by central vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL «sodium chloride 0.4%» over 5 h by central vein to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL sodium chloride 0.45% over 5 h by peripheral vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL dextrose 5% in sodium chloride 0.225% over 5 h by peripheral vein to adult',
    },
    { block: 'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL water over 5 h by feeding tube to adult' },
  ],
});
