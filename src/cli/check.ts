/** `meniscus check`: reads notes and their policies, reports, and gives the exit code. */
import { reportOf } from '../service/index.ts';
import type { CheckArguments } from './arguments.ts';
import { findNotes, type NoteFile, readNoteFile, readStandardInput, type Unreadable } from './notes.ts';
import { NO_POLICY, Policies } from './policies.ts';
import { Report, type Streams } from './report.ts';
import { UsedNoteFiles } from './used-notes.ts';

/** 0: nothing that fails; 1: something; 2: something could not be read (the rest is still checked). */
export async function check(given: CheckArguments, streams: Streams): Promise<0 | 1 | 2> {
  const notes = new UsedNoteFiles();
  const policies = new Policies(given.policy, notes);
  const named = await policies.named();
  if (named && 'reason' in named) {
    streams.err.write(`meniscus: ${named.reason}\n`);
    return 2;
  }
  const entries = await findNotes(given.paths.filter((path) => path !== '-'));
  const results = entries.length + (given.paths.includes('-') ? 1 : 0) === 1;
  const report = new Report(given, { colour: Boolean(streams.out.isTTY) && !process.env.NO_COLOR, results }, streams);

  const take = async (note: NoteFile | Unreadable) => {
    if ('reason' in note) return report.refuse(note.reason);
    const found = await policies.of(note.path);
    if ('reason' in found) report.refuse(found.reason);
    const { path, policy, report: ofPolicy } = 'reason' in found ? NO_POLICY : found;
    if (path !== null && ofPolicy) report.policy(path, ofPolicy);
    report.note(note.path, path, reportOf(note.source, policy, await notes.usedBy(note, path, policy)));
  };

  if (given.paths.includes('-')) await take(await readStandardInput(given.stdinPath));
  for (const entry of entries) await take(typeof entry === 'string' ? await readNoteFile(entry) : entry);
  return report.close();
}
