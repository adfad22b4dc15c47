/**
 * What a block says, by shape alone: words are kept as written, nothing is looked up.
 *
 * Every node carries its span: UTF-16 offsets into the block's text (the fence's content, container prefixes
 * removed, lines joined by `\n`), end exclusive.
 */
import type { Decimal } from '../engine/decimal.ts';
import type { Unit } from '../engine/units.ts';

export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A run of words, as written and as compared. */
export interface Words {
  readonly span: Span;
  /** As written, inner white space reduced to one space. */
  readonly text: string;
  /** For looking up: NFC, lower case, typographic apostrophes straightened, hyphens and spaces as one space. */
  readonly key: string;
}

/** A name given by the author, a single word. */
export type Name = Words;

export interface Title {
  readonly span: Span;
  /** Between the quotation marks, as written. */
  readonly text: string;
}

export interface NumberNode {
  readonly span: Span;
  /** As written, signs included. */
  readonly text: string;
  readonly value: Decimal;
  /** Digits written after the point (77 → 0, 77.0 → 1); null for a fraction, which claims do not take. */
  readonly decimals: number | null;
}

export interface UnitNode {
  readonly span: Span;
  /** As written. */
  readonly text: string;
  readonly unit: Unit;
}

export interface QuantityNode {
  readonly kind: 'quantity';
  readonly span: Span;
  readonly number: NumberNode;
  readonly unit: UnitNode;
  /** After `±`. */
  readonly tolerance: ToleranceNode | null;
}

export interface ToleranceNode {
  readonly span: Span;
  readonly number: NumberNode;
  readonly unit: UnitNode;
}

/** `? mL`: an amount to be solved for. */
export interface UnknownNode {
  readonly kind: 'unknown';
  readonly span: Span;
  readonly unit: UnitNode;
}

/** `3 x` before an addition; `? x` asks how many. */
export interface CountNode {
  readonly span: Span;
  /** null for `?`. */
  readonly number: NumberNode | null;
}

/** One solution among those dissolved in one another: `potassium chloride 20 mmol/L`, `lactated Ringer's`. */
export interface PartNode {
  readonly span: Span;
  /** Before or after the words; a strength is `%` or per volume. */
  readonly strength: QuantityNode | null;
  /** `4 g of solution …`: the amount weighs the solution, not the solute. */
  readonly ofSolution: boolean;
  readonly elemental: boolean;
  /**
   * The solute or fluid. May begin with a bare number where the author wrote one (`0.45 NS`), so that the binder
   * can say what is wrong with it.
   */
  readonly words: Words;
  /** `potassium as potassium chloride`: what carries the ion. */
  readonly as: Words | null;
}

/** Parts joined by `in` or `with`, in the order written. */
export interface FluidNode {
  readonly span: Span;
  readonly parts: readonly [PartNode, ...PartNode[]];
}

/** Words that will be split into a subject and an observable by the binder. May hold quantities (`sodium chloride 0.9%`). */
export interface SubjectNode {
  readonly span: Span;
  /** The words in order; a quantity inside is one item. Never empty. */
  readonly items: readonly (Words | QuantityNode)[];
}

export interface BareNumberNode {
  readonly kind: 'number';
  readonly span: Span;
  readonly number: NumberNode;
}
export interface WordValueNode {
  readonly kind: 'word';
  readonly span: Span;
  readonly words: Words;
}
/** A bare number only suits a ratio, a word only a tonicity: the binder says so. */
export type ValueNode = QuantityNode | BareNumberNode | WordValueNode;

export interface PropertyItem {
  readonly words: Words;
  readonly quantity: QuantityNode;
}

/** `sodium 2`, `thiosulfate 2- 1` after `gives`. */
export interface GivenIon {
  readonly span: Span;
  readonly ion: Words;
  /** Signed charge when written, else null. */
  readonly charge: number | null;
  readonly count: number;
}

