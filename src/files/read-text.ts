/** Reads text files from the disk and from standard input: what may be read, how much of it, in which encoding. */
import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import { terminalSafe } from '../render/terminal-safe.ts';

/** A note is something a person wrote; a larger file is not read into memory. */
const LARGEST_BYTES = 64 * 1024 * 1024;

/** Why a file is not read; other words are the system's code. */
type Why = 'no-file' | 'too-large' | 'utf-16' | 'nul' | 'not-utf-8' | (string & {});

export type TextFile = { readonly text: string } | { readonly why: Why; readonly reason: string };

/**
 * Never waits for a pipe or a device, and reads no more than `largest` bytes whatever happens to the file meanwhile. At once,
 * not by the thread pool: for files of a note's size asking takes several times as long as reading.
 */
export function readTextFile(path: string, largest = LARGEST_BYTES): TextFile {
  let file: number | null = null;
  try {
    // Windows has no such flag, and no pipes among its files.
    file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const found = fstatSync(file);
    if (found.isDirectory()) return refused(path, 'EISDIR');
    if (!found.isFile()) return refused(path, 'no-file');
    if (found.size > largest) return refused(path, 'too-large', largest);
    return textOf(path, firstBytes(file, found.size));
  } catch (error) {
    return refused(path, (error as NodeJS.ErrnoException).code ?? 'unknown reason');
  } finally {
    if (file !== null) closeSync(file);
  }
}

/** `name`: what reasons call it. */
export async function readStandardInputText(name: string): Promise<TextFile> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of process.stdin) {
    size += (chunk as Buffer).length;
    if (size > LARGEST_BYTES) return refused(name, 'too-large');
    chunks.push(chunk as Buffer);
  }
  return textOf(name, Buffer.concat(chunks));
}

/** `path: reason`, in one line that a terminal shows and does not obey. */
export function saying(path: string, reason: string): string {
  return `${terminalSafe(path)}: ${reason}`;
}

/** A system's code in words, where it has some. */
export function codeWords(code: string): string {
  return WORDS[code] ?? `(${code})`;
}

const WORDS: Readonly<Record<string, string>> = {
  ENOENT: '(there is no such file)',
  EISDIR: '(it is a folder)',
  EACCES: '(permission is denied)',
  EPERM: '(permission is denied)',
  ELOOP: '(its links lead in a circle)',
  ENAMETOOLONG: '(its name is too long)',
};

/** Most notes fit in here; a new one for each of ten thousand is work for the collector. Nothing that is given out shares it. */
const DESK = Buffer.allocUnsafeSlow(64 * 1024);

/** Good until the next file is read. */
function firstBytes(file: number, size: number): Uint8Array {
  const bytes = size <= DESK.length ? DESK : Buffer.allocUnsafe(size);
  let filled = 0;
  while (filled < size) {
    const read = readSync(file, bytes, filled, size - filled, filled);
    if (read === 0) break;
    filled += read;
  }
  return bytes.subarray(0, filled);
}

const UTF_8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

function textOf(path: string, bytes: Uint8Array): TextFile {
  if (startsWith(bytes, 0xff, 0xfe) || startsWith(bytes, 0xfe, 0xff)) return refused(path, 'utf-16');
  // UTF-16 without its mark would be read as text in which no block is found.
  if (bytes.includes(0)) return refused(path, 'nul', lineOf(bytes, bytes.indexOf(0)));
  try {
    return { text: UTF_8.decode(bytes) };
  } catch {
    return refused(path, 'not-utf-8', firstLineThatIsNot(bytes));
  }
}

function startsWith(bytes: Uint8Array, first: number, second: number): boolean {
  return bytes[0] === first && bytes[1] === second;
}

/** From 1. */
function lineOf(bytes: Uint8Array, at: number): number {
  let line = 1;
  for (let end = bytes.indexOf(10); end >= 0 && end < at; end = bytes.indexOf(10, end + 1)) line += 1;
  return line;
}

/** No character of UTF-8 but the line end itself holds its byte, so each line can be looked at alone. */
function firstLineThatIsNot(bytes: Uint8Array): number {
  let line = 1;
  for (let start = 0; ; line += 1) {
    const end = bytes.indexOf(10, start);
    try {
      UTF_8.decode(bytes.subarray(start, end < 0 ? bytes.length : end));
    } catch {
      return line;
    }
    if (end < 0) return line;
    start = end + 1;
  }
}

/** `number`: of the line that is wrong, or the bound. */
function refused(path: string, why: Why, number = LARGEST_BYTES): { readonly why: Why; readonly reason: string } {
  return { why, reason: saying(path, reasonOf(why, number)) };
}

function reasonOf(why: Why, number: number): string {
  switch (why) {
    case 'no-file':
      return 'is a pipe, a device or a socket and no file; not read';
    case 'too-large':
      return `larger than ${number / 1024 / 1024} MB, not read`;
    case 'utf-16':
      return 'is UTF-16 text; save it as UTF-8';
    case 'nul':
      return `is not plain text (line ${number} holds a NUL byte, as UTF-16 does); save it as UTF-8`;
    case 'not-utf-8':
      return `is not UTF-8 text (line ${number}); save it as UTF-8`;
    default:
      return `cannot be read ${codeWords(why)}`;
  }
}
