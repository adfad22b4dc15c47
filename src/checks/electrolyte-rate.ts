import type { FaultOf } from './check.ts';
import { check } from './check.ts';
import { foundText, limitSentences } from './limit-words.ts';

const COUNTED: Readonly<Record<FaultOf<'electrolyte-rate'>['of'], string>> = {
  magnesium: ' of magnesium sulfate heptahydrate',
  phosphate: '',
  calcium: ' of calcium gluconate',
};

export const electrolyteRate = check({
  code: 'electrolyte-rate',
  severity: 'warning',
  title: 'Magnesium, phosphate or calcium too fast',
  faults: ['electrolyte-rate'],
  words: (fault) => ({
    read: `${fault.of} at ${foundText(fault)}${COUNTED[fault.of]} was read.`,
    why: limitSentences(fault),
    mend: 'Check the rate; local policy decides.',
    source: fault.limit.source,
  }),
  page: `By a vein: magnesium above 150 mg/min of the heptahydrate; phosphate above 6.8 mmol/h, or 15 mmol/h by a central vein with
\`monitored\`; calcium above 200 mg/min of calcium gluconate in an adult and 100 mg/min in a child, whatever its salt. These are
figures of labels, from memory. Obstetric protocols load magnesium faster; local policy can set the limit.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 100 mL magnesium sulfate 4% over «10 min» by peripheral vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 100 mL monobasic sodium phosphate 200 mmol/L in sodium chloride 0.9% over «2 h» by peripheral vein to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 100 mL magnesium sulfate 4% over 30 min by peripheral vein to adult',
    },
  ],
});
