import { check } from './check.ts';
import { asideOf, foundText, limitText } from './limit-words.ts';

export const potassiumWhileHigh = check({
  code: 'potassium-while-high',
  severity: 'warning',
  title: 'Potassium for a patient who has too much',
  faults: ['potassium-while-high'],
  words: (fault) => ({
    read: `Potassium is given while the serum potassium is ${foundText(fault)}.`,
    why: asideOf(`From above ${limitText(fault.limit)} more potassium is questioned.`, fault),
    mend: 'Take the potassium out of the fluid, or write the serum potassium of today; local policy decides.',
    source: fault.limit.source,
  }),
  page: `The serum potassium is the one written for the patient. Fluids with no more potassium than plasma, such as lactated Ringer’s,
are not meant: they cannot raise it above that of plasma.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\n  serum potassium 6 mmol/L\ngive 500 mL «potassium chloride 20 mmol/L in sodium chloride 0.9%» over 8 h by peripheral vein to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\n  serum potassium 3.8 mmol/L\ngive 500 mL potassium chloride 20 mmol/L in sodium chloride 0.9% over 8 h by peripheral vein to adult',
    },
    {
      block:
        "patient adult\n  age 50 y\n  weight 70 kg\n  serum potassium 6 mmol/L\ngive 500 mL lactated Ringer's over 8 h by peripheral vein to adult",
    },
  ],
});
