/** Reads policies and other notes for clients that do not: in open editors before the disk, never outside a folder of theirs. */
import { realpathSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { isBelow, leadsWithin, placeOfUsed, readUsed, topAt } from '../files/used-note.ts';
import type { NoteAnswer } from '../note/index.ts';
import { POLICY_FILE } from '../service/index.ts';
import type { FoundPolicy } from './policies.ts';
import type { Workspace, WorkspaceFiles } from './workspace.ts';

export function workspaceFiles(workspace: Workspace): WorkspaceFiles {
  /** The folder of the workspace that a path lies in; one that is a link is known by where it leads as well. */
  const topOf = (path: string | null): string | null => {
    const folders = workspace.folders().flatMap((uri) => pathOf(uri) ?? []);
    return (
      path &&
      (innermost(folders, path) ??
        innermost(
          folders.map((folder) => followed(folder) ?? folder),
          path,
        ))
    );
  };
  const openAt = (address: string) => workspace.open().find(({ uri }) => addressOf(uri) === address);

  return {
    addressOf,

    async find(noteUri): Promise<FoundPolicy | null> {
      const note = pathOf(noteUri);
      const top = topOf(note);
      if (note === null || top === null) return null;
      for (const folder of foldersUpTo(dirname(note), top)) {
        const found = await policyAt(join(folder, POLICY_FILE), top);
        if (found) return found;
      }
      return null;
    },

    async read(from, path): Promise<NoteAnswer> {
      const writer = pathOf(from);
      const top = topOf(writer);
      if (writer === null || top === null) return { why: 'no-workspace' };
      const place = await placeOfUsed(writer, path, await topAt(top));
      // A note that was never saved is open all the same.
      const named = 'why' in place ? place.why === 'none' && join(dirname(writer), path) : place.real;
      const open = named ? openAt(addressAt(named)) : undefined;
      if (open) return { at: addressOf(open.uri), text: open.getText() };
      if ('why' in place) return place;
      const answer = readUsed(place.real);
      return 'why' in answer ? answer : { at: addressAt(place.real), text: answer.text };
    },
  };

  async function policyAt(path: string, top: string): Promise<FoundPolicy | null> {
    const open = openAt(addressAt(path));
    if (open) return { uri: open.uri, text: open.getText() };
    if (!(await leadsWithin(path, top))) return null;
    const answer = readUsed(path);
    return 'why' in answer ? null : { uri: pathToFileURL(path).href, text: answer.text };
  }
}

function innermost(folders: readonly string[], path: string): string | null {
  const around = folders.filter((folder) => path !== folder && isBelow(path, folder));
  return around.sort((a, b) => b.length - a.length)[0] ?? null;
}

/** The folder itself first; `top` last. */
function foldersUpTo(folder: string, top: string): readonly string[] {
  return folder === top || dirname(folder) === folder ? [folder] : [folder, ...foldersUpTo(dirname(folder), top)];
}

/** Null where the address is no file's. */
function pathOf(uri: string): string | null {
  try {
    return fileURLToPath(uri);
  } catch {
    return null;
  }
}

function addressOf(uri: string): string {
  const path = pathOf(uri);
  return path === null ? uri : addressAt(path);
}

/** Where links lead, so that a file has one address whatever path leads to it. */
function addressAt(path: string): string {
  return pathToFileURL(followed(path) ?? join(followed(dirname(path)) ?? dirname(path), basename(path))).href;
}

function followed(path: string): string | null {
  try {
    return realpathSync(path);
  } catch {
    return null;
  }
}
