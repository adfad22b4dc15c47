import { formatQuantity } from '../engine/index.ts';
import type { FaultOf } from './check.ts';
import { check } from './check.ts';
import { foundText, limitSentences, togetherText } from './limit-words.ts';

/** By the hour, and by weight where the limit is. */
function rateText(fault: FaultOf<'potassium-rate'>): string {
  const hourly = formatQuantity(fault.perHour, 'mmol/h');
  return fault.limit.unit.dimension.under.includes('body-weight') ? `${hourly}, that is ${foundText(fault)},` : hourly;
}

export const potassiumRate = check({
  code: 'potassium-rate',
  severity: 'warning',
  title: 'Potassium too fast',
  faults: ['potassium-rate'],
  words: (fault) => ({
    read: `Potassium ${rateText(fault)} was read${togetherText(fault.fluids)}.`,
    why: limitSentences(fault),
    mend: fault.monitored
      ? 'Check the rate; local policy decides who may give more, and where.'
      : 'Check the rate, or write ‘monitored’ if the heart is monitored; local policy decides.',
    source: fault.limit.source,
  }),
  page: `The heart bears potassium only slowly. An adult is held to 10 mmol/h, and to 20 mmol/h where the order says \`monitored\`; a
child to 0.2 mmol/kg/h and never above 10 mmol/h, monitored to 0.5 mmol/kg/h; a newborn infant to 0.25 mmol/kg/h, monitored to
0.5 mmol/kg/h. Orders for one patient that run at the same time are added up, if none of them is by itself too fast; they
count as monitored where all of them are. Fluids with no more potassium than plasma, such as lactated Ringer’s, are not
counted. The limits by weight are tried only where a weight is written.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL potassium chloride 40 mmol/L in sodium chloride 0.9% at «300 mL/h» by peripheral vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 250 mL potassium chloride 40 mmol/L in sodium chloride 0.9% at 150 mL/h by peripheral vein to adult\ngive 250 mL potassium chloride 40 mmol/L in sodium chloride 0.9% at «160 mL/h» by peripheral vein to adult',
    },
    {
      block:
        'patient child\n  age 4 y\n  weight 16 kg\ngive 200 mL potassium chloride 40 mmol/L in sodium chloride 0.9% over «2 h» by peripheral vein to child',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL potassium chloride 40 mmol/L in sodium chloride 0.9% at 125 mL/h by peripheral vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 100 mL potassium chloride 200 mmol/L in sodium chloride 0.9% over 1 h by central vein to adult monitored',
    },
  ],
});
