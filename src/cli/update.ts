/** `meniscus update`: brings bound numbers and tables of notes up to date, and tells what changed, line by line. */
import { terminalSafe } from '../render/index.ts';
import { type NoteUpdate, updateOf } from '../service/index.ts';
import type { UpdateArguments } from './arguments/update.ts';
import { findNotes, type NoteFile, readNoteFile, readStandardInput, type Unreadable } from './notes.ts';
import { NO_POLICY, Policies } from './policies.ts';
import { notWritten, replaceFile } from './replace-file.ts';
import type { Streams } from './report.ts';
import { UsedNoteFiles } from './used-notes.ts';

/** 0: up to date now; 1: a dry run would change something; 2: something could not be read or written. */
export async function update(given: UpdateArguments, streams: Streams): Promise<0 | 1 | 2> {
  const notes = new UsedNoteFiles();
  const policies = new Policies(given.policy, notes);
  const named = await policies.named();
  if (named && 'reason' in named) {
    streams.err.write(`meniscus: ${named.reason}\n`);
    return 2;
  }
  const run = new Run(given, policies, notes, streams);
  if (given.paths.includes('-')) await run.take(await readStandardInput(given.stdinPath), true);
  for (const entry of await findNotes(given.paths.filter((path) => path !== '-'))) {
    await run.take(typeof entry === 'string' ? readNoteFile(entry) : entry);
  }
  return run.close();
}

class Run {
  private failed = false;
  private readonly refused = new Set<string>();
  private changes = 0;
  private notes = 0;

  constructor(
    private readonly given: UpdateArguments,
    private readonly policies: Policies,
    private readonly used: UsedNoteFiles,
    private readonly streams: Streams,
  ) {}

  /** `piped`: the note goes on to standard output, and what is told to standard error. */
  async take(note: NoteFile | Unreadable, piped = false): Promise<void> {
    if ('reason' in note) return this.refuse(note.reason);
    const found = await this.policies.of(note.path);
    if ('reason' in found) this.refuse(found.reason);
    const { path, policy } = 'reason' in found ? NO_POLICY : found;
    const updated = updateOf(note.source, policy, await this.used.usedBy(note, path, policy));
    const changes = updated.text !== note.source;
    const { out, err } = this.streams;
    if (piped && !this.given.dryRun) out.write(updated.text);
    else if (changes && !this.given.dryRun) {
      try {
        await replaceFile(note.path, updated.text, note.source);
      } catch (error) {
        return this.refuse(notWritten(note.path, error));
      }
    }
    (piped ? err : out).write(changeText(note.path, updated));
    for (const { line, reason } of updated.leftAlone) {
      err.write(`meniscus: ${terminalSafe(note.path)}:${line + 1}: left as it is: ${terminalSafe(reason)}\n`);
    }
    this.notes += changes ? 1 : 0;
    this.changes += updated.changes.length;
  }

  close(): 0 | 1 | 2 {
    const { dryRun, paths } = this.given;
    const piped = paths.includes('-') && !dryRun;
    (piped ? this.streams.err : this.streams.out).write(this.closing());
    if (this.failed) return 2;
    return dryRun && this.notes > 0 ? 1 : 0;
  }

  private closing(): string {
    if (this.notes === 0) return 'nothing to update\n';
    const places = this.changes === 1 ? '1 place' : `${this.changes} places`;
    const notes = this.notes === 1 ? '1 note' : `${this.notes} notes`;
    return `${places} in ${notes}${this.given.dryRun ? ' would be' : ''} updated\n`;
  }

  private refuse(reason: string): void {
    this.failed = true;
    if (this.refused.has(reason)) return;
    this.refused.add(reason);
    this.streams.err.write(`meniscus: ${reason}\n`);
  }
}

/** Each place with its lines before and after, behind `-` and `+`. */
function changeText(path: string, { changes }: NoteUpdate): string {
  return changes
    .map(({ line, before, after }) => {
      const lines = [
        ...before.map((text) => `  - ${terminalSafe(text)}`),
        ...after.map((text) => `  + ${terminalSafe(text)}`),
      ];
      return `${terminalSafe(path)}:${line + 1}\n${lines.join('\n')}\n`;
    })
    .join('');
}
