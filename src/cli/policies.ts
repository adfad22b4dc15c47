/** The local policy of each note: the one that an option names, or the nearest file above the note. */
import { DEFAULT_POLICY, type Policy } from '../note/index.ts';
import { formularyDiagnostics, type NoteReport, policyReportOf, readPolicyFile } from '../service/index.ts';
import { NearestPolicies } from './nearest-policy.ts';
import { readNoteFile, shown, type Unreadable } from './notes.ts';
import type { UsedNoteFiles } from './used-notes.ts';

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
  private readonly nearest = new NearestPolicies();
  private readonly files = new Map<string, Promise<PolicyInUse | Unreadable>>();

  /** `given`: a file, `none`, or null for the nearest of each note. */
  constructor(
    private readonly given: string | null,
    private readonly notes: UsedNoteFiles,
  ) {}

  /** The file that was given for all notes; null where none was. */
  async named(): Promise<PolicyInUse | Unreadable | null> {
    return this.given === null || this.given === 'none' ? null : this.read(shown(this.given));
  }

  /** Of the note that lies at `path`. */
  async of(path: string): Promise<PolicyInUse | Unreadable> {
    if (this.given !== null) return (await this.named()) ?? NO_POLICY;
    const file = await this.nearest.to(path);
    if (file === null) return NO_POLICY;
    return typeof file === 'string' ? this.read(shown(file)) : file;
  }

  private read(path: string): Promise<PolicyInUse | Unreadable> {
    const known = this.files.get(path) ?? readPolicyAt(path, this.notes);
    this.files.set(path, known);
    return known;
  }
}

/** With what is wrong with the notes of its formulary, which is said in the policy. */
async function readPolicyAt(path: string, notes: UsedNoteFiles): Promise<PolicyInUse | Unreadable> {
  const file = readNoteFile(path);
  if ('reason' in file) return file;
  const read = readPolicyFile(file.source);
  const { formulary } = await notes.closureOf({ path, source: '' }, path, read.policy);
  const found = [...read.diagnostics, ...formularyDiagnostics(read, (of) => formulary.get(of) ?? null)];
  return { path: file.path, policy: read.policy, report: policyReportOf(file.source, found) };
}
