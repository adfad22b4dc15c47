/** The page of each check, with what it says of its examples, and their index. */
import type { Example, Wording } from '../src/checks/check.ts';
import { findingsOf } from '../src/checks/findings.ts';
import { CHECKS, type Check } from '../src/checks/index.ts';
import { readNote } from '../src/markdown/index.ts';
import { parseBlock } from '../src/notation/index.ts';
import { DEFAULT_POLICY, workNote } from '../src/note/index.ts';
import { readPolicyFile } from '../src/service/index.ts';
import { usedInExample } from './example-notes.ts';
import { fence } from './fence.ts';

const NOTE_ON_GENERATION = '<!-- Generated from src/checks by `npm run docs`. -->';

export function checksIndex(): string {
  const rows = CHECKS.map(({ code, severity, title }) => `| [\`${code}\`](${code}.md) | ${severity} | ${title} |`);
  return `${NOTE_ON_GENERATION}

# Findings

| code | severity | what it is |
| --- | --- | --- |
${rows.join('\n')}
`;
}

export function checkPage(check: Check): string {
  const wrong = check.wrong.map((example) => {
    const block = example.block.replace(/[«»]/g, '');
    const found = example.policy
      ? readPolicyFile(block).diagnostics[0]?.parts
      : firstWording(block, check.code, example);
    if (!found) throw new Error(`an example of ${check.code} has no finding:\n${block}`);
    const { read, why, mend, source } = found;
    const said = `> ${read} ${why}\n>\n> ${mend}${source ? ` (${source})` : ''}`;
    return `${fence(languageOf(example), shortened(block.trimEnd()))}\n\n${otherNotes(example)}${said}`;
  });
  const right = check.right.map((example) =>
    `${fence(languageOf(example), example.block.trimEnd())}\n\n${otherNotes(example)}`.trimEnd(),
  );
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

/** What the example is there to show: its own finding, whatever else is said of it for information. */
function firstWording(
  block: string,
  code: string,
  { info = '', open = false, note: whole = false, notes = {} }: Example,
): Wording | undefined {
  const note = whole ? block : `\`\`\`infusion${info && ` ${info}`}\n${block}\n${open ? '' : '```\n'}`;
  return findingsOf(workNote(readNote(note), parseBlock, DEFAULT_POLICY, usedInExample(note, notes))).open.find(
    (finding) => finding.code === code,
  )?.wording;
}

function otherNotes({ notes = {} }: Example): string {
  const shown = Object.entries(notes).filter(([, block]) => block);
  return shown.map(([path, block]) => `in \`${path}\`:\n\n${fence('', block)}\n\n`).join('');
}

function languageOf({ policy, note }: Example): string {
  return policy ? 'json' : note ? 'markdown' : '';
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
