import { check } from './check.ts';
import { REFUSALS } from './refusals.ts';

export const outsideWorkspace = check({
  code: 'outside-workspace',
  severity: 'error',
  title: 'A note to be used that lies outside the workspace',
  faults: ['outside-workspace'],
  words: ({ path, why }) => ({
    read: `‘${path}’ was read as the path of a note.`,
    why: `${REFUSALS[why]} Only notes of the workspace are read, and nothing is taken from this one.`,
    mend:
      why === 'no-workspace'
        ? 'Save the note in the folder that is open, or write the fluids out in this note.'
        : 'Write a path from the folder of this note, such as ./formulary.md, or copy the note into the workspace.',
  }),
  page: `Only notes of the same workspace can be used, by a path from the folder of the note. In the editor the workspace is
the folder that is open; on the command line it is the nearest folder with \`.git\`, else the working directory. Paths that
begin with \`/\` or a drive, addresses, and \`..\` beyond the workspace are refused, and so are links of the file system that
lead out of it. In a browser, and in a workspace that lies on no disk, nobody can tell where a link leads: there every link is
refused.`,
  wrong: [
    { block: 'use «/srv/notes/formulary.md»' },
    { block: 'use «"https://example.org/formulary.md"»' },
    { block: 'use «../formulary.md»', notes: { './other.md': '' } },
  ],
  right: [{ block: 'use ./formulary.md', notes: { './formulary.md': 'mixture bag\n  1 L sodium chloride 0.9%' } }],
});
