/** The service behind the editor: notes in, plain data out. */
import { DEFAULT_REFERENCE } from '../engine/index.ts';
import { NoteReader } from '../markdown/index.ts';
import { type BlockSyntax, parseBlock } from '../notation/index.ts';
import { type WorkedNoteModel, workNote } from '../note/index.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { hoverAt } from './hover.ts';
import { Lines } from './lines.ts';
import { resultsOf } from './results.ts';
import type { NoteService, WorkedNote } from './types.ts';

export { type DiagnosticReport, type MixtureReport, type NoteReport, reportOf } from './report.ts';
export type { Diagnostic, HoverCard, InlineResult, NoteService, Severity, WorkedNote } from './types.ts';

export function createNoteService(): NoteService {
  const notes = new Map<string, OpenNote>();
  return {
    work(uri, source) {
      const note = notes.get(uri) ?? new OpenNote();
      notes.set(uri, note);
      return note.work(source);
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
  private last: WorkedNote | null = null;
  private lastSource: string | null = null;

  work(source: string): WorkedNote {
    if (this.last && source === this.lastSource) return this.last;
    const before = this.known;
    this.known = new Map();
    const model = workNote(this.reader.read(source), (text) => {
      const syntax = before.get(text) ?? parseBlock(text);
      this.known.set(text, syntax);
      return syntax;
    });
    this.last = workedNote(model);
    this.lastSource = source;
    return this.last;
  }
}

function workedNote(model: WorkedNoteModel): WorkedNote {
  const lines = new Lines(model.source);
  const diagnostics = diagnosticsOf(model);
  return {
    diagnostics: () => diagnostics,
    hover: (offset) => hoverAt(model, lines, DEFAULT_REFERENCE, offset),
    results: (span) => resultsOf(model, lines, DEFAULT_REFERENCE, span),
  };
}
