/** What can be written at a place, as plain data. */
import type { SourceSpan } from '../../markdown/note-text.ts';

export type CompletionKind =
  | 'word'
  | 'block'
  | 'mixture'
  | 'stock'
  | 'substance'
  | 'fluid'
  | 'solute'
  | 'unit'
  | 'observable'
  | 'patient'
  | 'order'
  | 'route'
  | 'code'
  | 'note';

/** Something that can be written, before it is known where. */
export interface Candidate {
  readonly kind: CompletionKind;
  readonly label: string;
  /** What is written, when it is not the label. */
  readonly text?: string;
  /** The same with places to fill in, in the syntax of snippets: `$1`, `${2:name}`. */
  readonly snippet?: string;
  /** What is written so far is compared with this, whatever its capitals; the label where it is not given. */
  readonly filter?: string;
  /** A few words beside the label. */
  readonly detail?: string;
  /** Plain sentences. */
  readonly documentation?: string;
}

export interface Completion extends Candidate {
  /** What it is put in place of: in one line, around the place that was asked about. */
  readonly span: SourceSpan;
  readonly text: string;
  readonly filter: string;
}

/** The likeliest first. */
export interface Completions {
  readonly items: readonly Completion[];
  /** More would fit than are given. */
  readonly cut: boolean;
  /** Paths of other notes would fit here, had they been given. */
  readonly wantsPaths: boolean;
}
