/** Names of a note and the places where they stand, as plain data. */
import type { SourceSpan } from '../../markdown/note-text.ts';
import type { Edit } from '../../note/index.ts';

/** One place of a name. */
export interface NamePlace {
  readonly span: SourceSpan;
  /** Whether the name is given here. */
  readonly gives: boolean;
}

export interface FoundName {
  readonly name: string;
  /** Where it stands at the place that was asked about, or in the target of the link there. */
  readonly span: SourceSpan;
  /** Every place of it, in the order of the note. */
  readonly places: readonly NamePlace[];
}

/** A link in prose, and the name that it leads to. */
export interface NoteLink {
  readonly span: SourceSpan;
  readonly to: SourceSpan;
}

export interface NoteSymbol {
  readonly kind: 'mixture' | 'stock' | 'substance' | 'patient' | 'order';
  readonly name: string;
  /** A title, a volume, what is given: a few words, or empty. */
  readonly detail: string;
  /** The lines that belong to it. */
  readonly span: SourceSpan;
  /** Its name, or its first line. */
  readonly nameSpan: SourceSpan;
}

/** What gives the other name to it everywhere, in order and apart from each other; or why it cannot have it, in a sentence. */
export type Renaming =
  | { readonly ok: true; readonly edits: readonly Edit[] }
  | { readonly ok: false; readonly why: string };

export interface Navigation {
  /** The note's own name at an offset, or the one that a link there names; null where there is none. */
  name(offset: number): FoundName | null;
  /** Every place of the name at an offset under another name; null where there is none. */
  rename(offset: number, name: string): Renaming | null;
  /** In the order of the note. */
  links(): readonly NoteLink[];
  /** In the order of the note. */
  symbols(): readonly NoteSymbol[];
  /** First and last line of what can be folded, zero-based. */
  folds(): readonly { readonly first: number; readonly last: number }[];
}
