/** The report that other programs read; its form holds still (see docs/command-line.md). */
import type { NoteReport } from '../service/index.ts';
import type { Summary } from './summary.ts';

/** `policy`: the path of the one that was used, null for none. A policy with findings has an entry of the same form. */
export function fileEntry(
  path: string,
  policy: string | null,
  { mixtures, orders, numbers, accepted, diagnostics }: NoteReport,
): object {
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
    accepted,
    diagnostics: diagnostics.map(({ code, severity, message, range }) => ({ code, severity, message, range })),
  };
}

export function jsonReport(files: readonly object[], { policies: _, ...summary }: Summary): string {
  return `${JSON.stringify({ version: 1, files, summary }, null, 2)}\n`;
}
