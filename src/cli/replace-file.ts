/** Writes a file so that whoever reads it finds either what was there or what is to be there. */
import {
  access,
  constants,
  lstat,
  open,
  readdir,
  readFile,
  realpath,
  rename,
  rm,
  stat,
  writeFile,
} from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { codeWords, saying } from '../files/read-text.ts';

/**
 * Puts `text` in place of a file's content by way of a file beside it, on the disk before it takes the name; mode and owner
 * stay, and a link stays a link. Rejects where that cannot be done, with nothing changed. `read`: what `text` was made from;
 * when the file holds anything else by now, somebody edits it, and it is left to them.
 */
export async function replaceFile(path: string, text: string, read: string | null = null): Promise<void> {
  const target = await realpath(path);
  await access(target, constants.W_OK);
  await putInPlace(target, text, await stat(target), read);
}

/** The same for a file that need not be there yet; a pipe or a device is written to as it is. */
export async function writeWhole(path: string, text: string): Promise<void> {
  const there = await lstat(path).catch(() => null);
  if (there === null) return putInPlace(resolve(path), text, null, null);
  if ((await stat(path)).isFile()) return replaceFile(path, text);
  await writeFile(path, text);
}

/** Whether two paths lead to one file, by links of either kind too. */
export async function isSameFile(one: string, other: string): Promise<boolean> {
  if (resolve(one) === resolve(other)) return true;
  const [a, b] = await Promise.all([one, other].map((path) => stat(path, { bigint: true }).catch(() => null)));
  return a !== null && b !== null && a!.dev === b!.dev && a!.ino === b!.ino;
}

/** Why a file was not written, in one line. */
export function notWritten(path: string, error: unknown): string {
  if (error instanceof ChangedMeanwhile)
    return saying(path, 'was changed while it was read; not written, run it again');
  const { code } = error as NodeJS.ErrnoException;
  return saying(path, `cannot be written ${code === undefined ? '(unknown reason)' : codeWords(code)}`);
}

class ChangedMeanwhile extends Error {}

interface Kept {
  readonly mode: number;
  readonly uid: number;
  readonly gid: number;
}

async function putInPlace(target: string, text: string, kept: Kept | null, read: string | null): Promise<void> {
  await sweep(dirname(target));
  const beside = join(dirname(target), `.${basename(target)}.${process.pid}${ENDING}`);
  try {
    const file = await open(beside, 'wx', kept === null ? 0o666 : 0o600);
    try {
      await file.writeFile(text, 'utf8');
      if (kept !== null) {
        const { uid, gid } = await file.stat();
        // Only a superuser may give a file away; for others it is theirs already, but for its group.
        if (uid !== kept.uid || gid !== kept.gid) await file.chown(kept.uid, kept.gid).catch(() => {});
        await file.chmod(kept.mode);
      }
      await file.sync();
    } finally {
      await file.close();
    }
    if (read !== null && (await readFile(target, 'utf8')) !== read) throw new ChangedMeanwhile();
    await rename(beside, target);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') await rm(beside, { force: true });
    throw error;
  }
}

const ENDING = '.meniscus-tmp';
const LEFT_BEHIND = /^\..+\.(\d+)\.meniscus-tmp$/;
/** Milliseconds after which no run is still at a file. */
const LONG = 60_000;
const swept = new Map<string, Promise<void>>();

/** Takes away what runs that were killed have left beside the files of a folder, once in a run. */
function sweep(folder: string): Promise<void> {
  const known = swept.get(folder) ?? removeLeftBehind(folder);
  swept.set(folder, known);
  return known;
}

async function removeLeftBehind(folder: string): Promise<void> {
  for (const name of await readdir(folder).catch(() => [])) {
    const pid = LEFT_BEHIND.exec(name)?.[1];
    if (pid === undefined || isRunning(Number(pid))) continue;
    const path = join(folder, name);
    const found = await lstat(path).catch(() => null);
    // On a shared disk it may be another machine's, at this moment.
    if (found?.isFile() && Date.now() - found.mtimeMs > LONG) await rm(path, { force: true }).catch(() => {});
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
