import { check } from './check.ts';
import { REFUSALS } from './refusals.ts';

const BOUNDS = {
  'line-length': (limit: number) => `A line has at most ${limit} characters.`,
  'words-in-line': (limit: number) => `A line has at most ${limit} words.`,
  'name-length': (limit: number) => `A name has at most ${limit} characters.`,
  digits: (limit: number) => `A number has at most ${limit} digits.`,
  magnitude: (limit: number) => `No amount at a bedside or on a bench is above ${limit}.`,
  lines: (limit: number) => `A block has at most ${limit} lines.`,
  'lines-in-note': (limit: number) => `The blocks of a note have at most ${limit} lines in all.`,
  alternatives: (limit: number) => `A line that begins with ‘what if’ takes at most ${limit} figures in turn.`,
  'what-ifs': (limit: number) => `At most ${limit} lines of a note begin with ‘what if’.`,
  runs: (limit: number) => `An order is given at most ${limit} times.`,
} as const;

export const overLimit = check({
  code: 'over-limit',
  severity: 'error',
  title: 'Longer or larger than can be meant',
  faults: ['over-limit', 'too-many-tolerances', 'use-over-limit'],
  words(fault) {
    if (fault.code === 'too-many-tolerances') {
      return {
        read: 'Many amounts here, or of what it is made from, carry a tolerance.',
        why: `At most ${fault.limit} combinations of their ends are worked out.`,
        mend: 'Leave some of the tolerances out; the results stand as if there were none.',
      };
    }
    if (fault.code === 'use-over-limit') {
      return {
        read: `‘${fault.path}’ was read as the path of a note.`,
        why: `${REFUSALS[fault.what]} What goes beyond that is not read.`,
        mend: 'Gather the fluids in fewer or smaller notes.',
      };
    }
    return {
      read: 'More was met here than is read.',
      why: BOUNDS[fault.what](fault.limit),
      mend:
        fault.what === 'lines-in-note'
          ? 'Split the note: this block and those after it are not read.'
          : 'Shorten it, or split it over several lines or blocks.',
    };
  },
  page: `Everything that is read has a bound, so that a pasted file or a stuck key cannot stall the editor. The line is
passed over and the rest of the block is read.`,
  wrong: [{ block: `mixture bag\n  «${'9'.repeat(60)}» mL sodium chloride 0.9%` }],
  right: [{ block: 'mixture bag\n  999 mL sodium chloride 0.9%' }],
});
