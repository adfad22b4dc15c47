/** Where the local policy of a note lies. */
import { dirname, join, resolve } from 'node:path';
import { saying } from '../files/read-text.ts';
import { leadsWithin } from '../files/used-note.ts';
import { POLICY_FILE } from '../service/policy-name.ts';
import { shown, type Unreadable } from './notes.ts';
import { firstWith, foldersOfWorkspace } from './workspace.ts';

/** Each folder is looked at once, however many notes lie in it. */
export class NearestPolicies {
  private readonly known = new Map<string, Promise<string | Unreadable | null>>();

  /** The path of the file that is nearest to the note at `path`; null where there is none. */
  to(path: string): Promise<string | Unreadable | null> {
    const folder = dirname(path);
    const known = this.known.get(folder) ?? nearestPolicy(resolve(folder));
    this.known.set(folder, known);
    return known;
  }
}

/** In the folder or above it, within the workspace; a link that leads out of the workspace is not followed. */
async function nearestPolicy(folder: string): Promise<string | Unreadable | null> {
  const folders = await foldersOfWorkspace(folder);
  const within = await firstWith(folders, POLICY_FILE);
  if (within === null) return null;
  const path = join(within, POLICY_FILE);
  if (await leadsWithin(path, folders.at(-1)!)) return path;
  const reason = 'is a link that leads out of the workspace; not read (--policy can name a file outside it)';
  return { reason: saying(shown(path), reason) };
}
