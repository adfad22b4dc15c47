/** What the editor asks for, as plain data: offsets into the note's source and strings. No protocol, no vscode. */
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Closure, Edit, Policy, Uses } from '../note/index.ts';
import type { Completions } from './completion/types.ts';
import type { Navigation } from './navigation/types.ts';
import type { Worksheet, WorksheetAsked, WorksheetOf } from './worksheet/index.ts';

export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** A finding ready to be shown. */
export interface Diagnostic {
  readonly code: string;
  readonly severity: Severity;
  readonly span: SourceSpan;
  /** What was read, why it cannot stand, what mends it, and the source in brackets; one string for the editor. */
  readonly message: string;
  /** The same in its parts, for reports that set them out. */
  readonly parts: {
    readonly read: string;
    readonly why: string;
    readonly mend: string;
    readonly source: string | null;
  };
  /** Another place that matters to it, such as the first of two equal names. */
  readonly related: readonly { readonly span: SourceSpan; readonly message: string }[];
}

/** A way to mend a finding, or to write a line otherwise. */
export interface CodeFix {
  readonly title: string;
  /** null where nothing is wrong. */
  readonly finding: Diagnostic | null;
  /** Put in place of these spans of the source; apart from each other. */
  readonly edits: readonly Edit[];
  /** The text of the one edit with places to fill in, in the syntax of snippets; null without such places. */
  readonly snippet: string | null;
  /** Whether a number, or what is counted, comes out otherwise or is chosen: such a fix is taken one at a time. */
  readonly changesNumber: boolean;
  readonly preferred: boolean;
}

export interface HoverCard {
  readonly span: SourceSpan;
  /** GitHub-flavoured Markdown: headings, tables, a picture through a data URI; nothing from the note unescaped. */
  readonly markdown: string;
  /** The same without pictures, each of which is one sentence then: as Markdown, and as plain text in lines. */
  readonly plain: { readonly markdown: string; readonly text: string };
}

/** A result written at the end of a line. */
export interface InlineResult {
  /** Where the line's statement ends. */
  readonly offset: number;
  /** `= 1010 mL, sodium 152 mmol/L, isotonic`. */
  readonly text: string;
  /** Plain sentences for the hint's own tooltip, or null. */
  readonly tooltip: string | null;
}

/**
 * One note, read and worked out. Immutable; made anew for each version of the text, cheaply where little changed.
 * Every method is total.
 */
export interface WorkedNote {
  diagnostics(): readonly Diagnostic[];
  hover(offset: number): HoverCard | null;
  /** What mends the findings that touch the span. */
  fixes(span: SourceSpan): readonly CodeFix[];
  /** What else can be written for what touches the span: acceptances of findings, and amounts that were solved for. */
  offers(span: SourceSpan): readonly CodeFix[];
  /** Results whose line lies in the span. */
  results(span: SourceSpan): readonly InlineResult[];
  /** What brings the blocks that touch the span into the one form, in order and apart from each other; all without a span. */
  formatting(span?: SourceSpan): readonly Edit[];
  /**
   * What can be written at an offset; `typed` is the character whose typing asks, or null. `paths`: those of other notes,
   * as they are written in this one; null where they are not known yet.
   */
  complete(offset: number, typed: string | null, paths?: readonly string[] | null): Completions;
  readonly navigation: Navigation;
  /** The making-up worksheet of a mixture, or why there is none. */
  worksheet(of: WorksheetOf, asked: WorksheetAsked): Worksheet;
  /** What brings its bound numbers and tables up to date; in order, and apart from each other. */
  updates(): readonly Edit[];
}

/** Keeps what it can of earlier versions of a note, by its URI. */
export interface NoteService {
  /** Under the defaults where no policy is given; without a closure no other note can be used. */
  work(uri: string, source: string, policy?: Policy, closure?: Closure | null): WorkedNote;
  /** Which notes it names after `use`. */
  uses(uri: string, source: string): Uses;
  /**
   * Before the first `work` of a long note: works out ever longer beginnings of it, so that little is left to do at once.
   * `goOn` is asked between them, and may let others have their turn; false when it says no.
   */
  prepare(
    uri: string,
    source: string,
    policy: Policy,
    closure: Closure | null,
    goOn: () => Promise<boolean>,
  ): Promise<boolean>;
  forget(uri: string): void;
}

export type { Edit };
