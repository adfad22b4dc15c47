/** The notes of the workspace, open or not: which there are, and what they declare. The client looks for files. */
import type { CancellationToken, Connection } from 'vscode-languageserver';
import { type NoteSource, outlineOf } from '../service/index.ts';
import type { NoteSymbol } from '../service/navigation/types.ts';

/** The server asks the client: `{ near }`, a note's URI or null → URIs of the notes in its workspace folder, or in all. */
const notesRequest = 'meniscus/notes';

export interface NoteFinder {
  /** URIs, at most as many as an editor looks through. Never fails. */
  find(near: string | null, token: CancellationToken): Promise<readonly string[]>;
}

export function clientNoteFinder(connection: Connection): NoteFinder {
  return {
    async find(near, token) {
      try {
        const found: unknown = await connection.sendRequest(notesRequest, { near }, token);
        return Array.isArray(found) ? found.filter((uri): uri is string => typeof uri === 'string') : [];
      } catch (error) {
        if (!token.isCancellationRequested) connection.console.error(`Notes could not be asked for: ${error}`);
        return [];
      }
    },
  };
}

export interface ClosedNote {
  readonly uri: string;
  readonly text: string;
  readonly symbols: readonly NoteSymbol[];
}

/** How many notes are read at a time. */
const AT_A_TIME = 16;

export class WorkspaceNotes {
  /** Whether there is anybody to ask. */
  asks = false;
  private readonly outlines = new Map<string, Promise<ClosedNote | null>>();

  constructor(
    private readonly finder: NoteFinder,
    private readonly source: NoteSource,
    /** URIs, as the protocol tells them. */
    private readonly now: () => { readonly open: readonly string[]; readonly folders: readonly string[] },
  ) {}

  /** Of the notes that are not open, those that declare anything; as far as was come when it is cancelled. */
  async closed(token: CancellationToken): Promise<readonly ClosedNote[]> {
    if (!this.asks) return [];
    const open = new Set(this.now().open);
    const found = (await this.finder.find(null, token)).filter((uri) => !open.has(uri));
    const notes: ClosedNote[] = [];
    for (let next = 0; next < found.length && !token.isCancellationRequested; next += AT_A_TIME) {
      const some = await Promise.all(found.slice(next, next + AT_A_TIME).map((uri) => this.outline(uri)));
      for (const note of some) if (note && note.symbols.length > 0) notes.push(note);
    }
    return notes;
  }

  /** A note may have come, gone or changed on the disk. */
  changed(uri: string): void {
    this.outlines.delete(uri);
  }

  /** Paths of the other notes in the same folder of the workspace, as they are written behind `use` in that one. */
  async pathsFrom(uri: string, token: CancellationToken): Promise<readonly string[]> {
    const { open, folders: all } = this.now();
    const folders = all.map((folder) => `${folder.replace(/\/$/, '')}/`).filter((one) => uri.startsWith(one));
    const innermost = folders.sort((a, b) => b.length - a.length)[0];
    const inFolder = innermost === undefined ? [] : open.filter((other) => other.startsWith(innermost));
    const found = this.asks ? await this.finder.find(uri, token) : [];
    const paths = [...new Set([...found, ...inFolder])]
      .filter((other) => other !== uri)
      .flatMap((other) => relativePath(uri, other) ?? []);
    return paths.sort((a, b) => distance(a) - distance(b) || (a < b ? -1 : 1));
  }

  private outline(uri: string): Promise<ClosedNote | null> {
    const known = this.outlines.get(uri);
    if (known) return known;
    const read = this.read(uri);
    this.outlines.set(uri, read);
    return read;
  }

  /** Read as a note that uses it from its own folder would. */
  private async read(uri: string): Promise<ClosedNote | null> {
    const name = decoded(uri.slice(uri.lastIndexOf('/') + 1));
    const found = name === null ? null : await this.source.read(uri, name).catch(() => null);
    return found && 'text' in found ? { uri, text: found.text, symbols: outlineOf(found.text) } : null;
  }
}

/** `./formulary.md`, `../ward/bag.md`; null where it cannot be written so. */
function relativePath(from: string, to: string): string | null {
  const [root] = /^[a-z][a-z\d+.-]*:(?:\/\/[^/]*)?\//i.exec(from) ?? [''];
  if (root === '' || !to.startsWith(root) || !/\.(?:md|markdown)$/i.test(to)) return null;
  const [start, end] = [from.slice(root.length).split('/'), to.slice(root.length).split('/')];
  const same = start.findIndex((part, index) => part !== end[index]);
  const up = start.length - 1 - same;
  const down = end.slice(same).map(decoded);
  if (down.some((part) => part === null || /[\\/"\r\n]/.test(part))) return null;
  return [...(up === 0 ? ['.'] : Array(up).fill('..')), ...down].join('/');
}

/** Folders up and down. */
function distance(path: string): number {
  const parts = path.split('/');
  return parts.length + parts.filter((part) => part === '..').length;
}

function decoded(part: string): string | null {
  try {
    return decodeURIComponent(part);
  } catch {
    return null;
  }
}
