/** `meniscus format`: brings the infusion blocks of notes into the one form, and says which changed. */
import { readNote } from '../markdown/index.ts';
import { terminalSafe } from '../render/index.ts';
import { applied, formattingOf } from '../service/index.ts';
import type { FormatArguments } from './arguments/format.ts';
import { findNotes, readNoteFile, readStandardInput, type Unreadable } from './notes.ts';
import { notWritten, replaceFile } from './replace-file.ts';
import type { Streams } from './report.ts';

interface Formatted {
  readonly text: string;
  /** How many lines come out otherwise. */
  readonly lines: number;
}

/** 0: done; 1: with `--check`, something would change; 2: something could not be read or written (the rest is still done). */
export async function format({ paths, check }: FormatArguments, streams: Streams): Promise<0 | 1 | 2> {
  if (paths.includes('-')) return formatStandardInput(check, streams);
  let notes = 0;
  let changed = 0;
  let failed = false;
  for (const entry of await findNotes(paths)) {
    const outcome = await formatFile(entry, check);
    if (typeof outcome === 'object') {
      failed = true;
      streams.err.write(`meniscus: ${outcome.reason}\n`);
      continue;
    }
    notes += 1;
    if (outcome === 0) continue;
    changed += 1;
    streams.out.write(
      `${terminalSafe(entry as string)}: ${many(outcome, 'line')} ${check ? 'to format' : 'formatted'}\n`,
    );
  }
  streams.out.write(`${many(notes, 'note')}: ${changed === 0 ? 'nothing to format' : closing(changed, check)}\n`);
  if (failed) return 2;
  return check && changed > 0 ? 1 : 0;
}

async function formatStandardInput(check: boolean, { out, err }: Streams): Promise<0 | 1 | 2> {
  const note = await readStandardInput('standard input');
  if ('reason' in note) {
    err.write(`meniscus: ${note.reason}\n`);
    return 2;
  }
  const { text, lines } = formatted(note.source);
  if (!check) out.write(text);
  else if (lines > 0) out.write(`standard input: ${many(lines, 'line')} to format\n`);
  return check && lines > 0 ? 1 : 0;
}

/** How many lines of a note were, or would be, formatted. */
async function formatFile(entry: string | Unreadable, check: boolean): Promise<number | Unreadable> {
  const note = typeof entry === 'string' ? readNoteFile(entry) : entry;
  if ('reason' in note) return note;
  const { text, lines } = formatted(note.source);
  if (check || lines === 0) return lines;
  try {
    await replaceFile(entry as string, text, note.source);
    return lines;
  } catch (error) {
    return { reason: notWritten(entry as string, error) };
  }
}

function formatted(source: string): Formatted {
  const edits = formattingOf(readNote(source));
  return { text: applied(source, edits), lines: edits.length };
}

function closing(changed: number, check: boolean): string {
  return `${changed} ${check ? 'to format' : 'formatted'}`;
}

function many(count: number, one: string): string {
  return `${count} ${count === 1 ? one : `${one}s`}`;
}
