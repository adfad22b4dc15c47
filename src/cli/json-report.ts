/** The report that other programs read; its form holds still (see docs/command-line.md). */
import type { NoteReport } from '../service/index.ts';
import type { Summary } from './summary.ts';

export function fileEntry(path: string, { mixtures, diagnostics }: NoteReport): object {
  return {
    path,
    policy: null,
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
    orders: [],
    numbers: [],
    accepted: [],
    diagnostics: diagnostics.map(({ code, severity, message, range }) => ({ code, severity, message, range })),
  };
}

export function jsonReport(files: readonly object[], summary: Summary): string {
  return `${JSON.stringify({ version: 1, files, summary }, null, 2)}\n`;
}
