/** The notes that the notes of a command use: read from the disk, each once, and nothing outside the workspace. */
import { dirname, resolve } from 'node:path';
import { type Closure, type NoteAnswer, NoteLibrary, type Policy, USE_LIMITS, type UsedNotes } from '../note/index.ts';
import { type NoteSource, readClosure } from '../service/index.ts';
import type { NoteFile } from './notes.ts';
import { readTextFile } from './read-note.ts';
import { foldersOfWorkspace, isBelow, realPath } from './workspace.ts';

export class UsedNoteFiles implements NoteSource {
  private readonly library = new NoteLibrary();
  private readonly files = new Map<string, Promise<NoteAnswer>>();
  private readonly tops = new Map<string, Promise<Top>>();

  /** What other notes give to this one. `policyPath`: where the policy lies, from which its formulary is named. */
  async usedBy(note: NoteFile, policyPath: string | null, policy: Policy): Promise<UsedNotes> {
    return this.library.usedIn(await this.closureOf(note, policyPath, policy), policy);
  }

  async closureOf({ path, source }: NoteFile, policyPath: string | null, policy: Policy): Promise<Closure> {
    const note = { at: await this.placeOf(resolve(path)), text: source };
    const formulary = policyPath === null ? null : { at: resolve(policyPath), paths: policy.formulary };
    return readClosure(note, formulary, this);
  }

  /** `from`: the absolute path of a note or policy. */
  async read(from: string, path: string): Promise<NoteAnswer> {
    const folder = dirname(from);
    const named = resolve(folder, path);
    const top = await this.topOf(folder);
    if (!isBelow(named, top.path)) return { why: 'above' };
    const real = await realPath(named);
    if (real === null) return { why: 'none' };
    if (!isBelow(real, top.real)) return { why: 'link' };
    const known = this.files.get(real) ?? readUsed(real);
    this.files.set(real, known);
    return known;
  }

  /** Where links of the file system lead, when that is still in its workspace. */
  private async placeOf(path: string): Promise<string> {
    const real = await realPath(path);
    return real !== null && isBelow(real, (await this.topOf(dirname(path))).real) ? real : path;
  }

  /** Of the workspace that a folder lies in. */
  private topOf(folder: string): Promise<Top> {
    const known = this.tops.get(folder) ?? readTop(folder);
    this.tops.set(folder, known);
    return known;
  }
}

/** The topmost folder of a workspace, and where links of the file system lead from it. */
interface Top {
  readonly path: string;
  readonly real: string;
}

async function readTop(folder: string): Promise<Top> {
  const path = (await foldersOfWorkspace(folder)).at(-1)!;
  return { path, real: (await realPath(path)) ?? path };
}

async function readUsed(path: string): Promise<NoteAnswer> {
  const file = readTextFile(path, USE_LIMITS.size);
  if ('text' in file) return { at: path, text: file.text };
  if (file.why === 'too-large') return { why: 'too-large' };
  return { why: file.why === 'no-file' || file.why === 'EISDIR' ? 'not-a-note' : 'unreadable' };
}
