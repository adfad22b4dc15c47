/** `meniscus worksheet`: the making-up worksheet of one mixture, printed or written to a file. */
import { saying } from '../files/read-text.ts';
import { terminalSafe, worksheetHtml, worksheetMarkdown } from '../render/index.ts';
import { createNoteService } from '../service/index.ts';
import type { WorksheetArguments } from './arguments/worksheet.ts';
import { readOneNote } from './one-note.ts';
import { isSameFile, notWritten, writeWhole } from './replace-file.ts';
import type { Streams } from './report.ts';

/** 0: a worksheet; 1: one with an error open in it, or none since the mixture has no results; 2: it could not be made. */
export async function worksheet(
  given: WorksheetArguments,
  { out, err }: Pick<Streams, 'out' | 'err'>,
): Promise<0 | 1 | 2> {
  const refuse = <Code extends 1 | 2>(code: Code, reason: string): Code => {
    err.write(`meniscus: ${terminalSafe(reason)}\n`);
    return code;
  };
  const found = await readOneNote(given.file, given.policy);
  if ('reason' in found) return refuse(2, found.reason);
  const { note, path, policy, policyPath, notes } = found;
  const { bags, to } = given;
  const closure = await notes.closureOf(note, policyPath, policy);
  const made = createNoteService()
    .work(path, note.source, policy, closure)
    .worksheet({ name: given.name }, { path, policy: policyPath, bags, to });
  if (!made.ok) return refuse(made.withheld ? 1 : 2, made.reason);
  const text = given.format === 'html' ? worksheetHtml(made.sheet) : worksheetMarkdown(made.sheet);
  if (given.out === null) out.write(text);
  else if (await isSameFile(given.out, given.file))
    return refuse(2, saying(given.out, 'is the note itself, and is not written over'));
  else {
    try {
      await writeWhole(given.out, text);
    } catch (error) {
      return refuse(2, notWritten(given.out, error));
    }
  }
  return made.errors > 0 ? 1 : 0;
}
