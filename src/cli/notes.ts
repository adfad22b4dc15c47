/** Finds and reads the notes that the paths of a command name. */
import { readFile, stat } from 'node:fs/promises';
import { relative, resolve, sep } from 'node:path';
import { glob, isDynamicPattern } from 'tinyglobby';

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

/** The files that the paths stand for, each once, in the order of the paths and then by name. */
export async function findNotes(paths: readonly string[]): Promise<readonly (string | Unreadable)[]> {
  const found: (string | Unreadable)[] = [];
  const seen = new Set<string>();
  for (const path of paths) {
    for (const entry of await expand(path)) {
      if (typeof entry === 'string') {
        if (seen.has(entry)) continue;
        seen.add(entry);
      }
      found.push(entry);
    }
  }
  return found;
}

async function expand(path: string): Promise<readonly (string | Unreadable)[]> {
  const kind = await kindOf(path);
  if (kind === 'file') return [shown(path)];
  if (kind === 'folder') return (await notesBelow(path)).sort();
  if (!isDynamicPattern(path)) return [{ reason: `${path}: there is no such file or folder` }];
  const matches = await glob([path.split(sep).join('/')], { ignore: LEFT_OUT, followSymbolicLinks: false });
  return matches.length > 0 ? matches.map(shown).sort() : [{ reason: `${path}: the pattern matches no file` }];
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
    const { size } = await stat(path);
    if (size > LARGEST_BYTES) return { reason: `${path}: larger than ${LARGEST_BYTES / 1024 / 1024} MB, not read` };
    return decode(path, await readFile(path));
  } catch (error) {
    return { reason: `${path}: cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'})` };
  }
}

export async function readStandardInput(path: string): Promise<NoteFile | Unreadable> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  return decode(path, Buffer.concat(chunks));
}

function decode(path: string, bytes: Uint8Array): NoteFile | Unreadable {
  try {
    const source = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    return { path: path.split(sep).join('/'), source };
  } catch {
    return { reason: `${path}: is not UTF-8 text; save it as UTF-8` };
  }
}
