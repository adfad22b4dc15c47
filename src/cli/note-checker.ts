/** Checks one note after another: its policy, the notes that it uses, its report. */
import { mayHoldBlocks } from '../markdown/index.ts';
import { NO_NOTES } from '../note/index.ts';
import { type NoteReport, reportOf } from '../service/index.ts';
import { type Asked, type CheckedNote, notChecked } from './checked-note.ts';
import type { NoteFile } from './notes.ts';
import { NO_POLICY, Policies } from './policies.ts';
import type { ReportedFile } from './reporter.ts';
import { UsedNoteFiles } from './used-notes.ts';

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
