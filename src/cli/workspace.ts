/** The workspace of a file: what lies outside it is not looked at. */
import { access } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { isBelow } from '../files/used-note.ts';

/**
 * From the folder up to the top of its workspace: the nearest folder with `.git`; where there is none, the working
 * directory, and outside of that the folder alone.
 */
export async function foldersOfWorkspace(folder: string): Promise<readonly string[]> {
  const above = foldersAbove(folder);
  const top = (await firstWith(above, '.git')) ?? (isBelow(folder, process.cwd()) ? process.cwd() : folder);
  return above.slice(0, above.indexOf(top) + 1);
}

/** The folder itself first. */
function foldersAbove(folder: string): readonly string[] {
  const above = [folder];
  for (let next = dirname(folder); next !== above[above.length - 1]; next = dirname(next)) above.push(next);
  return above;
}

export async function firstWith(folders: readonly string[], entry: string): Promise<string | null> {
  for (const folder of folders) if (await exists(join(folder, entry))) return folder;
  return null;
}

async function exists(path: string): Promise<boolean> {
  try {
    await access(path);
    return true;
  } catch {
    return false;
  }
}
