/** `meniscus export`: an order or a mixture of a note for other programs, printed or written to a file. */
import { basename } from 'node:path';
import { terminalSafe } from '../render/index.ts';
import { exportOf } from '../service/index.ts';
import type { ExportArguments } from './arguments/export.ts';
import { readOneNote } from './one-note.ts';
import { isSameFile, notWritten, writeWhole } from './replace-file.ts';
import type { Streams } from './report.ts';
import { EXPORTS, uuid5 } from './uuid.ts';

/** 0: written; 1: not, since it has no results or an error stands open; 2: something could not be found, read or written. */
export async function exportCommand(given: ExportArguments, { out, err }: Streams): Promise<0 | 1 | 2> {
  const refuse = <Code extends 1 | 2>(code: Code, reason: string): Code => {
    err.write(`meniscus: ${terminalSafe(reason)}\n`);
    return code;
  };
  const found = await readOneNote(given.file, given.policy);
  if ('reason' in found) return refuse(2, found.reason);
  const { note, path, policy, policyPath, notes } = found;
  const { name, format, out: file } = given;
  const uuid = (content: string) => uuid5(EXPORTS, content);
  const used = await notes.usedBy(note, policyPath, policy);
  const policyFile = policyPath && basename(policyPath);
  const exported = exportOf(note.source, { name, format, path, policyFile, uuid }, policy, used);
  if (!exported.ok) return refuse(exported.withheld ? 1 : 2, exported.reason);
  if (file === null) {
    out.write(exported.text);
    return 0;
  }
  if (await isSameFile(file, given.file)) return refuse(2, `${file}: is the note itself, and is not written over`);
  try {
    await writeWhole(file, exported.text);
  } catch (error) {
    return refuse(2, notWritten(file, error));
  }
  return 0;
}
