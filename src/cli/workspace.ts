/** The workspace of a file: what lies outside it is not looked at. */
import { access, realpath } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, sep } from 'node:path';

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

/** Whether a path lies in the folder `top`, or is it. */
export function isBelow(path: string, top: string): boolean {
  const way = relative(top, path);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

/** Whether a file, where links of the file system lead, still lies in the folder `top`; false where it is not there. */
export async function leadsWithin(path: string, top: string): Promise<boolean> {
  const [real, realTop] = await Promise.all([realPath(path), realPath(top)]);
  return real !== null && isBelow(real, realTop ?? top);
}

export async function realPath(path: string): Promise<string | null> {
  try {
    return await realpath(path);
  } catch {
    return null;
  }
}
