/** The service behind the editor: notes in, plain data out. */
import { findingsOf } from '../checks/findings.ts';
import { NoteReader, readNote } from '../markdown/index.ts';
import type { NoteText } from '../markdown/note-text.ts';
import { parseBlock } from '../notation/index.ts';
import {
  type Closure,
  DEFAULT_POLICY,
  Memo,
  NO_NOTES,
  NoteLibrary,
  type Policy,
  type UsedNotes,
  type Uses,
  usesIn,
  usesOf,
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
    uses: (uri, source) => noteAt(uri).uses(source),
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
  private text: NoteText | null = null;
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
      this.model(this.read(source.slice(0, end)), policy, this.usedIn(closure, policy));
      if (!(await goOn())) return false;
    }
    return true;
  }

  work(source: string, policy: Policy, closure: Closure | null): WorkedNote {
    const { last } = this;
    if (last?.source === source && last.policy === policy && last.closure === closure) return last.note;
    const used = this.usedIn(closure, policy);
    const text = this.read(source);
    const note = workedNote(this.model(text, policy, used), text, used, this.reader);
    this.last = { source, policy, closure, note };
    return note;
  }

  /** A note that was not worked out yet is prepared first, piece by piece, and not read as a whole. */
  uses(source: string): Uses {
    return this.last ? usesIn(this.read(source).blocks) : usesOf({ at: '', text: source });
  }

  private read(source: string): NoteText {
    if (this.text?.source !== source) this.text = this.reader.read(source);
    else this.text.settle();
    return this.text;
  }

  private usedIn(closure: Closure | null, policy: Policy): UsedNotes {
    return closure ? this.library.usedIn(closure, policy) : NO_NOTES;
  }

  private model(text: NoteText, policy: Policy, used: UsedNotes): WorkedNoteModel {
    return workNote(text, parseBlock, policy, used, this.memo);
  }
}

/**
 * `reader` knows the note, and so reads quickly what it would be with a little changed. It may have read another version
 * since: whatever is asked, the blocks are put where this one has them.
 */
function workedNote(model: WorkedNoteModel, text: NoteText, used: UsedNotes, reader: NoteReader): WorkedNote {
  const settled =
    <A extends readonly unknown[], R>(answer: (...asked: A) => R) =>
    (...asked: A): R => {
      text.settle();
      return answer(...asked);
    };
  const lines = new Lines(model.source);
  const found = findingsOf(model);
  const diagnostics = diagnosticsOf(model, found);
  const findings = found.open.map((finding, index) => ({ finding, shown: diagnostics[index]! }));
  const navigation = navigationOf(model, lines, (source) => workNote(readNote(source), parseBlock, model.policy, used));
  return {
    diagnostics: () => diagnostics,
    fixes: settled((span) => fixesOf(model, findings, span)),
    offers: settled((span) => offersOf(model, findings, span)),
    hover: settled((offset) => hoverAt(model, lines, offset)),
    results: settled((span) => resultsOf(model, lines, span)),
    formatting: settled((span) => formattingOf(model, span)),
    complete: settled((offset, typed, paths = null) => completionsAt(model, offset, typed, reader, paths)),
    navigation: {
      name: settled(navigation.name),
      rename: settled(navigation.rename),
      links: settled(navigation.links),
      symbols: settled(navigation.symbols),
      folds: settled(navigation.folds),
    },
    worksheet: settled((of, asked) => worksheetOf(model, lines, of, asked)),
    updates: settled(() => updatesOf(model)),
  };
}
