import { check } from './check.ts';

export const volumeBasisMissing = check({
  code: 'volume-basis-missing',
  severity: 'warning',
  title: 'An amount in no volume',
  faults: ['volume-basis-missing'],
  words: ({ found }) => ({
    read: `‘${found}’ was read, and no volume that it is in.`,
    why: 'An amount by itself can be meant for a bag or for each litre, and the strength that reaches the patient is not known.',
    mend: 'Write the mixture with its volume and give that, or write the strength of the fluid.',
    source: 'common practice, no source',
  }),
  page: `An amount of a dry solute can be given only in some volume: \`give 20 mmol potassium chloride\` does not say in what, and
the same words are used for an amount in a bag and for an amount in each litre. Write what is hung:
\`give 500 mL potassium chloride 40 mmol/L in sodium chloride 0.9%\`, or a mixture by its name.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive «20 mmol» potassium chloride over 4 h by peripheral vein to adult',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL potassium chloride 40 mmol/L in sodium chloride 0.9% over 4 h by peripheral vein to adult',
    },
  ],
});
