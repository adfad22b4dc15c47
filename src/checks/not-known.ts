import type { NoResult } from '../note/index.ts';
import { check } from './check.ts';

const WHY = {
  'no-volume': 'there is no volume',
  'no-water': 'the solutes leave no room for water',
  'charge-imbalance': 'the charges that the label states do not meet',
  'too-strong': 'it is stronger than the data of the model reach',
} as const;

const NO_RESULT: Record<NoResult, readonly [string, string]> = {
  'no-time': ['It is given at once or has no end, so there is no time to tell it by.', 'Write for how long it runs.'],
  'no-rule': [
    'The simple rule of where water goes does not hold for this fluid or this route.',
    'Leave the line out; mannitol, glycine, amino acids and colloids, and fluids outside the body, go by other rules.',
  ],
  'no-body': ['No patient is named, so there is no body to tell it of.', 'Name the patient: … to adult.'],
  'no-water-left': ['The losses would take all the water there is.', 'Check the rates of the losses.'],
  'too-long': [
    'The order runs for more than 14 days, and no prediction reaches so far.',
    'Leave the line out, or write the order for a shorter time.',
  ],
  newborn: [
    'In the first 28 days of life the usual amounts go by the day of life, and this rule does not hold.',
    'Leave the line out, and go by the table of the ward.',
  ],
  'no-recipe': [
    'The fluid is no mixture of the note, so it has no bag of its own.',
    'Write the order as 2 x 500 mL, or leave the line out.',
  ],
  withheld: ['An order for this patient could not be worked out.', 'Mend that order.'],
  'no-set': ['No set is named, so a drop has no size.', 'Add the set to the order: through a set of 20 drops/mL.'],
};

export const notKnown = check({
  code: 'not-known',
  severity: 'information',
  title: 'A result that rests on what is not known',
  faults: ['not-known', 'no-estimate', 'no-result'],
  words(fault) {
    const read = `${fault.observable} is asked for.`;
    if (fault.code === 'no-estimate') {
      return {
        read,
        why: `No estimate is given: ${WHY[fault.why]}.`,
        mend: 'Measure it, or look it up in the product\u2019s own data.',
      };
    }
    if (fault.code === 'no-result') {
      const [why, mend] = NO_RESULT[fault.why];
      return { read, why, mend };
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
    { block: 'give 500 mL sodium chloride 0.9% over 4 h by central vein\n  claim drop rate «42 drops/min»' },
  ],
  right: [{ block: 'mixture bag\n  100 mL albumin 5%\n  claim sodium 145 mmol/L within 15 mmol/L' }],
});
