/**
 * Workflow commands of GitHub Actions, which become annotations beside the lines. Everything from a note stands inside a
 * command and is escaped as the toolkit of GitHub Actions does it (packages/core/src/command.ts).
 */
import { terminalSafe } from '../render/terminal-safe.ts';
import type { DiagnosticReport, Severity } from '../service/index.ts';
import type { Outcome, ReportedFile, Reporter } from './reporter.ts';
import { summaryLine } from './summary.ts';

type Command = 'error' | 'warning' | 'notice';

const COMMANDS: Readonly<Record<Severity, Command>> = {
  error: 'error',
  warning: 'warning',
  information: 'notice',
  hint: 'notice',
};

export class GithubReporter implements Reporter {
  begin(): string {
    return '';
  }

  file({ path, report }: ReportedFile): string {
    return [
      ...report.diagnostics.map((finding) =>
        command(COMMANDS[finding.severity], placeOf(path, finding, finding.code), finding.message),
      ),
      ...report.accepted.map((finding) => {
        const text = `Accepted because ‘${finding.reason}’: ${finding.message}`;
        return command('notice', placeOf(path, finding, `${finding.code}, accepted`), text);
      }),
    ].join('');
  }

  refused(reason: string): string {
    return command('error', { title: 'not checked' }, reason);
  }

  end({ summary }: Outcome): string {
    return `${summaryLine(summary)}\n`;
  }
}

/** Counted from one. Columns are taken only of a place in one line. */
function placeOf(file: string, { range: { start, end } }: DiagnosticReport, title: string) {
  const lines = { file, line: start.line + 1, endLine: end.line + 1 };
  if (start.line !== end.line) return { ...lines, title };
  return { ...lines, col: start.character + 1, endColumn: end.character + 1, title };
}

function command(name: Command, properties: Readonly<Record<string, string | number>>, text: string): string {
  const given = Object.entries(properties).map(([key, value]) => `${key}=${property(String(value))}`);
  return `::${name} ${given.join(',')}::${data(text)}\n`;
}

function data(text: string): string {
  return terminalSafe(text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A'));
}

function property(text: string): string {
  return data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
