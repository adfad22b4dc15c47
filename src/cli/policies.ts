/** The local policy of each note: the one that an option names, or the nearest file above the note. */
import { access } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, resolve } from 'node:path';
import { DEFAULT_POLICY, type Policy } from '../note/index.ts';
import { type NoteReport, POLICY_FILE, policyReportOf, readPolicyFile } from '../service/index.ts';
import { readNoteFile, shown, type Unreadable } from './notes.ts';

/** A policy in use; `path` as reports show it, null where there is none. */
export interface PolicyInUse {
  readonly path: string | null;
  readonly policy: Policy;
  /** What is wrong with it. */
  readonly report: NoteReport | null;
}

export const NO_POLICY: PolicyInUse = { path: null, policy: DEFAULT_POLICY, report: null };

/** Each policy file is looked for and read once, however many notes it is for. */
export class Policies {
  private readonly nearest = new Map<string, Promise<string | null>>();
  private readonly files = new Map<string, Promise<PolicyInUse | Unreadable>>();

  /** `given`: a file, `none`, or null for the nearest of each note. */
  constructor(private readonly given: string | null) {}

  /** The file that was given for all notes; null where none was. */
  async named(): Promise<PolicyInUse | Unreadable | null> {
    return this.given === null || this.given === 'none' ? null : this.read(shown(this.given));
  }

  /** Of the note that lies at `path`. */
  async of(path: string): Promise<PolicyInUse | Unreadable> {
    if (this.given !== null) return (await this.named()) ?? NO_POLICY;
    const file = await this.nearestTo(dirname(resolve(path)));
    return file === null ? NO_POLICY : this.read(shown(file));
  }

  private read(path: string): Promise<PolicyInUse | Unreadable> {
    const known = this.files.get(path) ?? readPolicyAt(path);
    this.files.set(path, known);
    return known;
  }

  private nearestTo(folder: string): Promise<string | null> {
    const known = this.nearest.get(folder) ?? nearestPolicy(folder);
    this.nearest.set(folder, known);
    return known;
  }
}

async function readPolicyAt(path: string): Promise<PolicyInUse | Unreadable> {
  const file = await readNoteFile(path);
  if ('reason' in file) return file;
  const { policy, diagnostics } = readPolicyFile(file.source);
  return { path: file.path, policy, report: policyReportOf(file.source, diagnostics) };
}

/**
 * In the folder or above it, up to the nearest folder with `.git`; where there is none, up to the working directory, and
 * outside of that in the note's own folder alone.
 */
async function nearestPolicy(folder: string): Promise<string | null> {
  const above = foldersAbove(folder);
  const last = (await firstWith(above, '.git')) ?? (isBelow(folder, process.cwd()) ? process.cwd() : folder);
  const within = await firstWith(above.slice(0, above.indexOf(last) + 1), POLICY_FILE);
  return within && join(within, POLICY_FILE);
}

/** The folder itself first. */
function foldersAbove(folder: string): readonly string[] {
  const above = [folder];
  for (let next = dirname(folder); next !== above[above.length - 1]; next = dirname(next)) above.push(next);
  return above;
}

async function firstWith(folders: readonly string[], entry: string): Promise<string | null> {
  for (const folder of folders) if (await exists(join(folder, entry))) return folder;
  return null;
}

async function exists(path: string): Promise<boolean> {
  try {
    await access(path);
    return true;
  } catch {
    return false;
  }
}

function isBelow(folder: string, top: string): boolean {
  const path = relative(top, folder);
  return !path.startsWith('..') && !isAbsolute(path);
}
