/** What the Markdown of a note holds for us: its infusion blocks, each with a map from its text to the note's. */

/** UTF-16 offsets into the note as it is stored, end exclusive. */
export interface SourceSpan {
  readonly start: number;
  readonly end: number;
}

/** How a block takes part: in the note's one scope, in a scope of its own, or not at all. */
export type BlockMode = 'shared' | 'alone' | 'skip';

/**
 * In all versions of a note in which its text and lines are the same it is the same object, wherever the note before it
 * moves it to. It stands where the version has it that was read or settled last.
 */
export interface Block {
  /** The fence's content: container prefixes removed, lines joined by `\n`, no final line end. */
  readonly text: string;
  readonly mode: BlockMode;
  /** The whole info string's place, from the word `infusion` on. */
  readonly info: SourceSpan;
  /** Words after `infusion` that are neither `alone` nor `skip`, for a finding. */
  readonly strayInfo: readonly { readonly text: string; readonly span: SourceSpan }[];
  /** Where the opening fence begins. */
  readonly start: number;
  /** From the opening fence's first character to the last of the closing fence (or of the content). */
  readonly span: SourceSpan;
  /** False when nothing closes the fence. Such a block's text ends at its first blank line: prose below is not read. */
  readonly closed: boolean;
  /** Where a span of `text` stands in the note. Total: offsets outside the text are clamped. */
  toSource(span: SourceSpan): SourceSpan;
  /** The same as a place that follows the block: for what is kept from one version of the note to the next. */
  place(span: SourceSpan): SourceSpan;
  /** The offset in `text` of a place in the note, or null when the place lies outside the content (or in a prefix). */
  toText(offset: number): number | null;
}

export interface NoteText {
  readonly source: string;
  readonly blocks: readonly Block[];
  /**
   * Where prose stands: the text of paragraphs and headings without code, raw HTML, links' addresses and front matter. Empty
   * for a note without an infusion block. Looked for when it is asked for.
   */
  prose(): readonly Prose[];
  /** What of the prose is bound to results: links and marked tables. Looked for when it is asked for. */
  bound(): BoundText;
  /** Puts its blocks where they stand in this version, when another has been read or settled since. */
  settle(): void;
}

/** A stretch of prose. */
export interface Prose {
  readonly start: number;
  /** Counted from there; the same object in all versions of a note in which the stretch says the same. */
  readonly lines: readonly SourceSpan[];
}

/** Links whose target begins with `infusion:`, and what stands between `<!-- infusion:… -->` and `<!-- /infusion -->`. */
export interface BoundText {
  /** In the order of the note. */
  readonly links: readonly Link[];
  readonly tables: readonly MarkedTable[];
  readonly slips: readonly BoundSlip[];
}

export interface Link {
  /** From its first bracket to its last. */
  readonly span: SourceSpan;
  readonly text: LinkText;
  /** What follows `infusion:`, escapes of Markdown resolved. */
  readonly target: string;
  /** Where that is written: in the link, or in the definition that it refers to. */
  readonly targetSpan: SourceSpan;
}

/** What a reader sees of a link, without emphasis and other marks. */
export interface LinkText {
  readonly text: string;
  /** Total: offsets outside the text are clamped. */
  toSource(span: SourceSpan): SourceSpan;
}

/** What a pair of marks keeps between them. */
export interface MarkedTable {
  /** The opening mark. */
  readonly opening: SourceSpan;
  readonly closing: SourceSpan;
  /** What follows `infusion:` in the opening mark, and where it begins. */
  readonly statement: { readonly text: string; readonly start: number };
  /** Everything between the two, line ends and prefixes of containers included. */
  readonly between: SourceSpan;
  /** The lines there that are not blank, without those prefixes. */
  readonly lines: readonly string[];
  /** What is to stand between them so that it holds these lines. */
  written(lines: readonly string[]): string;
}

/** Something that was meant for a link or a mark and is none. */
export interface BoundSlip {
  readonly at: SourceSpan;
  readonly problem: /** `[77 mmol/L](infusion:gastric/free water)`: a space ends the target. */
    | 'not-a-link'
    /** A mark with something beside it on its line, or one of several lines. */
    | 'mark-not-alone'
    | 'mark-unclosed'
    | 'mark-unopened'
    /** Text of so many brackets, stars and the like that it is not looked through. */
    | 'too-many-marks';
}
