/** `meniscus check`: reads notes, reports, and gives the exit code. */
import { reportOf } from '../service/index.ts';
import type { CheckArguments } from './arguments.ts';
import { fileEntry, jsonReport } from './json-report.ts';
import { findNotes, type NoteFile, readNoteFile, readStandardInput, type Unreadable } from './notes.ts';
import { NOTHING, plusNote } from './summary.ts';
import { closingText, noteText } from './text-report.ts';

export interface Streams {
  readonly out: { write(text: string): unknown; readonly isTTY?: boolean };
  readonly err: { write(text: string): unknown };
}

/** 0: nothing that fails; 1: something; 2: something could not be read (the rest is still checked). */
export async function check(given: CheckArguments, { out, err }: Streams): Promise<0 | 1 | 2> {
  const entries = await findNotes(given.paths.filter((path) => path !== '-'));
  const colour = Boolean(out.isTTY) && !process.env.NO_COLOR;
  const one = entries.length + (given.paths.includes('-') ? 1 : 0) === 1;
  let summary = NOTHING;
  let unreadable = false;
  const files: object[] = [];

  const take = (note: NoteFile | Unreadable) => {
    if ('reason' in note) {
      err.write(`meniscus: ${note.reason}\n`);
      unreadable = true;
      return;
    }
    const report = reportOf(note.source);
    summary = plusNote(summary, report);
    if (given.format === 'json') files.push(fileEntry(note.path, report));
    else out.write(noteText(note.path, report, { colour, results: one }));
  };

  if (given.paths.includes('-')) take(await readStandardInput(given.stdinPath));
  for (const entry of entries) take(typeof entry === 'string' ? await readNoteFile(entry) : entry);

  out.write(given.format === 'json' ? jsonReport(files, summary) : closingText(summary));
  if (unreadable) return 2;
  const failing = summary.errors + (given.failOn === 'warning' ? summary.warnings : 0);
  return failing > 0 ? 1 : 0;
}
