import type { Concentrate } from '../note/order-faults.ts';
import { check } from './check.ts';
import { asideOf, foundText, limitText } from './limit-words.ts';

const DANGER: Readonly<Record<Concentrate, string>> = {
  potassium: 'Undiluted potassium stops the heart.',
  'sodium chloride': 'Undiluted it shrinks cells and raises the sodium within minutes.',
  'magnesium sulfate': 'Undiluted it lowers the blood pressure and stops breathing.',
  phosphate: 'Undiluted it lowers the calcium within minutes.',
};

export const undilutedConcentrate = check({
  code: 'undiluted-concentrate',
  severity: 'error',
  title: 'A concentrate by a vein, undiluted',
  faults: ['undiluted-concentrate'],
  words: (fault) => ({
    read: `${fault.of} ${foundText(fault)} by a vein was read.`,
    why: `${asideOf(`A concentrate (the limit taken is ${limitText(fault.limit)}) is diluted before it is given.`, fault)} ${DANGER[fault.of]}`,
    mend: 'Write the mixture that it is diluted in and give that; local policy decides how it is kept and checked.',
    source: fault.limit.source,
  }),
  page: `Concentrated electrolytes have killed patients when they were given as they are. By a vein these are reported: potassium of
1 mmol/mL or more, sodium chloride above 10 %, magnesium sulfate above 20 % (counted as heptahydrate), phosphate of
1 mmol/mL or more. Sodium chloride of 3, 5 and 7.5 % is not meant. What is given is looked at, so a concentrate that is
drawn up into a mixture is in order. Where no route is written, a vein is taken.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 10 mL «potassium chloride 2 mmol/mL» over 2 h by central vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 30 mL «sodium chloride 23.4%» over 30 min by central vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 8 mL «magnesium sulfate 50%» over 40 min by central vein to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL potassium chloride 40 mmol/L in sodium chloride 0.9% over 4 h by peripheral vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 100 mL sodium chloride 3% over 10 min by peripheral vein to adult',
    },
  ],
});
