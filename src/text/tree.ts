/**
 * What is to be said, without saying in which medium: a tree of headings, paragraphs, tables and figures.
 *
 * The service builds it, `src/render` turns it into hover Markdown, terminal text or (later) HTML. Text reaches it
 * only as leaves; each medium escapes them in one place.
 */

/** A run of text. `strong` is for what is read first, `quiet` for what is read last. */
export interface Run {
  readonly text: string;
  readonly weight?: 'strong' | 'quiet';
  /** A link's target; https and repository documentation only, never taken from a note. */
  readonly href?: string;
}

export type Inline = readonly Run[];

export interface Column {
  readonly title: string;
  /** `number` columns are aligned at the decimal point where the medium can. */
  readonly align: 'text' | 'number';
}

export type Cell = string;

export type Tree =
  /** A card's first line: what it is on the left, how much on the right. */
  | { readonly kind: 'heading'; readonly text: string; readonly aside?: string }
  | { readonly kind: 'paragraph'; readonly inline: Inline }
  | { readonly kind: 'list'; readonly items: readonly Inline[] }
  | { readonly kind: 'table'; readonly columns: readonly Column[]; readonly rows: readonly (readonly Cell[])[] }
  | { readonly kind: 'figure'; readonly figure: Figure }
  | { readonly kind: 'rule' };

/**
 * A figure as data. `sentence` says in words what it shows, for whoever cannot see it.
 *
 * `bag-and-body`: one litre as a level line split into electrolyte-free and isotonic water, above a tonicity scale.
 */
export interface Figure {
  readonly kind: 'bag-and-body';
  readonly sentence: string;
  /** mL of electrolyte-free water per litre: 1000 for dextrose 5 %, 0 for 0.9 % saline, negative when hypertonic. */
  readonly freeWater: number;
  /** mOsm/L in the bag, and of the particles that stay effective in the body. */
  readonly bag: number;
  readonly body: number;
  /** The range called isotonic, mOsm/L. */
  readonly isotonic: readonly [number, number];
}

export function plain(text: string): Inline {
  return [{ text }];
}
