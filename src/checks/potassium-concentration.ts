import { check } from './check.ts';
import { foundText, limitSentences } from './limit-words.ts';

export const potassiumConcentration = check({
  code: 'potassium-concentration',
  severity: 'warning',
  title: 'Potassium too strong for the vein',
  faults: ['potassium-concentration'],
  words: (fault) => ({
    read: `Potassium ${foundText(fault)} was read.`,
    why: limitSentences(fault),
    mend: 'Dilute it further, or give it by a central vein if it is not; local policy decides.',
    source: fault.limit.source,
  }),
  page: `Strong potassium burns a small vein, and a small volume of it holds a large dose. By a peripheral vein 40 mmol/L is taken, by a
central vein 400 mmol/L in an adult and 80 mmol/L in a child. Practice differs: with the region set to the United States,
100 mmol/L by a peripheral vein is taken, for 10 mmol in 100 mL by a pump. Fluids with no more potassium than plasma are
passed over. Labels round, so 40.2 mmol/L (potassium chloride 0.3 %) passes.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 100 mL «potassium chloride 200 mmol/L in sodium chloride 0.9%» over 2 h by peripheral vein to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 100 mL potassium chloride 200 mmol/L in sodium chloride 0.9% over 2 h by central vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL potassium chloride 0.3% in sodium chloride 0.9% over 4 h by peripheral vein to adult',
    },
  ],
});
