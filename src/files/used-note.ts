/** Files of a workspace: what a path in a note leads to, and that it never lies outside, by dots or by a link. */
import { realpath } from 'node:fs/promises';
import { dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import type { NoteAnswer } from '../note/index.ts';
import { type Unread, USE_LIMITS } from '../note/use/refusal.ts';
import { readTextFile } from './read-text.ts';

/** Where a file or folder lies: as it is named, and with links of the file system followed. */
export interface Place {
  readonly named: string;
  readonly real: string;
}

/** Whether a path lies in the folder `top`, or is it. */
export function isBelow(path: string, top: string): boolean {
  const way = relative(top, path);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

/** The topmost folder of a workspace. */
export async function topAt(path: string): Promise<Place> {
  return { named: path, real: (await realPath(path)) ?? path };
}

/** The file that `path` names as it is written in the file `from`; both must lie in the workspace. */
export async function placeOfUsed(from: string, path: string, top: Place): Promise<Place | { readonly why: Unread }> {
  const named = resolve(dirname(from), path);
  if (!isBelow(named, top.named)) return { why: 'above' };
  const real = await realPath(named);
  if (real === null) return { why: 'none' };
  return isBelow(real, top.real) ? { named, real } : { why: 'link' };
}

/** Whether a file, where links of the file system lead, still lies in the folder `top`; false where it is not there. */
export async function leadsWithin(path: string, top: string): Promise<boolean> {
  const real = await realPath(path);
  return real !== null && isBelow(real, (await topAt(top)).real);
}

/** Null where there is no such file. */
export async function realPath(path: string): Promise<string | null> {
  try {
    return await realpath(path);
  } catch {
    return null;
  }
}

/** `at` is the path that is given. */
export function readUsed(path: string): NoteAnswer {
  const file = readTextFile(path, USE_LIMITS.size);
  if ('text' in file) return { at: path, text: file.text };
  if (file.why === 'too-large') return { why: 'too-large' };
  return { why: file.why === 'no-file' || file.why === 'EISDIR' ? 'not-a-note' : 'unreadable' };
}
