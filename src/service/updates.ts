/** What brings the bound numbers and tables of a note up to date, and what is left as it is. */
import type { BoundNumber, Edit, WorkedNoteModel } from '../note/index.ts';
import type { Lines } from './lines.ts';

export interface NumberReport {
  readonly line: number;
  /** `gastric/free-water`. */
  readonly target: string;
  readonly written: string;
  /** In the unit and to the digits written. */
  readonly current: string;
  readonly stale: boolean;
}

/** In the order of the note, and apart from each other: what stands in a table goes with the table. */
export function updatesOf({ numbers, tables }: WorkedNoteModel): readonly Edit[] {
  const anew = tables.filter(({ stale }) => stale).map(({ edit }) => edit);
  const single = numbers
    .filter(({ stale, at }) => stale && !anew.some(({ span }) => span.start <= at.start && at.end <= span.end))
    .map(({ edit }) => edit);
  return [...anew, ...single].sort((a, b) => a.span.start - b.span.start);
}

export function numberReport({ at, target, written, current, stale }: BoundNumber, lines: Lines): NumberReport {
  return { line: lines.at(at.start).line, target, written, current, stale };
}
