/** The report that other programs read; its form holds still (see docs/command-line.md). */
import { terminalSafeJson } from '../render/terminal-safe.ts';
import type { Outcome, ReportedFile, Reporter } from './reporter.ts';

/** One object, indented by two spaces, written file by file. */
export class JsonReporter implements Reporter {
  private empty = true;

  begin(): string {
    return '{\n  "version": 1,\n  "files": [';
  }

  file(file: ReportedFile): string {
    const before = this.empty ? '\n' : ',\n';
    this.empty = false;
    return `${before}    ${indented(fileEntry(file), '    ')}`;
  }

  refused(): string {
    return '';
  }

  end({ summary: { policies: _, ...summary } }: Outcome): string {
    return `${this.empty ? '' : '\n  '}],\n  "summary": ${indented(summary, '  ')}\n}\n`;
  }
}

function indented(value: object, margin: string): string {
  return terminalSafeJson(JSON.stringify(value, null, 2)).replaceAll('\n', `\n${margin}`);
}

/** A policy with findings has an entry of the same form. */
function fileEntry({ path, policy, report }: ReportedFile): object {
  const { mixtures, orders, numbers, accepted, diagnostics } = report;
  return {
    path,
    policy,
    mixtures: mixtures.map(({ name, title, line, state, volume, results, tonicity, unknowns }) => ({
      name,
      title,
      line,
      state,
      volume,
      results,
      tonicity,
      unknowns: unknowns.map(({ line: at, value, unit }) => ({ line: at, value, unit })),
    })),
    orders: orders.map(({ sentence: _, ...order }) => order),
    numbers,
    accepted: accepted.map(({ code, range, reason }) => ({ code, line: range.start.line, reason })),
    diagnostics: diagnostics.map(({ code, severity, message, range }) => ({ code, severity, message, range })),
  };
}
