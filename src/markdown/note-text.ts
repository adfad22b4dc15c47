/** What the Markdown of a note holds for us: its infusion blocks, each with a map from its text to the note's. */

/** UTF-16 offsets into the note as it is stored, end exclusive. */
export interface SourceSpan {
  readonly start: number;
  readonly end: number;
}

/** How a block takes part: in the note's one scope, in a scope of its own, or not at all. */
export type BlockMode = 'shared' | 'alone' | 'skip';

export interface Block {
  /** The fence's content: container prefixes removed, lines joined by `\n`, no final line end. */
  readonly text: string;
  readonly mode: BlockMode;
  /** The whole info string's place, from the word `infusion` on. */
  readonly info: SourceSpan;
  /** Words after `infusion` that are neither `alone` nor `skip`, for a finding. */
  readonly strayInfo: readonly { readonly text: string; readonly span: SourceSpan }[];
  /** From the opening fence's first character to the last of the closing fence (or of the content). */
  readonly span: SourceSpan;
  /** False when nothing closes the fence. Such a block's text ends at its first blank line: prose below is not read. */
  readonly closed: boolean;
  /** Where a span of `text` stands in the note. Total: offsets outside the text are clamped. */
  toSource(span: { readonly start: number; readonly end: number }): SourceSpan;
  /** The offset in `text` of a place in the note, or null when the place lies outside the content (or in a prefix). */
  toText(offset: number): number | null;
}

export interface NoteText {
  readonly source: string;
  readonly blocks: readonly Block[];
  /**
   * Where prose stands, line by line: the text of paragraphs and headings without code, raw HTML, links' addresses and
   * front matter. Empty for a note without an infusion block. Looked for when it is asked for.
   */
  prose(): readonly SourceSpan[];
}
