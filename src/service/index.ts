/** The service behind the editor: notes in, plain data out. */
import { findingsOf } from '../checks/findings.ts';
import { NoteReader, readNote } from '../markdown/index.ts';
import { parseBlock } from '../notation/index.ts';
import {
  type Closure,
  DEFAULT_POLICY,
  Memo,
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
import { offersOf } from './offers.ts';
import { resultsOf } from './results.ts';
import type { NoteService, WorkedNote } from './types.ts';
import { updatesOf } from './updates.ts';
import { worksheetOf } from './worksheet/index.ts';

export { applied } from './edits.ts';
export { type ExportAsked, type Exported, exportOf } from './export/index.ts';
export { formattingOf } from './formatting.ts';
export { outlineOf } from './navigation/symbols.ts';
export { type NoteUpdate, updateOf } from './note-update.ts';
export { formularyDiagnostics, type PolicyFile, readPolicyFile } from './policy-file.ts';
export { POLICY_FILE } from './policy-name.ts';
export { figuresOf, type PreviewBlock, previewOf } from './preview.ts';
export { policyReportOf, reportOf } from './report.ts';
export type { AcceptedReport, DiagnosticReport, MixtureReport, NoteReport, Range } from './report-model.ts';
export type { CodeFix, Diagnostic, Edit, HoverCard, InlineResult, NoteService, Severity, WorkedNote } from './types.ts';
export { type NoteSource, readClosure } from './used-notes.ts';

export function createNoteService(): NoteService {
  const notes = new Map<string, OpenNote>();
  const library = new NoteLibrary();
  const noteAt = (uri: string) => {
    const note = notes.get(uri) ?? new OpenNote(library);
    notes.set(uri, note);
    return note;
  };
  return {
    work: (uri, source, policy = DEFAULT_POLICY, closure = null) => noteAt(uri).work(source, policy, closure),
    prepare: (uri, source, policy, closure, goOn) => noteAt(uri).prepare(source, policy, closure, goOn),
    forget(uri) {
      notes.delete(uri);
    },
  };
}

/** How much of a note that is new is worked out before others have their turn, in characters. */
const AT_ONCE = 50_000;

/** What of one note is kept between its versions: its stretches of Markdown, and what its lines came to. */
class OpenNote {
  private readonly reader = new NoteReader();
  private readonly memo = new Memo();
  private last: {
    readonly source: string;
    readonly policy: Policy;
    readonly closure: Closure | null;
    readonly note: WorkedNote;
  } | null = null;

  constructor(private readonly library: NoteLibrary) {}

  async prepare(
    source: string,
    policy: Policy,
    closure: Closure | null,
    goOn: () => Promise<boolean>,
  ): Promise<boolean> {
    for (let end = AT_ONCE; end < source.length && !this.last; end += AT_ONCE) {
      this.model(source.slice(0, end), policy, this.usedIn(closure, policy));
      if (!(await goOn())) return false;
    }
    return true;
  }

  work(source: string, policy: Policy, closure: Closure | null): WorkedNote {
    const { last } = this;
    if (last?.source === source && last.policy === policy && last.closure === closure) return last.note;
    const used = this.usedIn(closure, policy);
    const model = this.model(source, policy, used);
    const note = workedNote(model, used, this.reader);
    this.last = { source, policy, closure, note };
    return note;
  }

  private usedIn(closure: Closure | null, policy: Policy): UsedNotes {
    return closure ? this.library.usedIn(closure, policy) : NO_NOTES;
  }

  private model(source: string, policy: Policy, used: UsedNotes): WorkedNoteModel {
    return workNote(this.reader.read(source), parseBlock, policy, used, this.memo);
  }
}

/** `reader` knows the note, and so reads quickly what it would be with a little changed. */
function workedNote(model: WorkedNoteModel, used: UsedNotes, reader: NoteReader): WorkedNote {
  const lines = new Lines(model.source);
  const found = findingsOf(model);
  const diagnostics = diagnosticsOf(model, found);
  const findings = found.open.map((finding, index) => ({ finding, shown: diagnostics[index]! }));
  return {
    diagnostics: () => diagnostics,
    fixes: (span) => fixesOf(model, findings, span),
    offers: (span) => offersOf(model, findings, span),
    hover: (offset) => hoverAt(model, lines, offset),
    results: (span) => resultsOf(model, lines, span),
    formatting: (span) => formattingOf(model, span),
    complete: (offset, typed, paths = null) => completionsAt(model, offset, typed, reader, paths),
    navigation: navigationOf(model, lines, (source) => workNote(readNote(source), parseBlock, model.policy, used)),
    worksheet: (of, asked) => worksheetOf(model, lines, of, asked),
    updates: () => updatesOf(model),
  };
}