export type Clause =
  | { readonly kind: 'duration'; readonly span: Span; readonly time: QuantityNode }
  | { readonly kind: 'route'; readonly span: Span; readonly route: Words }
  | { readonly kind: 'patient'; readonly span: Span; readonly name: Name }
  | { readonly kind: 'from'; readonly span: Span; readonly time: QuantityNode }
  | { readonly kind: 'after'; readonly span: Span; readonly name: Name }
  | { readonly kind: 'every'; readonly span: Span; readonly time: QuantityNode }
  | { readonly kind: 'monitored'; readonly span: Span }
  /** `through a set of 20 drops/mL`. */
  | { readonly kind: 'set'; readonly span: Span; readonly drops: QuantityNode }
  | { readonly kind: 'name'; readonly span: Span; readonly name: Name };

interface Node {
  /** From the first to the last character of the statement, comment and indentation left out. */
  readonly span: Span;
  /** Zero-based line in the block's text. */
  readonly line: number;
}

export interface UseNode extends Node {
  readonly kind: 'use';
  readonly path: Title;
}
export interface HeaderNode extends Node {
  readonly kind: 'mixture' | 'stock' | 'patient' | 'substance';
  /** For `substance` a phrase of several words. */
  readonly name: Name;
  readonly title: Title | null;
}
export interface GiveNode extends Node {
  readonly kind: 'give';
  readonly count: CountNode | null;
  readonly amount: QuantityNode | null;
  readonly fluid: FluidNode;
  readonly rate: QuantityNode | null;
  readonly rateOf: Words | null;
  readonly clauses: readonly Clause[];
}
export interface AdditionNode extends Node {
  readonly kind: 'addition';
  readonly count: CountNode | null;
  /** null for `2 x gastric`, whole recipes. */
  readonly amount: QuantityNode | UnknownNode | null;
  readonly fluid: FluidNode;
  /** `in 250 mL dextrose 5%`: the volume the solute is put into. */
  readonly vehicle: { readonly volume: QuantityNode; readonly fluid: FluidNode } | null;
}
export interface ByVolumeNode extends Node {
  readonly kind: 'by-volume';
  readonly volume: QuantityNode;
  readonly label: Title;
}
export interface MakeUpNode extends Node {
  readonly kind: 'make-up';
  readonly fluid: FluidNode;
  readonly to: QuantityNode;
}
export interface WithdrawNode extends Node {
  readonly kind: 'withdraw';
  readonly amount: QuantityNode | UnknownNode;
}
export interface ExchangeNode extends Node {
  readonly kind: 'exchange';
  readonly amount: QuantityNode | UnknownNode;
  readonly fluid: FluidNode;
}
/** A line of words and quantities in a stock, substance or patient; where it belongs is the binder's business. */
export interface PropertyNode extends Node {
  readonly kind: 'property';
  readonly items: readonly [PropertyItem, ...PropertyItem[]];
}
/** `sex female`, `onset chronic`, `in the body crosses cells`: words alone. */
export interface WordPropertyNode extends Node {
  readonly kind: 'word-property';
  readonly words: Words;
}
export interface GivesNode extends Node {
  readonly kind: 'gives';
  readonly ions: readonly [GivenIon, ...GivenIon[]];
}
export interface ClaimNode extends Node {
  readonly kind: 'claim' | 'target';
  readonly subject: SubjectNode;
  readonly value: ValueNode;
  readonly within: ToleranceNode | null;
}
export interface ShowNode extends Node {
  readonly kind: 'show';
  /** `ask "…" show …`: what a reader is asked before the answer is told; null for a plain `show`. */
  readonly question: Title | null;
  /** The first item may name the subject before its observable. */
  readonly items: readonly [SubjectNode, ...SubjectNode[]];
}
/** `what if adult weight 40 kg, 70 kg show …`: results under other figures than the one written. */
export interface WhatIfNode extends Node {
  readonly kind: 'what-if';
  /** What is changed: a name, if one is written, and the words of its figure. */
  readonly change: Words;
  /** Without tolerances. */
  readonly values: readonly [QuantityNode, ...QuantityNode[]];
  readonly items: ShowNode['items'];
}
export interface CompareNode extends Node {
  readonly kind: 'compare';
  readonly fluids: readonly [FluidNode, ...FluidNode[]];
  readonly observables: readonly [Words, ...Words[]];
}
export interface AcceptNode extends Node {
  readonly kind: 'accept';
  readonly code: Words;
  /** null when `because "…"` is missing. */
  readonly reason: Title | null;
}
/** A line that could not be read. Its faults stand in `Block.faults`; it spoils the entity it lies in. */
export interface UnreadNode extends Node {
  readonly kind: 'unread';
  /**
   * What the first word said it was going to be, so that a bad header still opens its entity and a bad claim
   * withholds only itself; null when the first word says nothing.
   */
  readonly keyword: string | null;
  /** The name of a header whose rest could not be read. */
  readonly name: Name | null;
}

