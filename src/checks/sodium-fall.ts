import { check } from './check.ts';
import { assumed, onsetText, predicted } from './course-words.ts';
import { limitSentences } from './limit-words.ts';

export const sodiumFall = check({
  code: 'sodium-fall',
  severity: 'warning',
  title: 'The sodium is predicted to fall too fast',
  faults: ['sodium-fall'],
  words: (fault) => ({
    read: predicted(fault, 'fall'),
    why: `${fault.child ? 'In a child a fast fall can swell the brain. ' : ''}${limitSentences(fault)}${onsetText(fault)} ${assumed(fault)}`,
    mend: 'Measure the sodium often, and check the orders; local policy decides.',
    source: fault.limit.source,
  }),
  page: `A high sodium that falls too fast can swell the brain, above all in children, who are held to 12 mmol/L in 24 h and to
0.5 mmol/L/h (reckoned over 6 h). In adults the evidence differs, and 12 mmol/L in 24 h is a caution. The course of the serum
sodium is predicted from the patient’s orders and the losses written. Only a serum sodium that begins above 145 mmol/L is looked
at. Predictions of this kind missed by 4.8 to 6.4 mmol/L over 12 to 30 h in 31 patients.`,
  wrong: [
    {
      block:
        'patient child\n  age 2 y\n  weight 12 kg\n  height 86 cm\n  sex male\n  serum sodium 165 mmol/L\ngive 1200 mL «dextrose 5% in sodium chloride 0.2%» over 24 h by peripheral vein to child',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 60 kg\n  height 165 cm\n  sex female\n  serum sodium 165 mmol/L\ngive 3 L «dextrose 5%» over 24 h by peripheral vein to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 60 kg\n  height 165 cm\n  sex female\n  serum sodium 160 mmol/L\ngive 1 L dextrose 5% over 24 h by peripheral vein to adult',
    },
  ],
});
