import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';
import { foundText, limitSentences } from './limit-words.ts';

export const hypotonicToLowSodium = check({
  code: 'hypotonic-to-low-sodium',
  severity: 'warning',
  title: 'Free water for a patient whose sodium is low',
  faults: ['hypotonic-to-low-sodium'],
  words: (fault) => ({
    read: `All orders together bring ${formatQuantity(fault.freeWater, 'mL')} of free water in 24 h (${foundText(fault)}) against a serum sodium of ${formatQuantity(fault.serumSodium, 'mmol/L')}.`,
    why: `It lowers the sodium further. ${limitSentences(fault)}`,
    mend: 'Check whether that is meant, or give a fluid with more sodium; local policy decides.',
    source: fault.limit.source,
  }),
  page: `Free water is reckoned against this patient: the volume times 1 - (Na + K) ÷ serum sodium. All the patient’s orders are added
up over the 24 h in which they bring most, by a vein or by the gut; a dialysis circuit, the peritoneum, the bladder and wounds
are left out, and so are fluids with mannitol, glycine, amino acids or albumin, for which the sum does not hold. It is told from
5 mL/kg in a day on, while the serum sodium is below 135 mmol/L. A weight is needed.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\n  sex female\n  height 170 cm\n  serum sodium 128 mmol/L\ngive 1 L «dextrose 5%» over 24 h by peripheral vein to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\n  sex female\n  height 170 cm\n  serum sodium 128 mmol/L\ngive 250 mL dextrose 5% over 24 h by peripheral vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\n  sex female\n  height 170 cm\n  serum sodium 140 mmol/L\ngive 1 L dextrose 5% over 24 h by peripheral vein to adult',
    },
  ],
});
