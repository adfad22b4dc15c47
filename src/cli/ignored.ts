/** What `.meniscusignore` files leave out: the syntax and the order of `.gitignore`, within the workspace. */
import { readFile } from 'node:fs/promises';
import { dirname, join, relative, resolve, sep } from 'node:path';
import ignore, { type Ignore } from 'ignore';
import { foldersOfWorkspace } from './workspace.ts';

const IGNORE_FILE = '.meniscusignore';

/** The lines of a folder's files and of those above it, each as it would stand in the topmost one; later ones go before. */
interface Rules {
  readonly top: string;
  readonly lines: readonly string[];
  readonly matcher: Ignore;
}

export class IgnoreFiles {
  /** What could not be read, in one line each. */
  readonly refused: string[] = [];
  private readonly known = new Map<string, Promise<Rules>>();

  /** Whether a file of that folder is left out. */
  async in(folder: string): Promise<(path: string) => boolean> {
    const { top, lines, matcher } = await this.of(folder);
    if (lines.length === 0) return () => false;
    return (path) => matcher.ignores(relative(top, resolve(path)).split(sep).join('/'));
  }

  /** Folders are known by the way they are written: resolving the path of every file takes longer than reading it. */
  private of(folder: string): Promise<Rules> {
    const known = this.known.get(folder) ?? this.read(resolve(folder));
    this.known.set(folder, known);
    return known;
  }

  private async read(folder: string): Promise<Rules> {
    const top = (await foldersOfWorkspace(folder)).at(-1)!;
    const above = folder === top ? rules(top, []) : await this.of(dirname(folder));
    const own = await this.linesIn(folder);
    if (own.length === 0) return above;
    const place = relative(top, folder).split(sep).join('/');
    return rules(top, [...above.lines, ...own.flatMap((line) => lineFrom(place, line))]);
  }

  private async linesIn(folder: string): Promise<readonly string[]> {
    try {
      return (await readFile(join(folder, IGNORE_FILE), 'utf8')).replace(/^\uFEFF/, '').split(/\r?\n/);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code !== 'ENOENT') this.refused.push(`${join(folder, IGNORE_FILE)}: cannot be read (${code})`);
      return [];
    }
  }
}

function rules(top: string, lines: readonly string[]): Rules {
  return { top, lines, matcher: ignore({ ignorecase: false }).add([...lines]) };
}

/** A line of the file in the folder `place` as it would stand in the topmost folder; nothing for a remark. */
function lineFrom(place: string, line: string): readonly string[] {
  if (line.trim() === '' || line.startsWith('#')) return [];
  if (place === '') return [line];
  const [, not, pattern] = /^(!?)(.*)$/s.exec(line)!;
  const folder = place.replace(/[\\*?[\]!# ]/g, '\\$&');
  // A pattern with a slash that is not its last character holds from its own folder on, any other at every depth.
  const way = /\/(?!\s*$)/.test(pattern!) ? pattern!.replace(/^\//, '') : `**/${pattern}`;
  return [`${not}/${folder}/${way}`];
}
