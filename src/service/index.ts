/** The service behind the editor: notes in, plain data out. */
import { NoteReader } from '../markdown/index.ts';
import { type BlockSyntax, parseBlock } from '../notation/index.ts';
import { DEFAULT_POLICY, type Policy, type WorkedNoteModel, workNote } from '../note/index.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { fixesOf } from './fixes.ts';
import { formattingOf } from './formatting.ts';
import { hoverAt } from './hover.ts';
import { Lines } from './lines.ts';
import { resultsOf } from './results.ts';
import type { NoteService, WorkedNote } from './types.ts';

export { CAUTION_TEXT } from './cards/caution.ts';
export { applied } from './edits.ts';
export { formattingOf } from './formatting.ts';
export { type PolicyFile, readPolicyFile } from './policy-file.ts';
export { POLICY_FILE } from './policy-name.ts';
export { type DiagnosticReport, type MixtureReport, type NoteReport, policyReportOf, reportOf } from './report.ts';
export type { CodeFix, Diagnostic, Edit, HoverCard, InlineResult, NoteService, Severity, WorkedNote } from './types.ts';

export function createNoteService(): NoteService {
  const notes = new Map<string, OpenNote>();
  return {
    work(uri, source, policy = DEFAULT_POLICY) {
      const note = notes.get(uri) ?? new OpenNote();
      notes.set(uri, note);
      return note.work(source, policy);
    },
    forget(uri) {
      notes.delete(uri);
    },
  };
}

/** What of one note is kept between its versions: its chunks of Markdown, and its blocks by their text. */
class OpenNote {
  private readonly reader = new NoteReader();
  private known = new Map<string, BlockSyntax>();
  private last: { readonly source: string; readonly policy: Policy; readonly note: WorkedNote } | null = null;

  work(source: string, policy: Policy): WorkedNote {
    if (this.last?.source === source && this.last.policy === policy) return this.last.note;
    const before = this.known;
    this.known = new Map();
    const read = (text: string) => {
      const syntax = before.get(text) ?? parseBlock(text);
      this.known.set(text, syntax);
      return syntax;
    };
    const note = workedNote(workNote(this.reader.read(source), read, policy));
    this.last = { source, policy, note };
    return note;
  }
}

function workedNote(model: WorkedNoteModel): WorkedNote {
  const lines = new Lines(model.source);
  const diagnostics = diagnosticsOf(model);
  return {
    diagnostics: () => diagnostics,
    fixes: (span) => fixesOf(model, diagnostics, span),
    hover: (offset) => hoverAt(model, lines, offset),
    results: (span) => resultsOf(model, lines, span),
    formatting: (span) => formattingOf(model, span),
  };
}
