import { check } from './check.ts';
import { asideOf, foundText, limitSentences, limitText, togetherText } from './limit-words.ts';

export const glucoseRate = check({
  code: 'glucose-rate',
  severity: 'warning',
  title: 'Dextrose too fast, or too slow for a newborn infant',
  faults: ['glucose-rate'],
  words: (fault) => ({
    read: `Dextrose ${foundText(fault)} was read${togetherText(fault.fluids)}.`,
    why: fault.low
      ? asideOf(
          `Less than ${limitText(fault.limit)} may not keep up the glucose of a newborn infant who lives on it.`,
          fault,
        )
      : limitSentences(fault),
    mend: fault.low
      ? 'Check the rate and what milk brings beside it; local policy decides.'
      : 'Check the rate and the weight; local policy decides.',
    source: fault.limit.source,
  }),
  page: `Milligrams of dextrose per kilogram and minute, of grams as labelled: % × mL/h ÷ (6 × kg). Infusions of an hour or more
count; a dose against a low glucose does not. Infusions that run at the same time are added up. The limits are those of the
age: 5 mg/kg/min for adults, 8.3 for children (12 g/kg in a day), 13 for infants, 12 for newborn infants. A newborn infant’s
own infusion is also reported below 4 mg/kg/min. A weight is needed.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL dextrose 20% at «125 mL/h» by central vein to adult',
    },
    {
      block: 'patient baby\n  age 3 d\n  weight 3 kg\ngive 100 mL dextrose 10% at «5 mL/h» by peripheral vein to baby',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL dextrose 10% at 125 mL/h by peripheral vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 50 mL dextrose 50% over 5 min by peripheral vein to adult monitored',
    },
    { block: 'patient baby\n  age 3 d\n  weight 3 kg\ngive 250 mL dextrose 10% at 12 mL/h by peripheral vein to baby' },
  ],
});
