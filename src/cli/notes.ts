/** Finds and reads the notes that the paths of a command name. */
import { isUtf8 } from 'node:buffer';
import { readFileSync, statSync } from 'node:fs';
import { access, constants, stat } from 'node:fs/promises';
import { relative, resolve, sep } from 'node:path';
import { glob, isDynamicPattern } from 'tinyglobby';
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
/** A note is something a person wrote; a larger file is not read into memory. */
const LARGEST_BYTES = 64 * 1024 * 1024;

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
  const kind = await kindOf(path);
  if (kind === 'file') return [shown(path)];
  if (kind === 'folder') {
    const refusal = await refusalOfFolder(path);
    return refusal ? [refusal] : kept(await notesBelow(path), ignored);
  }
  if (!isDynamicPattern(path)) return [{ reason: `${path}: there is no such file or folder` }];
  const matches = await glob([path.split(sep).join('/')], { ignore: LEFT_OUT, followSymbolicLinks: false });
  if (matches.length === 0) return [{ reason: `${path}: the pattern matches no file` }];
  return kept(matches.map(shown), ignored);
}

async function kept(paths: readonly string[], ignored: IgnoreFiles): Promise<readonly string[]> {
  const left: string[] = [];
  for (const path of paths) if (!(await ignored.leavesOut(path))) left.push(path);
  return left.sort();
}

async function refusalOfFolder(path: string): Promise<Unreadable | null> {
  try {
    await access(path, constants.R_OK | constants.X_OK);
    return null;
  } catch (error) {
    return { reason: `${path}: cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'})` };
  }
}

async function notesBelow(folder: string): Promise<string[]> {
  const notes = await glob([NOTES], { cwd: folder, ignore: LEFT_OUT, followSymbolicLinks: false, absolute: true });
  return notes.map(shown);
}

/** One spelling for each file: relative to the working directory below it, absolute elsewhere. */
export function shown(path: string): string {
  const below = relative(process.cwd(), path);
  return below.startsWith('..') ? resolve(path) : below;
}

async function kindOf(path: string): Promise<'file' | 'folder' | null> {
  try {
    return (await stat(path)).isDirectory() ? 'folder' : 'file';
  } catch {
    return null;
  }
}

export async function readNoteFile(path: string): Promise<NoteFile | Unreadable> {
  try {
    // At once, not by the thread pool: for files of a note's size asking takes several times as long as reading.
    const { size } = statSync(path);
    if (size > LARGEST_BYTES) return { reason: `${path}: larger than ${LARGEST_BYTES / 1024 / 1024} MB, not read` };
    return decode(path, readFileSync(path));
  } catch (error) {
    return { reason: `${path}: cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'})` };
  }
}

export async function readStandardInput(path: string): Promise<NoteFile | Unreadable> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  return decode(path, Buffer.concat(chunks));
}

function decode(path: string, bytes: Buffer): NoteFile | Unreadable {
  if (!isUtf8(bytes)) return { reason: `${path}: is not UTF-8 text; save it as UTF-8` };
  return { path: path.split(sep).join('/'), source: bytes.toString('utf8') };
}
