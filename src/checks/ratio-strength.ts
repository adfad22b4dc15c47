import { check } from './check.ts';
import { chosen } from './wording.ts';

export const ratioStrength = check({
  code: 'ratio-strength',
  severity: 'warning',
  title: 'A strength written as a ratio',
  faults: ['ratio-strength'],
  words: ({ found, safe }) => ({
    read: `‘${found}’ was read.`,
    why: 'A ratio has to be converted before a dose is known, and 1:1000 and 1:10 000, a factor of ten apart, have been taken for each other.',
    mend: safe
      ? `Write the strength as a mass in a millilitre; grams in millilitres make this ${safe}.`
      : 'Write the strength as a mass in a millilitre.',
    source:
      'ISMP, list of error-prone abbreviations, and USP general chapter 7, Labeling, which left ratios out: from memory',
  }),
  fixes: ({ safe }) => (safe ? chosen([safe]) : []),
  page: `1:1000 is one gram in 1000 mL, 1 mg/mL; 1:10 000 is 0.1 mg/mL. Strengths are written as a mass in a volume, and a
ratio is not converted silently: in a block its line is not read, and its mixture shows no results.`,
  wrong: [
    {
      block: 'substance epinephrine\nmixture bag\n  1 mL epinephrine «1:1000»\n  water to 100 mL',
    },
    {
      block: 'substance epinephrine\nmixture bag\n  10 mL epinephrine «1:10 000»\n  water to 100 mL',
    },
  ],
  right: [{ block: 'substance epinephrine\nmixture bag\n  1 mL epinephrine 1 mg/mL\n  water to 100 mL' }],
});
