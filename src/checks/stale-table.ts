import { check } from './check.ts';
import { both } from './wording.ts';

export const staleTable = check({
  code: 'stale-table',
  severity: 'warning',
  title: 'A kept table that is no longer true',
  faults: ['stale-table'],
  words: ({ fluids }) => ({
    read: `A table of ${both(fluids, true)} is kept here.`,
    why: 'What stands between the marks is not what works out.',
    mend: 'Write the table anew.',
  }),
  fixes: ({ edit }) => [
    { title: 'Write ‘the table’ anew, as it works out', replace: edit.text, at: edit.span, changesNumber: true },
  ],
  page: `Between \`<!-- infusion:compare … -->\` and \`<!-- /infusion -->\` the tool keeps a Markdown table: a row a fluid, a
column a result with its unit at the head. It is compared cell by cell, so that columns that were padded or aligned
otherwise do not matter. \`meniscus update\` and the command *Update Numbers in This Note* write it for a whole note.`,
  wrong: [
    {
      note: true,
      block:
        '```infusion\nmixture half\n  500 mL sodium chloride 0.9%\n  water to 1 L\n```\n\n«<!-- infusion:compare half by sodium, free water -->»\n\n|  | sodium, mmol/L | free water, mL/L |\n| --- | ---: | ---: |\n| half | 154 | 0 |\n\n<!-- /infusion -->\n',
    },
  ],
  right: [
    {
      note: true,
      block:
        '```infusion\nmixture half\n  500 mL sodium chloride 0.9%\n  water to 1 L\n```\n\n<!-- infusion:compare half by sodium, free water -->\n\n|      | sodium, mmol/L | free water, mL/L |\n| :--- | -------------: | ---------------: |\n| half |             77 |              500 |\n\n<!-- /infusion -->\n',
    },
  ],
});
