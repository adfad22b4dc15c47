import { check } from './check.ts';
import { foundText, limitSentences } from './limit-words.ts';
import { both } from './wording.ts';

export const sodiumChlorideLoad = check({
  code: 'sodium-chloride-load',
  severity: 'information',
  title: 'Much sodium or chloride in a day',
  faults: ['sodium-chloride-load'],
  words: ({ sodium, chloride }) => ({
    read: `In 24 h ${both([...(sodium ? [`${foundText(sodium)} of sodium`] : []), ...(chloride ? [`${foundText(chloride)} of fluids rich in chloride`] : [])])} are given by a vein.`,
    why: [sodium, chloride].flatMap((held) => (held ? [limitSentences(held)] : [])).join(' '),
    mend: 'Watch the chloride and the bicarbonate, and count drugs and flushes; local policy decides.',
    source: [...new Set([sodium, chloride].flatMap((held) => (held ? [held.limit.source] : [])))].join('; '),
  }),
  page: `Sodium and chloride add up over a day from maintenance, drugs and flushes. Told for adults, over the 24 h in which a patient’s
orders bring most by a vein: sodium above 5 mmol/kg, and fluids with chloride above 120 mmol/L from 1 L or 15 mL/kg on. For
newborn infants only the sodium is looked at; for children it is not, since isotonic maintenance brings more on purpose.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 2 L «sodium chloride 0.9%» over 12 h by peripheral vein to adult',
    },
  ],
  right: [
    {
      block:
        "patient adult\n  age 50 y\n  weight 70 kg\ngive 2 L lactated Ringer's over 12 h by peripheral vein to adult",
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL sodium chloride 0.9% over 4 h by peripheral vein to adult',
    },
  ],
});
