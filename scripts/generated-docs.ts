/** The generated documentation as path and text: pages of the checks, the table of observables, the JSON example. */
import { readFile } from 'node:fs/promises';
import { CHECKS } from '../src/checks/index.ts';
import { JsonReporter } from '../src/cli/json-report.ts';
import { NOTHING, plusNote } from '../src/cli/summary.ts';
import { EXPORTS, uuid5 } from '../src/cli/uuid.ts';
import { fixedObservables } from '../src/engine/index.ts';
import { ROUTE_DATA } from '../src/engine/reference.ts';
import { DEFAULT_POLICY, NO_NOTES } from '../src/note/index.ts';
import { worksheetMarkdown } from '../src/render/index.ts';
import { createNoteService, exportOf, reportOf } from '../src/service/index.ts';
import { checkPage, checksIndex } from './check-pages.ts';
import { fence } from './fence.ts';
import { fluidsPage } from './fluids-page.ts';
import { limitsTable, policySchema } from './policy-docs.ts';
import { root } from './root.ts';

export async function generatedDocs(): Promise<ReadonlyMap<string, string>> {
  const docs = new Map<string, string>();
  docs.set('docs/checks/README.md', checksIndex());
  for (const check of CHECKS) docs.set(`docs/checks/${check.code}.md`, checkPage(check));
  docs.set('docs/fluids.md', fluidsPage());
  docs.set(
    'docs/notation.md',
    await filledIn('docs/notation.md', { observables: observablesTable(), routes: routesTable() }),
  );
  docs.set('docs/policy.md', await filledIn('docs/policy.md', { limits: limitsTable() }));
  docs.set('shared/schema/infusion-policy.schema.json', policySchema());
  docs.set(
    'docs/command-line.md',
    await filledIn('docs/command-line.md', {
      'json-note': fence('markdown', EXAMPLE_NOTE.trimEnd()),
      'json-report': fence('json', exampleReport().trimEnd()),
    }),
  );
  docs.set(
    'docs/worksheet.md',
    await filledIn('docs/worksheet.md', {
      'worksheet-note': fence('markdown', WORKSHEET_NOTE.trimEnd()),
      worksheet: fence('markdown', exampleWorksheet().trimEnd()),
    }),
  );
  docs.set(
    'docs/export.md',
    await filledIn('docs/export.md', {
      'export-note': fence('markdown', EXPORT_NOTE.trimEnd()),
      'export-csv': fence('csv', exampleExport('csv').replaceAll('\r\n', '\n').trimEnd()),
      'export-fhir': fence('json', exampleExport('fhir').trimEnd()),
    }),
  );
  return docs;
}

/** Every name of each route, the one that is shown first. */
function routesTable(): string {
  const rows = ROUTE_DATA.map(({ names: [name, ...others] }) => `| ${name} | ${others.join(', ')} |`);
  return ['| route | other names |', '| --- | --- |', ...rows].join('\n');
}

function observablesTable(): string {
  const rows = fixedObservables().map(({ name, aliases, kind, unit, total, of }) => {
    const subjects = of.includes('mixture') ? 'mixture, order' : of.join(', ');
    const others = aliases.length > 0 ? ` (${aliases.join(', ')})` : '';
    return `| ${name}${others} | ${unit || (kind.startsWith('tonicity') ? 'in words' : 'none')} | ${total ?? ''} | ${subjects} |`;
  });
  return ['| observable | unit | whole bag, order | asked of |', '| --- | --- | --- | --- |', ...rows].join('\n');
}

const EXAMPLE_NOTE = `# Gastric losses

\`\`\`infusion
mixture gastric "Gastric replacement"
   1 L sodium chloride 0.9%
  10 mL potassium chloride 2 mmol/mL
  claim potassium 20 mmol/L
  claim sodium 145 mmol/L
\`\`\`
`;

function exampleReport(): string {
  const report = reportOf(EXAMPLE_NOTE);
  const json = new JsonReporter();
  const parts = [json.begin(), json.file({ path: 'notes/gastric.md', policy: null, report })];
  return parts.join('') + json.end({ summary: plusNote(NOTHING, report), exitCode: 1 });
}

const WORKSHEET_NOTE = `\`\`\`infusion
mixture brine "Sodium chloride 3 % from 23.4 %"
  ? mL sodium chloride 23.4%
  water to 500 mL
  target sodium 513 mmol/L

give brine at 50 mL/h for 2 h by central vein
\`\`\`
`;

function exampleWorksheet(): string {
  const made = createNoteService()
    .work('notes/brine.md', WORKSHEET_NOTE)
    .worksheet({ name: 'brine' }, { path: 'notes/brine.md', policy: null, bags: '2 bags', to: '250 mL' });
  if (!made.ok) throw new Error(made.reason);
  return worksheetMarkdown(made.sheet);
}

const EXPORT_NOTE = `\`\`\`infusion
mixture bag "Dextrose with potassium"
  20 mmol potassium chloride
  dextrose 5% to 1 L

patient bed-4
  weight 60 kg
  serum potassium 3.4 mmol/L

give 500 mL bag at 60 mL/h by peripheral vein to bed-4 as evening
\`\`\`
`;

function exampleExport(format: 'fhir' | 'csv'): string {
  const uuid = (content: string) => uuid5(EXPORTS, content);
  const asked = { name: 'evening', format, path: 'notes/ward.md', policyFile: null, uuid };
  const exported = exportOf(EXPORT_NOTE, asked, DEFAULT_POLICY, NO_NOTES);
  if (!exported.ok) throw new Error(exported.reason);
  return exported.text;
}

/** A page with the text between `<!-- name -->` and `<!-- /name -->` made anew. */
async function filledIn(path: string, parts: Readonly<Record<string, string>>): Promise<string> {
  let text = await readFile(root + path, 'utf8');
  for (const [name, part] of Object.entries(parts)) {
    const marks = new RegExp(`(<!-- ${name} -->\n)[\\s\\S]*?(<!-- /${name} -->)`);
    if (!marks.test(text)) throw new Error(`${path} has no marks for ${name}`);
    text = text.replace(marks, (_, open: string, close: string) => `${open}\n${part}\n\n${close}`);
  }
  return text;
}
