/** Checks one note after another: its policy, the notes that it uses, its report. */
import { mayHoldBlocks } from '../markdown/index.ts';
import { NO_NOTES } from '../note/index.ts';
import { type NoteReport, reportOf } from '../service/index.ts';
import type { NoteFile } from './notes.ts';
import { NO_POLICY, Policies } from './policies.ts';
import type { ReportedFile } from './reporter.ts';
import { UsedNoteFiles } from './used-notes.ts';

/** Plain data, which goes from one thread to another. */
export interface CheckedNote {
  /** What could not be read or checked, in one line each. */
  readonly refused: readonly string[];
  /** That of the note, where there is one. */
  readonly policy: ReportedFile | null;
  readonly note: ReportedFile | null;
}

export interface Asked {
  /** A file, `none`, or null for the nearest one of each note. */
  readonly policy: string | null;
  /** Whether results are told, beside what is found. */
  readonly results: boolean;
}

/** Of a note that was not checked. */
export function notChecked(reason: string): CheckedNote {
  return { refused: [reason], policy: null, note: null };
}

export class NoteChecker {
  private readonly used = new UsedNoteFiles();
  private readonly policies: Policies;

  constructor(private readonly asked: Asked) {
    this.policies = new Policies(asked.policy, this.used);
  }

  /** Why the policy that was named for all notes cannot be read; null where it can, or none was named. */
  async refusal(): Promise<string | null> {
    const named = await this.policies.named();
    return named && 'reason' in named ? named.reason : null;
  }

  /** Never rejects: one note, whatever is in it, does not keep the others from being checked. */
  async check(note: NoteFile): Promise<CheckedNote> {
    try {
      const found = await this.policies.of(note.path);
      const { path, policy, report } = 'reason' in found ? NO_POLICY : found;
      // Nothing of another note can matter to one without blocks.
      const used = mayHoldBlocks(note.source) ? await this.used.usedBy(note, path, policy) : NO_NOTES;
      return {
        refused: 'reason' in found ? [found.reason] : [],
        policy: path !== null && report ? reported(path, null, report) : null,
        note: reported(note.path, path, reportOf(note.source, policy, used, this.asked)),
      };
    } catch (error) {
      return notChecked(`${note.path}: could not be checked, which is a fault of this program (${firstLine(error)})`);
    }
  }
}

function reported(path: string, policy: string | null, report: NoteReport): ReportedFile {
  return { path, policy, report };
}

function firstLine(error: unknown): string {
  return String(error).split('\n')[0]!;
}
