/** The generated documentation as path and text: pages of the checks, the table of observables, the JSON example. */
import { readFile } from 'node:fs/promises';
import { CHECKS, type Check, findingOf } from '../src/checks/index.ts';
import { fileEntry, jsonReport } from '../src/cli/json-report.ts';
import { NOTHING, plusNote } from '../src/cli/summary.ts';
import { fixedObservables } from '../src/engine/index.ts';
import { readNote } from '../src/markdown/index.ts';
import { workNote } from '../src/note/index.ts';
import { reportOf } from '../src/service/index.ts';
import { fluidsPage } from './fluids-page.ts';
import { root } from './root.ts';

export async function generatedDocs(): Promise<ReadonlyMap<string, string>> {
  const docs = new Map<string, string>();
  docs.set('docs/checks/README.md', checksIndex());
  for (const check of CHECKS) docs.set(`docs/checks/${check.code}.md`, checkPage(check));
  docs.set('docs/fluids.md', fluidsPage());
  docs.set('docs/notation.md', await filledIn('docs/notation.md', { observables: observablesTable() }));
  docs.set(
    'docs/command-line.md',
    await filledIn('docs/command-line.md', {
      'json-note': fence('markdown', EXAMPLE_NOTE.trimEnd()),
      'json-report': fence('json', exampleReport().trimEnd()),
    }),
  );
  return docs;
}

const NOTE_ON_GENERATION = '<!-- Generated from src/checks by `npm run docs`. -->';

function checksIndex(): string {
  const rows = CHECKS.map(({ code, severity, title }) => `| [\`${code}\`](${code}.md) | ${severity} | ${title} |`);
  return `${NOTE_ON_GENERATION}

# Findings

| code | severity | what it is |
| --- | --- | --- |
${rows.join('\n')}
`;
}

function checkPage(check: Check): string {
  const wrong = check.wrong.map((example) => {
    const block = example.block.replace(/[«»]/g, '');
    const opened = example.info ? `infusion ${example.info}` : 'infusion';
    const source = `\`\`\`${opened}\n${block}\n${example.open ? '' : '```\n'}`;
    const [fault] = workNote(readNote(source)).faults;
    if (!fault) throw new Error(`an example of ${check.code} has no finding:\n${block}`);
    const { read, why, mend, source: from } = findingOf(fault).wording;
    const said = `> ${read} ${why}\n>\n> ${mend}${from ? ` (${from})` : ''}`;
    return `${fence('', `${shortened(block)}`)}\n\n${said}`;
  });
  const right = check.right.map(({ block }) => fence('', block));
  return `${NOTE_ON_GENERATION}

# ${check.title}

\`${check.code}\`, ${article(check.severity)}

${check.page}

## Reported

${wrong.join('\n\n')}

## Not reported

${right.join('\n\n')}
`;
}

/** Lines of an example longer than a page is wide are cut. */
function shortened(block: string): string {
  return block
    .split('\n')
    .map((line) => (line.length > 100 ? `${line.slice(0, 99)}…` : line))
    .join('\n');
}

function article(severity: Check['severity']): string {
  return { error: 'an error', warning: 'a warning', information: 'information', hint: 'a hint' }[severity];
}

function observablesTable(): string {
  const rows = fixedObservables().map(({ name, aliases, kind, unit, total, known }) => {
    const worked = known ? 'yes' : 'read only';
    const others = aliases.length > 0 ? ` (${aliases.join(', ')})` : '';
    return `| ${name}${others} | ${unit || (kind.startsWith('tonicity') ? 'in words' : 'none')} | ${total ?? ''} | ${worked} |`;
  });
  return ['| observable | unit | whole bag | worked out |', '| --- | --- | --- | --- |', ...rows].join('\n');
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
  return jsonReport([fileEntry('notes/gastric.md', report)], plusNote(NOTHING, report));
}

function fence(language: string, text: string): string {
  const ticks = text.includes('```') ? '````' : '```';
  return `${ticks}${language}\n${text}\n${ticks}`;
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
