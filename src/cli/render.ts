/** `meniscus render`: a note as a page, and its figures as files. */
import { mkdir } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { saying } from '../files/read-text.ts';
import { pageOf } from '../preview/page.ts';
import { figureSvg } from '../render/index.ts';
import { figuresOf } from '../service/index.ts';
import type { RenderArguments } from './arguments/render.ts';
import { readNoteFile, readStandardInput } from './notes.ts';
import { NO_POLICY, Policies } from './policies.ts';
import { isSameFile, notWritten, writeWhole } from './replace-file.ts';
import type { Streams } from './report.ts';
import { UsedNoteFiles } from './used-notes.ts';

/** 0: written; 2: something could not be read or written. */
export async function render(given: RenderArguments, { out, err }: Streams): Promise<0 | 2> {
  const refuse = (reason: string): 2 => {
    err.write(`meniscus: ${reason}\n`);
    return 2;
  };
  const note = given.path === '-' ? await readStandardInput('standard input') : readNoteFile(given.path);
  if ('reason' in note) return refuse(note.reason);
  const notes = new UsedNoteFiles();
  const policies = new Policies(given.policy, notes);
  const found = given.path === '-' ? ((await policies.named()) ?? NO_POLICY) : await policies.of(note.path);
  if ('reason' in found) return refuse(found.reason);
  const { policy } = found;
  const used = await notes.usedBy(note, found.path, policy);
  const untitled = basename(note.path, extname(note.path));
  const page = pageOf(note.source, { policy, used, title: given.title, untitled });
  if (given.out !== null && (await isSameFile(given.out, given.path)))
    return refuse(saying(given.out, 'is the note itself, and is not written over'));
  let at = given.out ?? '';
  try {
    if (given.out === null) out.write(page);
    else await writeWhole(given.out, page);
    if (given.figures !== null) {
      at = given.figures;
      await mkdir(given.figures, { recursive: true });
      for (const { name, figure } of figuresOf(note.source, policy, used)) {
        at = join(given.figures, `${name}.svg`);
        await writeWhole(at, `${figureSvg(figure)}\n`);
      }
    }
  } catch (error) {
    return refuse(notWritten(at, error));
  }
  return 0;
}
