import { check } from './check.ts';

export const missingPatientValue = check({
  code: 'missing-patient-value',
  severity: 'information',
  title: 'Something of the patient that is not written',
  faults: ['missing-patient-value'],
  words: ({ value, patient, wanted }) => ({
    read: `${wanted} was asked for.`,
    why: patient
      ? `It rests on the ${value}, which is not written for ‘${patient}’.`
      : `It rests on the ${value} of a patient, and the order names none.`,
    mend: patient
      ? `Write the ${value} below ‘patient ${patient}’.`
      : `Write a patient with the ${value}, and ‘to’ with the name behind the order.`,
  }),
  page: `What rests on a weight, an age or a laboratory value is worked out only where it is written; nothing is assumed instead.`,
  wrong: [
    { block: 'patient adult\n  age 50 y\ngive 500 mL sodium chloride 0.9% at «2 mL/kg/h» by peripheral vein to adult' },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL sodium chloride 0.9% at 2 mL/kg/h by peripheral vein to adult',
    },
  ],
});
