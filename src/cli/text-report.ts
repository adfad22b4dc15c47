/** Findings and results for a person at a terminal. */

import { terminalSafe } from '../render/terminal-safe.ts';
import { terminalText } from '../render/terminal-text.ts';
import { CAUTION_TEXT } from '../service/cards/caution.ts';
import type { AcceptedReport, DiagnosticReport, NoteReport } from '../service/report-model.ts';
import type { Severity } from '../service/types.ts';
import type { Outcome, ReportedFile, Reporter, ReporterOptions } from './reporter.ts';
import { summaryLine } from './summary.ts';

type TextOptions = Pick<ReporterOptions, 'colour' | 'results'>;

const COLOURS: Record<Severity, number> = { error: 31, warning: 33, information: 36, hint: 90 };
const WIDTH = 100;

export class TextReporter implements Reporter {
  /** Accepted findings stay in every report; here they close it. */
  private readonly accepted: string[] = [];

  constructor(private readonly options: TextOptions) {}

  begin(): string {
    return '';
  }

  file({ path, report }: ReportedFile): string {
    const { options } = this;
    const name = terminalSafe(path);
    const parts: string[] = [];
    if (options.results && report.mixtures.length + report.orders.length > 0)
      parts.push(resultsText(name, report, options));
    for (const finding of report.diagnostics) parts.push(findingText(name, finding, options));
    for (const finding of report.accepted) this.accepted.push(acceptedText(name, finding));
    return parts.map((part) => `${part}\n\n`).join('');
  }

  refused(): string {
    return '';
  }

  end({ summary }: Outcome): string {
    const { accepted, options } = this;
    const heading = paint('Accepted, with the reasons that the notes give', 1, options.colour);
    const closing = accepted.length > 0 ? `${[heading, ...accepted].join('\n')}\n\n` : '';
    return `${closing}${summaryLine(summary)}\n`;
  }
}

function resultsText(path: string, report: NoteReport, { colour }: TextOptions): string {
  const orders = report.orders.map((order) => ({ ...order, name: order.name || order.fluid }));
  const names = Math.max(...[...report.mixtures, ...orders].map(({ name }) => name.length));
  const lines = [paint(terminalSafe(path), 1, colour)];
  for (const { name, sentence, unknowns } of report.mixtures) {
    lines.push(`  ${terminalSafe(name).padEnd(names)}  ${terminalSafe(sentence)}`);
    for (const unknown of unknowns) lines.push(`  line ${unknown.line + 1}: ${terminalSafe(unknown.sentence)}`);
  }
  for (const { name, sentence, assumptions, volume } of orders) {
    lines.push(`  ${terminalSafe(name).padEnd(names)}  ${terminalSafe(sentence)}`);
    if (volume) lines.push(`  ${' '.repeat(names)}  Taken: ${terminalSafe(assumptions.join('; '))}.`);
  }
  for (const { line, text } of report.shown) lines.push(`  line ${line + 1}, ${terminalSafe(text)}`);
  for (const { table } of report.tables) {
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

function acceptedText(path: string, { code, range, reason }: AcceptedReport): string {
  return `  ${placeText(path, range.start)}  ${code}  ‘${terminalSafe(reason)}’`;
}

function findingText(path: string, finding: DiagnosticReport, { colour }: TextOptions): string {
  const { severity, code, range } = finding;
  const { read, why, mend, source } = finding.parts;
  const number = String(range.start.line + 1);
  const margin = ' '.repeat(number.length);
  const { shown, mark } = underlined(finding);
  return [
    `${placeText(path, range.start)}  ${paint(`${severity}  ${code}`, COLOURS[severity], colour)}`,
    `  ${number} | ${shown}`,
    `  ${margin} | ${paint(mark, COLOURS[severity], colour)}`,
    `  ${margin}   ${terminalSafe(`${read} ${why}`)}`,
    `  ${margin}   ${terminalSafe(mend)}${source ? ` [${terminalSafe(source)}]` : ''}`,
  ].join('\n');
}

function placeText(path: string, { line, character }: DiagnosticReport['range']['start']): string {
  return `${path}:${line + 1}:${character + 1}`;
}

/** What is shown of the line, and a row of ~ under the place. */
function underlined({ excerpt: { text, from, to, cut } }: DiagnosticReport): { shown: string; mark: string } {
  const lead = cut ? '…' : '';
  const before = [...(lead + text.slice(0, from))].length;
  const marked = [...text.slice(from, to)].length || 1;
  return { shown: lead + terminalSafe(text), mark: ' '.repeat(before) + '~'.repeat(marked) };
}

function paint(text: string, code: number, colour: boolean): string {
  return colour ? `\u001b[${code}m${text}\u001b[0m` : text;
}
