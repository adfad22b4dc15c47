/** What a check is asked for, and what it gives of one note. */
import type { ReportedFile } from './reporter.ts';

/** Plain data, which goes from one thread to another. */
export interface CheckedNote {
  /** What could not be read or checked, in one line each. */
  readonly refused: readonly string[];
  /** That of the note, where there is one. */
  readonly policy: ReportedFile | null;
  readonly note: ReportedFile | null;
}

export interface Asked {
  /** A file, `none`, or null for the nearest one of each note. */
  readonly policy: string | null;
  /** Whether results are told, beside what is found. */
  readonly results: boolean;
}

/** Of a note that was not checked. */
export function notChecked(reason: string): CheckedNote {
  return { refused: [reason], policy: null, note: null };
}