export type Step = AdditionNode | ByVolumeNode | MakeUpNode | WithdrawNode | ExchangeNode;
export type Statement =
  | UseNode
  | HeaderNode
  | GiveNode
  | Step
  | PropertyNode
  | WordPropertyNode
  | GivesNode
  | ClaimNode
  | ShowNode
  | WhatIfNode
  | CompareNode
  | AcceptNode
  | UnreadNode;

/** What one block says. `statements` is in line order, at most one a line. */
export interface BlockSyntax {
  readonly statements: readonly Statement[];
  readonly faults: readonly NotationFault[];
}

/** What the reader of the text found wrong, as data; the words stand in src/checks. */
export type NotationFault =
  | { readonly code: 'syntax'; readonly span: Span; readonly problem: SyntaxProblem; readonly found: string }
  | { readonly code: 'unknown-unit'; readonly span: Span; readonly found: string; readonly near: readonly string[] }
  | {
      readonly code: 'number-form';
      readonly span: Span;
      readonly form: NumberForm;
      readonly found: string;
      readonly readings: readonly string[];
    }
  /** `1:1000`; `safe` in mass per volume, null where that has no end or no sense. */
  | { readonly code: 'ratio-strength'; readonly span: Span; readonly found: string; readonly safe: string | null }
  | { readonly code: 'naked-decimal'; readonly span: Span; readonly found: string; readonly safe: string }
  /** The line is still read; it accepts nothing. */
  | { readonly code: 'accept-without-reason'; readonly span: Span; readonly of: string }
  | { readonly code: 'reserved-name'; readonly span: Span; readonly found: string }
  | { readonly code: 'over-limit'; readonly span: Span; readonly what: LimitKind; readonly limit: number };

/** Every way a line can fail to have a shape. */
export type SyntaxProblem =
  | 'unknown-statement' // no shape fits: neither a keyword nor an amount nor words with a quantity
  | 'missing-name' // a header with nothing after it
  | 'bad-name' // a name with a character names do not take
  | 'missing-amount' // withdraw, exchange, `3 x` followed by no amount
  | 'missing-unit' // a number with no unit where an amount is expected
  | 'missing-fluid' // an amount and nothing after it
  | 'missing-volume-after-to' // `water to` and no quantity
  | 'missing-for' // exchange without `for FLUID`
  | 'missing-value' // a claim or target without a value
  | 'missing-observable' // claim, show or compare by: nothing to look at
  | 'missing-question' // ask without a question in quotation marks, or with an empty one
  | 'missing-if' // what without `if`
  | 'missing-change' // what if: nothing that is changed
  | 'missing-show' // ask or what if without `show`
  | 'missing-by' // compare without `by`
  | 'missing-path' // use with nothing after it
  | 'missing-title' // `by volume` with no quoted name before it
  | 'unclosed-string'
  | 'two-strengths' // a part with a strength on both sides
  | 'two-amounts' // give: two of a kind
  | 'repeated-clause' // give: the same clause twice
  | 'bad-clause' // give: something after the fluid that is no clause
  | 'unexpected-rest' // a readable statement followed by more
  | 'negative-amount'; // an amount to add or take out below zero

export type NumberForm =
  | 'comma' // 1,5 or 1,000
  | 'space' // 1 000
  | 'exponent' // 1e3
  | 'points' // 1.2.3
  | 'glued' // digits run into letters that are no unit: 10O0
  | 'range' // 5-10
  | 'zero-denominator'; // 1/0

export type LimitKind =
  | 'line-length'
  | 'words-in-line'
  | 'name-length'
  | 'digits'
  | 'magnitude'
  | 'lines'
  | 'lines-in-note'
  | 'runs'
  | 'alternatives'
  | 'what-ifs';
