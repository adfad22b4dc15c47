/** Which file an address means, and that it never lies outside the folder that is served. */
import { lstat, realpath } from 'node:fs/promises';
import { dirname, resolve, sep } from 'node:path';

/**
 * The file that `path` (decoded, from the folder on) stands for, or null when it leaves `folder`: by dots, by a
 * separator of another system, or through a symbolic link. The file need not exist yet.
 */
export async function within(folder: string, path: string): Promise<string | null> {
  if (/[\\\0]/.test(path) || path.split('/').includes('..')) return null;
  const file = resolve(folder, `./${path}`);
  try {
    const [home, real] = await Promise.all([realpath(folder), realpath(await nearestExisting(file))]);
    return real === home || real.startsWith(home.endsWith(sep) ? home : home + sep) ? file : null;
  } catch {
    return null;
  }
}

/** The file itself, or the innermost folder above it that is there. A link counts as there, wherever it leads. */
async function nearestExisting(file: string): Promise<string> {
  try {
    await lstat(file);
    return file;
  } catch {
    return nearestExisting(dirname(file));
  }
}
