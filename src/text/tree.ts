/**
 * What is to be said, without saying in which medium: a tree of headings, paragraphs, tables and figures.
 *
 * The service builds it, `src/render` turns it into hover Markdown, terminal text or HTML. Text reaches it only as
 * leaves; each medium escapes them in one place.
 */
import type { Figure } from './figures.ts';

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
  | {
      readonly kind: 'table';
      /** What it sets out, in words. */
      readonly caption?: string;
      readonly columns: readonly Column[];
      readonly rows: readonly (readonly Cell[])[];
    }
  | { readonly kind: 'figure'; readonly figure: Figure }
  /** Lines as the note has them. */
  | { readonly kind: 'written'; readonly text: string }
  /** A finding; `weight` in the words of the checks. */
  | {
      readonly kind: 'finding';
      readonly weight: 'error' | 'warning' | 'information' | 'hint';
      readonly inline: Inline;
    }
  /**
   * Folded away until it is asked for, where the medium can fold. `answer`: what a lesson has asked for, which is not printed
   * unless it was opened.
   */
  | { readonly kind: 'folded'; readonly title: string; readonly body: readonly Tree[]; readonly answer?: true }
  | { readonly kind: 'rule' };

export function plain(text: string): Inline {
  return [{ text }];
}
