import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';
import { asideOf, foundText, limitText } from './limit-words.ts';

export const hypotonicMaintenance = check({
  code: 'hypotonic-maintenance',
  severity: 'warning',
  title: 'A hypotonic maintenance fluid for a child',
  faults: ['hypotonic-maintenance'],
  words: (fault) => ({
    read: `A fluid with ${foundText(fault)} of sodium and potassium, ${formatQuantity(fault.effective, 'mOsm/L')} in the body, runs at ${formatQuantity(fault.rate, 'mL/h')} (4-2-1: ${formatQuantity(fault.maintenance, 'mL/h')}).`,
    why: asideOf(
      `As maintenance for a child it can lower the sodium; maintenance fluids hold at least ${limitText(fault.limit)}.`,
      fault,
    ),
    mend: 'Check whether it is meant, or give an isotonic fluid; local policy decides.',
    source: fault.limit.source,
  }),
  page: `Hypotonic maintenance fluids have led to low sodium and death in children in hospital. Guidance (Pediatrics 2018;142:e20183083,
28 days to 18 years; NICE guideline 29) asks for isotonic fluids, with exceptions such as care after neurosurgery, disease of
the heart, liver or kidney, burns and diabetes insipidus.

Reported for children from 28 days to below 18 years: by a vein, a fluid that is hypotonic in the body or holds less than
131 mmol/L of sodium and potassium together, at half the 4-2-1 rate or more, for 4 h or more (these two are common practice,
no source). Without an age, patients of up to 40 kg are taken for children. Not reported where the serum sodium is above
145 mmol/L, since water is then given on purpose, nor beside mannitol, amino acids or albumin.`,
  wrong: [
    {
      block:
        'patient child\n  age 6 y\n  weight 20 kg\ngive 1 L «dextrose 5% in sodium chloride 0.45%» at 60 mL/h by peripheral vein to child',
    },
  ],
  right: [
    {
      block:
        'patient child\n  age 6 y\n  weight 20 kg\ngive 1 L dextrose 5% in sodium chloride 0.9% at 60 mL/h by peripheral vein to child',
    },
    { block: 'patient child\n  age 6 y\n  weight 20 kg\ngive 48 mL dextrose 5% at 2 mL/h by peripheral vein to child' },
  ],
});
