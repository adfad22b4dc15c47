/** The places of a line in which something is still to be written. */
import type { Span, UnitNode, Words } from './ast.ts';

/** What the unit of a number measures. */
export type Measured =
  | { readonly of: 'amount' | 'volume' | 'strength' | 'order' | 'rate' | 'time' | 'drops' }
  /** After `±` or `within`; `beside` is the unit of what is tolerated, as written, or null. */
  | { readonly of: 'tolerance'; readonly beside: string | null }
  /** On a line of words and numbers: the words before the number, and the line's first ones. */
  | { readonly of: 'line'; readonly words: string; readonly first: string }
  /** In a `what if`: the words that say what is changed. */
  | { readonly of: 'figure'; readonly words: Words }
  /** In a claim or target: the words before the number. */
  | { readonly of: 'asked'; readonly words: Span };

/** Everywhere `phrase` is what is written of it so far, to the end of the word that is pointed at. */
export type Place =
  /** The first words of a line. */
  | { readonly kind: 'line'; readonly phrase: Span }
  | {
      readonly kind: 'fluid';
      readonly phrase: Span;
      readonly in: 'step' | 'order' | 'comparison';
      /** The unit of the amount before it, or null. */
      readonly amount: UnitNode | null;
      /** `2 x` without an amount: whole recipes. */
      readonly counted: boolean;
      /** What another is dissolved in, or put into: a liquid. */
      readonly vehicle: boolean;
    }
  /** `potassium as`: the salt that carries an ion, given by its key. */
  | { readonly kind: 'carrier'; readonly phrase: Span; readonly ion: string }
  /** `touching`: nothing stands between it and its number. */
  | { readonly kind: 'unit'; readonly phrase: Span; readonly measured: Measured; readonly touching: boolean }
  /** Words of the notation that go on with what could also end here. */
  | { readonly kind: 'joint'; readonly phrase: Span; readonly words: readonly string[] }
  /** A subject and what is asked of it; `before` stands before the phrase, `first` is the whole first question. */
  | {
      readonly kind: 'asked';
      readonly phrase: Span;
      readonly by: 'claim' | 'target' | 'show' | 'compare';
      readonly before: Span | null;
      readonly first: Span | null;
    }
  | { readonly kind: 'name'; readonly phrase: Span; readonly of: 'patient' | 'give' }
  | { readonly kind: 'route' | 'code' | 'solute' | 'ion' | 'set' | 'make-up' | 'figure'; readonly phrase: Span };
