/** The counts that close a report. */
import type { NoteReport } from '../service/index.ts';

export interface Summary {
  readonly files: number;
  /** How many of the files are policies; other programs are not told. */
  readonly policies: number;
  readonly mixtures: number;
  readonly orders: number;
  readonly errors: number;
  readonly warnings: number;
  readonly information: number;
  readonly hints: number;
  readonly accepted: number;
}

export const NOTHING: Summary = {
  files: 0,
  policies: 0,
  mixtures: 0,
  orders: 0,
  errors: 0,
  warnings: 0,
  information: 0,
  hints: 0,
  accepted: 0,
};

export function plusPolicy(summary: Summary, report: NoteReport): Summary {
  return { ...plusNote(summary, report), policies: summary.policies + 1 };
}

export function plusNote(summary: Summary, { counts, accepted, diagnostics }: NoteReport): Summary {
  const found = { error: 0, warning: 0, information: 0, hint: 0 };
  for (const { severity } of diagnostics) found[severity] += 1;
  return {
    files: summary.files + 1,
    policies: summary.policies,
    mixtures: summary.mixtures + counts.mixtures,
    orders: summary.orders + counts.orders,
    errors: summary.errors + found.error,
    warnings: summary.warnings + found.warning,
    information: summary.information + found.information,
    hints: summary.hints + found.hint,
    accepted: summary.accepted + accepted.length,
  };
}

/** `1 note, 3 mixtures: 2 errors, 1 warning, 1 for information, 1 hint`. */
export function summaryLine(summary: Summary): string {
  const found = [
    many(summary.errors, 'error', 'errors'),
    many(summary.warnings, 'warning', 'warnings'),
    summary.information > 0 ? `${summary.information} for information` : '',
    many(summary.hints, 'hint', 'hints'),
  ].filter(Boolean);
  const notes = summary.files - summary.policies;
  const read = [
    `${notes} ${notes === 1 ? 'note' : 'notes'}`,
    `${summary.mixtures} ${summary.mixtures === 1 ? 'mixture' : 'mixtures'}`,
    many(summary.orders, 'order', 'orders'),
  ].filter(Boolean);
  const accepted = many(summary.accepted, 'accepted with its reason', 'accepted with their reasons');
  const closing = accepted ? `; ${accepted}` : '';
  return `${read.join(', ')}: ${found.length > 0 ? found.join(', ') : 'nothing to mend'}${closing}`;
}

function many(count: number, one: string, several: string): string {
  return count === 0 ? '' : `${count} ${count === 1 ? one : several}`;
}
