import { formatDecimal } from '../engine/index.ts';
import { check } from './check.ts';

export const unusualPatientValue = check({
  code: 'unusual-patient-value',
  severity: 'warning',
  title: 'A figure of a patient beyond what is met',
  faults: ['unusual-patient-value'],
  words: ({ of, found, least, most, unit }) => ({
    read: `${of} ${found} was read.`,
    why: `What is met lies between ${formatDecimal(least)} and ${formatDecimal(most)} ${unit}.`,
    mend: 'Check the number and its unit; if it is right, accept the finding with its reason.',
    source: 'common practice, no source',
  }),
  page: `A weight of 6800 kg or a serum sodium of 13 mmol/L is a slip of the hand. The range is wide, and only what no
bedside sees is named. The figure is worked with as it stands.`,
  wrong: [{ block: 'patient adult\n  weight «700 kg»' }, { block: 'patient adult\n  serum sodium «13 mmol/L»' }],
  right: [{ block: 'patient adult\n  weight 70 kg\n  serum sodium 134 mmol/L' }],
});
