/** A note of a command that is about one note alone, with what it is worked out under. */
import type { Policy } from '../note/index.ts';
import { type NoteFile, readNoteFile, shown, type Unreadable } from './notes.ts';
import { Policies } from './policies.ts';
import { UsedNoteFiles } from './used-notes.ts';

export interface OneNote {
  readonly note: NoteFile;
  /** As it is shown. */
  readonly path: string;
  readonly policy: Policy;
  /** Null where no policy was found or named. */
  readonly policyPath: string | null;
  /** Reads the notes that it uses. */
  readonly notes: UsedNoteFiles;
}

/** `policy`: a file, `none`, or null for the nearest one. */
export async function readOneNote(file: string, policy: string | null): Promise<OneNote | Unreadable> {
  const note = readNoteFile(file);
  if ('reason' in note) return note;
  const path = shown(file);
  const notes = new UsedNoteFiles();
  const found = await new Policies(policy, notes).of(path);
  if ('reason' in found) return found;
  return { note, path, policy: found.policy, policyPath: found.path, notes };
}
