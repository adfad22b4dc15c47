/** Why an abbreviation is misread, and who says so. */
import type { Abbreviation } from '../note/faults.ts';
import type { Wording } from './check.ts';

const JOINT_COMMISSION = 'Joint Commission, official ‘Do Not Use’ list, 2009';
const ISMP = 'ISMP, list of error-prone abbreviations, symbols and dose designations, 2006';
const NEW_ZEALAND = 'New Zealand national list of error-prone abbreviations';

export const MISREADINGS: Readonly<Record<Abbreviation, Pick<Wording, 'why' | 'source'>>> = {
  fluid: {
    why: 'Abbreviated fluid names are read differently by different readers.',
    source: 'error-prone abbreviation lists of medication-safety bodies; common practice',
  },
  symbol: {
    why: 'Chemical symbols have been taken for each other, such as KCl for HCl and magnesium sulfate for morphine.',
    source: `${NEW_ZEALAND}; ${ISMP}`,
  },
  micro: {
    why: 'The letter before g has been read as m, which makes the amount a thousand times too large.',
    source: ISMP,
  },
  cubic: { why: 'It has been read as U, and as two zeros.', source: ISMP },
  activity: {
    why: 'U has been read as 0, as 4 and as cc, and IU as IV and as 10.',
    source: JOINT_COMMISSION,
  },
  'small-l': { why: 'A small l looks like the figure 1.', source: ISMP },
  stop: {
    why: 'A full stop behind a unit has been read as a 1.',
    source: `${ISMP}; SI brochure, 9th edition, 2019`,
  },
  daily: {
    why: 'Latin intervals have been taken for each other: daily for four times a day.',
    source: JOINT_COMMISSION,
  },
  sign: { why: 'The sign has been read as a figure, and one sign as its opposite.', source: ISMP },
};

const UNITS: Readonly<Record<string, Abbreviation>> = {
  cc: 'cubic',
  ccs: 'cubic',
  U: 'activity',
  u: 'activity',
  IU: 'activity',
  iu: 'activity',
  ug: 'micro',
};

/** What is known of a text that is no unit and stands on one of the lists, such as `cc/h` or `mL.`. */
export function misreadUnit(text: string): Pick<Wording, 'why' | 'source'> | null {
  if (text.endsWith('.')) return MISREADINGS.stop;
  for (const part of text.split('/')) {
    if (Object.hasOwn(UNITS, part)) return MISREADINGS[UNITS[part]!];
  }
  return null;
}
