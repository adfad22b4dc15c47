import { check } from './check.ts';
import { both } from './wording.ts';

export const doseNamesNoSolute = check({
  code: 'dose-names-no-solute',
  severity: 'error',
  title: 'A dose that does not say of what',
  faults: ['dose-names-no-solute'],
  words: ({ found, solutes }) => ({
    read: `‘${found}’ was read.`,
    why:
      solutes.length > 0
        ? `The fluid holds ${both(solutes)}, and the dose does not say which of them it counts.`
        : 'The fluid holds no solute that the dose could count.',
    mend:
      solutes.length > 0
        ? `Write ‘of’ and the solute behind it (${found} of ${solutes[0]}), or a rate in mL/h.`
        : 'Write the dose as a volume or a rate in mL/h.',
  }),
  page: `A dose in mass, mmol or units becomes a rate by what one millilitre holds. With a single solute there is nothing to ask; with
several the order says which: \`give mag at 1 g/h of magnesium sulfate\`.`,
  wrong: [
    {
      block:
        'mixture mag\n  4 g magnesium sulfate\n  sodium chloride 0.9% to 100 mL\npatient adult\n  age 50 y\n  weight 70 kg\ngive mag at «1 g/h» by peripheral vein to adult',
    },
  ],
  right: [
    {
      block:
        'mixture mag\n  4 g magnesium sulfate\n  sodium chloride 0.9% to 100 mL\npatient adult\n  age 50 y\n  weight 70 kg\ngive mag at 1 g/h of magnesium sulfate by peripheral vein to adult',
    },
  ],
});
