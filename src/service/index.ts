/** The service behind the editor: notes in, plain data out. */
import { NoteReader, readNote } from '../markdown/index.ts';
import { type BlockSyntax, parseBlock } from '../notation/index.ts';
import {
  type Closure,
  DEFAULT_POLICY,
  NO_NOTES,
  NoteLibrary,
  type Policy,
  type UsedNotes,
  type WorkedNoteModel,
  workNote,
} from '../note/index.ts';
import { completionsAt } from './completion/index.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { fixesOf } from './fixes.ts';
import { formattingOf } from './formatting.ts';
import { hoverAt } from './hover.ts';
import { Lines } from './lines.ts';
import { navigationOf } from './navigation/index.ts';
import { resultsOf } from './results.ts';
import type { NoteService, WorkedNote } from './types.ts';
import { updatesOf } from './updates.ts';
import { worksheetOf } from './worksheet/index.ts';

export { CAUTION_TEXT } from './cards/caution.ts';
export { applied } from './edits.ts';
export { type ExportAsked, type Exported, exportOf } from './export/index.ts';
export { formattingOf } from './formatting.ts';
export { type NoteUpdate, updateOf } from './note-update.ts';
export { formularyDiagnostics, type PolicyFile, readPolicyFile } from './policy-file.ts';
export { POLICY_FILE } from './policy-name.ts';
export { figuresOf, type PreviewBlock, previewOf } from './preview.ts';
export {
  type AcceptedReport,
  type DiagnosticReport,
  type MixtureReport,
  type NoteReport,
  policyReportOf,
  type Range,
  reportOf,
} from './report.ts';
export type { CodeFix, Diagnostic, Edit, HoverCard, InlineResult, NoteService, Severity, WorkedNote } from './types.ts';
export { type NoteSource, readClosure } from './used-notes.ts';

export function createNoteService(): NoteService {
  const notes = new Map<string, OpenNote>();
  const library = new NoteLibrary();
  return {
    work(uri, source, policy = DEFAULT_POLICY, closure = null) {
      const note = notes.get(uri) ?? new OpenNote(library);
      notes.set(uri, note);
      return note.work(source, policy, closure);
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
  private last: {
    readonly source: string;
    readonly policy: Policy;
    readonly closure: Closure | null;
    readonly note: WorkedNote;
  } | null = null;

  constructor(private readonly library: NoteLibrary) {}

  work(source: string, policy: Policy, closure: Closure | null): WorkedNote {
    const { last } = this;
    if (last?.source === source && last.policy === policy && last.closure === closure) return last.note;
    const before = this.known;
    this.known = new Map();
    const read = (text: string) => {
      const syntax = before.get(text) ?? parseBlock(text);
      this.known.set(text, syntax);
      return syntax;
    };
    const used: UsedNotes = closure ? this.library.usedIn(closure, policy) : NO_NOTES;
    const note = workedNote(workNote(this.reader.read(source), read, policy, used), used, this.reader);
    this.last = { source, policy, closure, note };
    return note;
  }
}

/** `reader` knows the note, and so reads quickly what it would be with a little changed. */
function workedNote(model: WorkedNoteModel, used: UsedNotes, reader: NoteReader): WorkedNote {
  const lines = new Lines(model.source);
  const diagnostics = diagnosticsOf(model);
  return {
    diagnostics: () => diagnostics,
    fixes: (span) => fixesOf(model, diagnostics, span),
    hover: (offset) => hoverAt(model, lines, offset),
    results: (span) => resultsOf(model, lines, span),
    formatting: (span) => formattingOf(model, span),
    complete: (offset, typed) => completionsAt(model, offset, typed, reader),
    navigation: navigationOf(model, lines, (source) => workNote(readNote(source), parseBlock, model.policy, used)),
    worksheet: (of, asked) => worksheetOf(model, lines, of, asked),
    updates: () => updatesOf(model),
  };
}
