/** Findings and results for a person at a terminal. */

import { terminalSafe, terminalText } from '../render/index.ts';
import type { DiagnosticReport, NoteReport, Severity } from '../service/index.ts';
import { CAUTION_TEXT } from '../service/index.ts';
import { type Summary, summaryLine } from './summary.ts';

export interface TextOptions {
  readonly colour: boolean;
  /** Results are set out when one note is checked; of many, only what is found. */
  readonly results: boolean;
}

const COLOURS: Record<Severity, number> = { error: 31, warning: 33, information: 36, hint: 90 };
const WIDTH = 100;

export function noteText(path: string, report: NoteReport, options: TextOptions): string {
  const parts: string[] = [];
  if (options.results && report.mixtures.length + report.orders.length > 0)
    parts.push(resultsText(path, report, options));
  if (report.accepted.length > 0) parts.push(acceptedText(path, report, options));
  for (const diagnostic of report.diagnostics) parts.push(findingText(path, report, diagnostic, options));
  return parts.map((part) => `${part}\n\n`).join('');
}

export function closingText(summary: Summary): string {
  return `${summaryLine(summary)}\n`;
}

function resultsText(path: string, report: NoteReport, { colour }: TextOptions): string {
  const orders = report.orders.map((order) => ({ ...order, name: order.name || order.fluid }));
  const names = Math.max(...[...report.mixtures, ...orders].map(({ name }) => name.length));
  const lines = [paint(path, 1, colour)];
  for (const { name, sentence, unknowns } of report.mixtures) {
    lines.push(`  ${terminalSafe(name).padEnd(names)}  ${terminalSafe(sentence)}`);
    for (const unknown of unknowns) lines.push(`  line ${unknown.line + 1}: ${terminalSafe(unknown.sentence)}`);
  }
  for (const { name, sentence, assumptions, volume } of orders) {
    lines.push(`  ${terminalSafe(name).padEnd(names)}  ${terminalSafe(sentence)}`);
    if (volume) lines.push(`  ${' '.repeat(names)}  Taken: ${terminalSafe(assumptions.join('; '))}.`);
  }
  for (const { line, text } of report.shown) lines.push(`  line ${line + 1}, ${terminalSafe(text)}`);
  for (const { table } of report.comparisons) {
    lines.push(
      '',
      ...terminalText([table], { colour, width: WIDTH })
        .trimEnd()
        .split('\n')
        .map((line) => `  ${line}`),
    );
  }
  if (orders.length > 0) lines.push(`  ${CAUTION_TEXT}`);
  return lines.join('\n');
}

/** Accepted findings stay in every report. */
function acceptedText(path: string, { accepted }: NoteReport, { colour }: TextOptions): string {
  const lines = accepted.map(
    ({ code, line, reason }) => `  line ${line + 1}, ${code}: accepted because ‘${terminalSafe(reason)}’`,
  );
  return [paint(`${path}: accepted`, 1, colour), ...lines].join('\n');
}

function findingText(path: string, report: NoteReport, finding: DiagnosticReport, { colour }: TextOptions): string {
  const { start, end } = finding.range;
  const { read, why, mend, source } = finding.parts;
  const number = String(start.line + 1);
  const margin = ' '.repeat(number.length);
  const { shown, mark } = underlined(
    report.lines.text(start.line),
    start.character,
    end.line === start.line ? end.character : null,
  );
  return [
    `${path}:${start.line + 1}:${start.character + 1}  ${paint(`${finding.severity}  ${finding.code}`, COLOURS[finding.severity], colour)}`,
    `  ${number} | ${shown}`,
    `  ${margin} | ${paint(mark, COLOURS[finding.severity], colour)}`,
    `  ${margin}   ${terminalSafe(`${read} ${why}`)}`,
    `  ${margin}   ${terminalSafe(mend)}${source ? ` [${terminalSafe(source)}]` : ''}`,
  ].join('\n');
}

/** The line, cut to a window round the place, and a row of ~ under it. A tab stays a tab, so that both rows align. */
function underlined(line: string, from: number, to: number | null): { shown: string; mark: string } {
  const end = Math.max(to ?? line.length, from + 1);
  const left = Math.max(0, Math.min(from - 20, end - WIDTH));
  const window = terminalSafe(line.slice(left, left + WIDTH));
  const lead = left > 0 ? '…' : '';
  const before = lead + line.slice(left, from);
  const blank = [...before].map((character) => (character === '\t' ? '\t' : ' ')).join('');
  const length = Math.min([...line.slice(from, end)].length || 1, WIDTH);
  return { shown: lead + window, mark: `${blank}${'~'.repeat(length)}` };
}

function paint(text: string, code: number, colour: boolean): string {
  return colour ? `\u001b[${code}m${text}\u001b[0m` : text;
}
