/** Finds and reads the notes that the paths of a command name. */
import { readdirSync, statSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import { type FileSystemAdapter, globSync, isDynamicPattern } from 'tinyglobby';
import { codeWords, readStandardInputText, readTextFile, saying, type TextFile } from '../files/read-text.ts';
import { IgnoreFiles } from './ignored.ts';

export interface NoteFile {
  /** Relative to the working directory where it lies below it, else absolute; with `/`. */
  readonly path: string;
  readonly source: string;
}

/** Something that could not be read, in one line. */
export interface Unreadable {
  readonly reason: string;
}

const NOTES = '**/*.{md,markdown}';
const LEFT_OUT = ['**/node_modules/**', '**/.git/**'];

/**
 * The files that the paths stand for, each once, in the order of the paths and then by name. Ignore files are for folders
 * and globs; a file that is named itself is wanted.
 */
export async function findNotes(paths: readonly string[]): Promise<readonly (string | Unreadable)[]> {
  const found: (string | Unreadable)[] = [];
  const seen = new Set<string>();
  const ignored = new IgnoreFiles();
  for (const path of paths) {
    for (const entry of await expand(path, ignored)) {
      if (typeof entry === 'string') {
        if (seen.has(entry)) continue;
        seen.add(entry);
      }
      found.push(entry);
    }
  }
  return [...ignored.refused.map((reason) => ({ reason })), ...found];
}

async function expand(path: string, ignored: IgnoreFiles): Promise<readonly (string | Unreadable)[]> {
  const kind = kindOf(path);
  if (kind === 'file') return [shown(path)];
  if (kind === 'folder') return kept(matching(NOTES, path), ignored);
  if (!isDynamicPattern(path)) return [{ reason: saying(path, kind.reason) }];
  const matches = matching(path.split(sep).join('/'), process.cwd());
  if (matches.length === 0) return [{ reason: saying(path, 'the pattern matches no file') }];
  return kept(matches, ignored);
}

async function kept(found: readonly (string | Unreadable)[], ignored: IgnoreFiles) {
  const left: (string | Unreadable)[] = [];
  let folder: string | null = null;
  let leavesOut: (path: string) => boolean = () => false;
  for (const entry of found) {
    if (typeof entry === 'string' && dirname(entry) !== folder) {
      folder = dirname(entry);
      leavesOut = await ignored.in(folder);
    }
    if (typeof entry !== 'string' || !leavesOut(entry)) left.push(entry);
  }
  return left;
}

/** By name; behind them the folders that could not be looked into. Links are not followed. */
function matching(pattern: string, folder: string): readonly (string | Unreadable)[] {
  const closed: Unreadable[] = [];
  const fs = telling((path, code) => closed.push({ reason: saying(shown(path), `cannot be read ${codeWords(code)}`) }));
  const paths = globSync([pattern], {
    cwd: folder,
    ignore: LEFT_OUT,
    followSymbolicLinks: false,
    fs,
  });
  return [...paths.map(shownFrom(folder)).sort(), ...closed];
}

/** The file system, which tells besides which folders it could not list: whoever looks for files passes over them. */
function telling(tell: (folder: string, code: string) => void): FileSystemAdapter {
  const list = (path: string, options: { withFileTypes: true }) => {
    try {
      return readdirSync(path, options);
    } catch (error) {
      tell(path, (error as NodeJS.ErrnoException).code ?? '');
      throw error;
    }
  };
  return { readdirSync: list as unknown as typeof readdirSync, statSync };
}

/** One spelling for each file: relative to the working directory below it, absolute elsewhere. */
export function shown(path: string): string {
  const below = relative(process.cwd(), path);
  return below.startsWith('..') ? resolve(path) : below;
}

/** The same of what was found in a folder, whose own spelling is then worked out once. */
function shownFrom(folder: string): (found: string) => string {
  const own = shown(folder);
  const before = own === '' || own.endsWith(sep) ? own : `${own}${sep}`;
  return (found) => (found.startsWith('..') ? shown(resolve(folder, found)) : before + found.split('/').join(sep));
}

function kindOf(path: string): 'file' | 'folder' | Unreadable {
  try {
    return statSync(path).isDirectory() ? 'folder' : 'file';
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const missing = code === undefined || code === 'ENOENT' || code === 'ENOTDIR';
    return { reason: missing ? 'there is no such file or folder' : `cannot be read ${codeWords(code)}` };
  }
}

export function readNoteFile(path: string): NoteFile | Unreadable {
  return noteOf(path, readTextFile(path));
}

export async function readStandardInput(path: string): Promise<NoteFile | Unreadable> {
  return noteOf(path, await readStandardInputText(path));
}

function noteOf(path: string, file: TextFile): NoteFile | Unreadable {
  return 'why' in file ? file : { path: path.split(sep).join('/'), source: file.text };
}
