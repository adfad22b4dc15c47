/** A note, worked out: what the checks read and the service shows. Immutable. */
import type { Contents, Decimal, Ion, Observable, Substance, Tonicity, Unit, WorkingStep } from '../engine/index.ts';
import type { Block, SourceSpan } from '../markdown/note-text.ts';
import type {
  AcceptNode,
  ClaimNode,
  CompareNode,
  GiveNode,
  HeaderNode,
  Name,
  Span,
  Statement,
  Step,
  Title,
  UnreadNode,
  UseNode,
} from '../notation/ast.ts';
import type { Answer, Subject } from './answer.ts';
import type { Located } from './faults.ts';
import type { WorkedOrder, WorkedPatient } from './order-model.ts';
import type { Policy } from './policy.ts';
import type { Held } from './ranges.ts';
import type { WhatIf } from './what-if/what-if.ts';

/** A mixture, stock, substance, patient or order with the lines that belong to it. */
export interface Entity {
  readonly kind: HeaderNode['kind'] | 'give';
  readonly name: Name | null;
  readonly title: Title | null;
  readonly block: Block;
  /** The header's own place in the block. */
  readonly header: Span;
  /** What an order says; null for everything else, and for an order that could not be read. */
  readonly give: GiveNode | null;
  /** Where its last line ends in the block. */
  readonly end: number;
  readonly body: readonly Statement[];
  /** Place of the first line that spoils it, known before anything is worked out; null when every line was read. */
  readonly spoiledBy: SourceSpan | null;
}

/** The names that see each other: all ordinary blocks of a note, or one `alone` block. */
export interface Scope {
  readonly entities: readonly Entity[];
  /** By key. A name given twice is bound to nothing: which of the two is meant cannot be known. */
  readonly names: ReadonlyMap<string, Entity | 'duplicate'>;
  /** Lines outside any entity that say something by themselves, with the mixture open above them, if any. */
  readonly loose: readonly LooseLine[];
  /** Other notes that are used, in the order written; a line that could not be read among them. */
  readonly uses: readonly UseLine[];
  readonly acceptances: readonly Acceptance[];
}

/** A place where a name that the note gives stands. */
export interface NameUse {
  readonly at: SourceSpan;
  /** An ion of the note's own is one by its key, however many substances give it. */
  readonly of: { readonly kind: 'entity'; readonly entity: Entity } | { readonly kind: 'ion'; readonly key: string };
  /** Whether the name is given here. */
  readonly gives: boolean;
  /** Whether it stands in a link's target, where spaces are hyphens. */
  readonly inTarget: boolean;
}

/** A scope as it was read: which names its blocks see, and where these stand. */
export interface ReadScope extends Scope {
  readonly blocks: readonly Block[];
  /** In the order of the note. */
  readonly nameUses: readonly NameUse[];
  /** Names that other notes give it. */
  readonly imported: readonly string[];
}

/** `accept CODE because "reason"`, and what it stands below. */
export interface Acceptance {
  readonly node: AcceptNode;
  readonly block: Block;
  readonly entity: Entity;
  /** The line directly above, in the same block; null: the entity as a whole. */
  readonly line: Span | null;
}

export interface UseLine {
  readonly node: UseNode | UnreadNode;
  readonly block: Block;
}

export interface LooseLine {
  readonly node: Statement;
  readonly block: Block;
  readonly open: Entity | null;
}

/** What was assumed without being written. */
export type Assumption =
  | { readonly kind: 'form'; readonly written: string; readonly taken: Substance }
  | { readonly kind: 'dry'; readonly substance: Substance; readonly volume: Decimal }
  | { readonly kind: 'uncounted'; readonly label: string }
  /** A drug without a molar mass: what it adds to the osmolarity is not known, and left out. */
  | { readonly kind: 'no-osmoles'; readonly substance: Substance }
  /** An order of which no time is written. */
  | { readonly kind: 'at-once' }
  /** An order without an end, looked at for a day. */
  | { readonly kind: 'endless' }
  /** An order without an amount, of a mixture: all of one recipe. */
  | { readonly kind: 'whole-recipe' }
  /** Several containers whose time is that of all of them. */
  | { readonly kind: 'together'; readonly count: Decimal }
  | { readonly kind: 'no-route' }
  | { readonly kind: 'by-weight'; readonly fluid: string; readonly gramsPerMl: Decimal }
  | { readonly kind: 'stock'; readonly fluid: string; readonly by: 'salts' | 'label' | 'note' };

export interface MentionedSubstance {
  readonly kind: 'substance';
  readonly substance: Substance;
  readonly written: string;
  /** The path of the note that declares it; null for the note itself, and for a built-in one. */
  readonly from: string | null;
}

/** A place on a line that the reader can ask about. */
export interface Mention {
  readonly at: SourceSpan;
  readonly of:
    | MentionedSubstance
    | { readonly kind: 'ion'; readonly ion: Ion }
    | { readonly kind: 'fluid'; readonly name: string; readonly perMl: Contents }
    | { readonly kind: 'mixture' | 'patient' | 'order'; readonly entity: Entity }
    /** A mixture or stock of another note, whose path is `from`. Its places are places of that note. */
    | { readonly kind: 'used'; readonly mixture: WorkedMixture; readonly from: string };
}

export interface WorkedStep {
  readonly node: Step;
  /** What the line brings (an addition, a make-up), or null for a withdrawal. */
  readonly brings: Contents | null;
  readonly before: Contents;
  readonly after: Contents;
  readonly working: readonly WorkingStep[];
}

