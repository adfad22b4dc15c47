import { check } from './check.ts';

const WHY = {
  'no-volume': 'there is no volume',
  'no-water': 'the solutes leave no room for water',
  'charge-imbalance': 'the charges that the label states do not meet',
  'too-strong': 'it is stronger than the data of the model reach',
} as const;

export const notKnown = check({
  code: 'not-known',
  severity: 'information',
  title: 'A result that rests on what is not known',
  faults: ['not-known', 'no-estimate'],
  words(fault) {
    const read = `${fault.observable} is asked for.`;
    if (fault.code === 'no-estimate') {
      return {
        read,
        why: `No estimate is given: ${WHY[fault.why]}.`,
        mend: 'Measure it, or look it up in the product\u2019s own data.',
      };
    }
    return {
      read,
      why: `It rests on ${fault.of}, of which nothing is stated or contained.`,
      mend: 'Leave it out, or declare a fluid of your own with what is known of it.',
    };
  },
  page: `A label may leave out what a result needs: of an albumin solution only the sodium is printed, so its chloride and
strong ion difference are not known. A ratio to chloride needs chloride. An estimate by a model ends where its data do. No
number is made up; the line is left unanswered.`,
  wrong: [
    { block: 'mixture bag\n  100 mL albumin 5%\n  claim chloride «145 mmol/L»' },
    { block: 'mixture bag\n  1 L sodium bicarbonate 1.4%\n  claim sodium to chloride ratio «1»' },
  ],
  right: [{ block: 'mixture bag\n  100 mL albumin 5%\n  claim sodium 145 mmol/L within 15 mmol/L' }],
});
