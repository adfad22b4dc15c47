/** The notes that the notes of a command use: read from the disk, each once, and nothing outside the workspace. */
import { dirname, resolve } from 'node:path';
import { isBelow, type Place, placeOfUsed, readUsed, realPath, topAt } from '../files/used-note.ts';
import { type Closure, mayUse, type NoteAnswer, NoteLibrary, type Policy, type UsedNotes } from '../note/index.ts';
import { type NoteSource, readClosure } from '../service/index.ts';
import type { NoteFile } from './notes.ts';
import { foldersOfWorkspace } from './workspace.ts';

export class UsedNoteFiles implements NoteSource {
  private readonly library = new NoteLibrary();
  private readonly files = new Map<string, NoteAnswer>();
  private readonly tops = new Map<string, Promise<Place>>();

  /** What other notes give to this one. `policyPath`: where the policy lies, from which its formulary is named. */
  async usedBy(note: NoteFile, policyPath: string | null, policy: Policy): Promise<UsedNotes> {
    return this.library.usedIn(await this.closureOf(note, policyPath, policy), policy);
  }

  async closureOf({ path, source }: NoteFile, policyPath: string | null, policy: Policy): Promise<Closure> {
    const formulary = policyPath === null ? null : { at: resolve(policyPath), paths: policy.formulary };
    // Which file it is on the disk matters only where another note could lead back to it.
    const alone = !mayUse(source) && (formulary?.paths ?? []).length === 0;
    const note = { at: alone ? resolve(path) : await this.placeOf(resolve(path)), text: source };
    return readClosure(note, formulary, this);
  }

  /** `from`: the absolute path of a note or policy. */
  async read(from: string, path: string): Promise<NoteAnswer> {
    const top = await this.topOf(dirname(from));
    const place = await placeOfUsed(from, path, top);
    if ('why' in place) return place;
    const { real } = place;
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
  private topOf(folder: string): Promise<Place> {
    const known = this.tops.get(folder) ?? readTop(folder);
    this.tops.set(folder, known);
    return known;
  }
}

async function readTop(folder: string): Promise<Place> {
  return topAt((await foldersOfWorkspace(folder)).at(-1)!);
}