/** An amount that was asked for with `?`, solved for. */
export interface Solved {
  readonly span: Span;
  /** Zero-based line in the block's text. */
  readonly line: number;
  /** The unit written after `?`, or null for a count. */
  readonly unit: Unit | null;
  /** Exact, in that unit. */
  readonly value: Decimal;
  /** The nearest that can be measured out, and with what; null where nothing measures it. */
  readonly measured: { readonly value: Decimal; readonly with: string } | null;
  /** What the targets come to when every unknown is taken as measured. */
  readonly asMeasured: readonly {
    readonly observable: Observable;
    readonly unit: Unit | null;
    readonly value: Decimal;
  }[];
}

export interface WorkedMixture {
  readonly entity: Entity;
  readonly name: string;
  /** `incomplete`: a line could not be read or bound, or something it is made from could not. */
  readonly state: 'complete' | 'incomplete' | 'unsolved';
  /** The place at fault when there are no results; it may lie in another mixture. */
  readonly cause: SourceSpan | null;
  readonly contents: Contents | null;
  /** Its contents at each combination of the tolerances written; empty when none is. */
  readonly extremes: readonly Contents[];
  readonly steps: readonly WorkedStep[];
  readonly assumptions: readonly Assumption[];
  readonly solved: readonly Solved[];
  /** Lines of its own that are checked as claims: targets beyond the number of unknowns, results on a stock's label. */
  readonly claims: readonly ClaimNode[];
}

export interface WorkedClaim {
  readonly node: ClaimNode;
  readonly block: Block;
  readonly subject: string;
  readonly observable: Observable;
  readonly outcome:
    | {
        readonly kind: 'number';
        readonly claimed: Decimal;
        readonly found: Decimal;
        /** Null for a ratio. */
        readonly unit: Unit | null;
        readonly range: readonly [Decimal, Decimal] | null;
        readonly holds: boolean;
      }
    | { readonly kind: 'tonicity'; readonly claimed: Tonicity; readonly found: Tonicity; readonly osmolarity: Decimal };
}

/** One result asked for by `show`. */
export interface Shown {
  readonly subject: string;
  readonly observable: Observable;
  /** Of a mixture or fluid. */
  readonly held: Held | null;
  /** In its own unit, or as a bare number; null for a tonicity, which has words. */
  readonly unit: Unit | null;
  readonly answer: Answer;
}

export interface WorkedShow {
  readonly block: Block;
  readonly span: Span;
  /** What it stands below; null outside any entity. */
  readonly open: Entity | null;
  /** Of `ask`: the answer is not told before a reader asks for it. */
  readonly question: string | null;
  readonly shown: readonly Shown[];
}

export interface WorkedComparison {
  readonly node: CompareNode;
  readonly block: Block;
  readonly observables: readonly Observable[];
  readonly rows: readonly {
    readonly name: string;
    readonly contents: Contents;
    readonly extremes: readonly Contents[];
  }[];
}

/** Text to put in place of a span of a block's text. */
export interface BlockEdit {
  readonly span: Span;
  readonly text: string;
}

/** Text to put in place of a span of the source. */
export interface Edit {
  readonly span: SourceSpan;
  readonly text: string;
}

/** A number, or a word for a tonicity, that a link in prose binds to a result. */
export interface BoundNumber {
  readonly link: SourceSpan;
  /** Of the quantity or the word in the link's text. */
  readonly at: SourceSpan;
  /** `gastric/free-water`. */
  readonly target: string;
  readonly written: string;
  readonly subject: Subject;
  readonly observable: Observable;
  readonly outcome: WorkedClaim['outcome'];
  /** The result in the unit and to the digits written. */
  readonly current: string;
  /** What is written does not hold. */
  readonly stale: boolean;
  /** Brings it up to date. */
  readonly edit: Edit;
}

/** The table that a pair of marks keeps. */
export interface BoundTable {
  /** The opening mark. */
  readonly at: SourceSpan;
  readonly closing: SourceSpan;
  readonly comparison: Omit<WorkedComparison, 'node' | 'block'>;
  readonly stale: boolean;
  readonly edit: Edit;
}

/** A link in prose that names something. */
export interface BoundLink {
  readonly at: SourceSpan;
  /** Where the name stands: in the link, or in the definition that it refers to. */
  readonly name: SourceSpan;
}

/** What in prose is bound to results that are withheld. */
export interface LeftAlone {
  readonly at: SourceSpan;
  /** As written after `infusion:`. */
  readonly target: string;
}

export interface WorkedNoteModel {
  readonly source: string;
  /** What it was worked out by. */
  readonly policy: Policy;
  readonly blocks: readonly Block[];
  /** Each `alone` block by itself, then what all the others share. */
  readonly scopes: readonly ReadScope[];
  readonly mixtures: readonly WorkedMixture[];
  readonly patients: readonly WorkedPatient[];
  readonly orders: readonly WorkedOrder[];
  /** Lines that begin with ‘give’ and could not be read. */
  readonly unreadOrders: readonly Entity[];
  readonly acceptances: readonly Acceptance[];
  readonly claims: readonly WorkedClaim[];
  readonly shows: readonly WorkedShow[];
  readonly comparisons: readonly WorkedComparison[];
  readonly whatIfs: readonly WhatIf[];
  readonly numbers: readonly BoundNumber[];
  readonly tables: readonly BoundTable[];
  readonly leftAlone: readonly LeftAlone[];
  readonly links: readonly BoundLink[];
  readonly mentions: readonly Mention[];
  /** Every fault, in the order of the note. */
  readonly faults: readonly Located[];
}
