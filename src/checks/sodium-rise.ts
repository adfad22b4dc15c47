import type { DemyelinationRisk } from '../note/order-faults.ts';
import { check } from './check.ts';
import { assumed, onsetText, predicted } from './course-words.ts';
import { limitSentences } from './limit-words.ts';

const RISK: Readonly<Record<DemyelinationRisk, string>> = {
  declared: 'The risk of osmotic demyelination is declared high.',
  sodium: 'A serum sodium as low as this makes the risk of osmotic demyelination high.',
  potassium: 'A low serum potassium makes the risk of osmotic demyelination high.',
};

export const sodiumRise = check({
  code: 'sodium-rise',
  severity: 'warning',
  title: 'The sodium is predicted to rise too fast',
  faults: ['sodium-rise'],
  words: (fault) => ({
    read: predicted(fault, 'rise'),
    why: `${fault.risk ? `${RISK[fault.risk]} ` : ''}${limitSentences(fault)}${onsetText(fault)} ${assumed(fault)}`,
    mend: 'Measure the sodium and the urine often, and check the orders; local policy decides.',
    source: fault.limit.source,
  }),
  page: `A low sodium that rises too fast can strip the nerve fibres in the brain stem days later. The course of the serum sodium is
predicted from the patient’s orders and the losses written, and its steepest rise is held against the limits: 8 mmol/L in 24 h at
high risk of osmotic demyelination; else 10 mmol/L in 24 h as a caution, 12 mmol/L in 24 h and 18 mmol/L in 48 h; in a child
10 and 18 mmol/L. The risk is high where the patient says \`osmotic demyelination risk high\`, or where the serum sodium is
105 mmol/L or less or the serum potassium below 3.5 mmol/L; it is never inferred from prose.

Only a serum sodium that begins below 135 mmol/L is looked at. Predictions of this kind missed by 4.8 to 6.4 mmol/L over 12 to
30 h in 31 patients. Where no urine is written none is counted, and a dilute urine makes the sodium rise much faster.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 60 kg\n  height 165 cm\n  sex female\n  serum sodium 115 mmol/L\n  urine 150 mL/h sodium 30 mmol/L potassium 10 mmol/L\ngive 300 mL «sodium chloride 3%» over 24 h by central vein to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 60 kg\n  height 165 cm\n  sex female\n  serum sodium 115 mmol/L\ngive 150 mL sodium chloride 3% over 20 min by peripheral vein to adult',
    },
  ],
});
