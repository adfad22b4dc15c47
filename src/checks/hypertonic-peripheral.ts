import { check } from './check.ts';
import { foundText, limitSentences } from './limit-words.ts';

export const hypertonicPeripheral = check({
  code: 'hypertonic-peripheral',
  severity: 'warning',
  title: 'Too strong for a peripheral vein',
  faults: ['hypertonic-peripheral'],
  words: (fault) => ({
    read: `An osmolarity of ${foundText(fault)} was read.`,
    why: limitSentences(fault),
    mend: 'Give it by a central vein, or dilute it; local policy decides.',
    source: fault.limit.source,
  }),
  page: `Strong solutions inflame a small vein and harm the tissue when they leak. The limit taken is 900 mOsm/L by the calculated
osmolarity in the bag; 850, 600 and 500 mOsm/L are the limits of other guidance, and local policy can set one of them.

Not reported: sodium chloride of up to 3 % as a short dose, at most 250 mL in at most 30 min, which is in accepted use by a
peripheral vein; any short dose of that size where the order says \`monitored\`; what
[\`undiluted-concentrate\`](undiluted-concentrate.md) reports already.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL dextrose 20% over 10 h by «peripheral vein» to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 400 mL sodium chloride 3% over 10 h by «peripheral vein» to adult',
    },
  ],
  right: [
    { block: 'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL dextrose 20% over 10 h by central vein to adult' },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 150 mL sodium chloride 3% over 20 min by peripheral vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 50 mL sodium bicarbonate 8.4% over 5 min by peripheral vein to adult monitored',
    },
  ],
});
