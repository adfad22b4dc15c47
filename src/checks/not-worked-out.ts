import type { NotWorkedOut } from '../note/faults.ts';
import { check } from './check.ts';

const WHAT: Record<NotWorkedOut, (found: string) => string> = {
  use: (found) => `The note ‘${found}’`,
};

export const notWorkedOut = check({
  code: 'not-worked-out',
  severity: 'information',
  title: 'Read, but not worked out',
  faults: ['not-worked-out'],
  words: ({ what, found }) => ({
    read: `${WHAT[what](found)} was read.`,
    why: 'This version does not work it out yet, and what depends on it shows no results.',
    mend: 'Nothing needs mending; work it out by hand and check it independently.',
  }),
  page: `The whole notation is read, so that a note can be written now; some of it is not worked out by this version:
other notes. What depends on such a line is withheld.`,
  wrong: [{ block: '«use ./formulary.md»' }],
  right: [{ block: 'mixture bag\n  500 mL sodium chloride 0.9%' }],
});
