import { check, type FaultOf } from './check.ts';
import { REFUSALS } from './refusals.ts';

const MEND: Record<FaultOf<'missing-note'>['why'], string> = {
  none: 'Write its path from the folder of this note, such as ./formulary.md or ../pharmacy/formulary.md.',
  'not-a-note': 'Write the path of a note.',
  unreadable: 'Look whether it may be opened, and save it as UTF-8.',
  untrusted: 'Trust the workspace if its notes are known, or write the fluids out in this note.',
  separator: 'Write / in its place.',
};

export const missingNote = check({
  code: 'missing-note',
  severity: 'error',
  title: 'A note to be used that cannot be read',
  faults: ['missing-note'],
  words: ({ path, why }) => ({
    read: `‘${path}’ was read as the path of a note.`,
    why: `${REFUSALS[why]} So nothing is taken from it, and what uses its names shows no results.`,
    mend: MEND[why],
  }),
  page: `\`use ./formulary.md\` takes the mixtures, stocks and substances of another note of the workspace. The path is
written from the folder of the note, with \`/\`, and between quotation marks if it has spaces. While that note cannot be
read, a name that nothing else answers to is put down to it and not reported a second time.`,
  wrong: [{ block: 'use «./formulary.md»' }, { block: 'use «./fluids.txt»' }],
  right: [
    {
      block: 'use ./formulary.md\nmixture bag\n  500 mL gastric',
      notes: { './formulary.md': 'mixture gastric\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL' },
    },
  ],
});
