/** Writes a file so that whoever reads it finds either what was there or what is to be there. */
import { access, constants, lstat, open, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';

/** Of a file that is new, before the user's mask. */
const NEW_FILE = 0o666;

/**
 * Puts `text` in place of a file's content by way of a file beside it, on the disk before it takes the name; the mode
 * stays, and a link stays a link. Rejects where that cannot be done, with nothing changed.
 */
export async function replaceFile(path: string, text: string): Promise<void> {
  const target = await realpath(path);
  await access(target, constants.W_OK);
  const { mode } = await stat(target);
  await putInPlace(target, text, mode);
}

/** The same, or a new file where there is none. A link that leads nowhere is there, and is not written through. */
export async function writeWhole(path: string, text: string): Promise<void> {
  if (await isThere(path)) return replaceFile(path, text);
  await putInPlace(resolve(path), text, NEW_FILE & ~process.umask());
}

async function putInPlace(target: string, text: string, mode: number): Promise<void> {
  const beside = join(dirname(target), `.${basename(target)}.${process.pid}.tmp`);
  try {
    const file = await open(beside, 'wx', 0o600);
    try {
      await file.writeFile(text, 'utf8');
      await file.chmod(mode);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, target);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') await rm(beside, { force: true });
    throw error;
  }
}

async function isThere(path: string): Promise<boolean> {
  try {
    await lstat(path);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return false;
    throw error;
  }
}
