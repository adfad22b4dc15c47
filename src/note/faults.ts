/** What can be wrong with a note once its lines are read: data only, the words stand in `src/checks`. */
import type {
  Decimal,
  DefinitionFault,
  Dimension,
  MixFault,
  Observable,
  Overload,
  Slip,
  SubjectKind,
  Substance,
  Tonicity,
  Unit,
} from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { NotationFault, NumberNode, Span } from '../notation/ast.ts';
import type { NoResult } from './answer.ts';
import type { BoundFault } from './bound-faults.ts';
import type { BlockEdit, Entity } from './model.ts';
import type { OrderFault } from './order-faults.ts';
import type { UseFault } from './use/faults.ts';

/** Where a readable line stands that does not belong there. */
export type Misplaced =
  | 'step-outside-mixture'
  | 'property-in-mixture'
  | 'property-outside-entity'
  | 'step-in-other-entity'
  | 'target-outside-mixture'
  | 'accept-outside-entity'
  | 'question-without-subject'
  | 'target-of-another'
  | 'no-property-of-a-substance'
  | 'body-of-ions'
  | 'dissociation-of-what'
  | 'no-line-of-a-stock'
  | 'no-line-of-a-patient'
  | 'property-in-order'
  | 'unknown-in-order'
  | 'no-figure-to-change'
  | 'several-withdrawals';

/** Why a fluid that was read cannot be turned into a composition. */
export type FluidProblem =
  | 'strength-on-fluid' // 0.9 % lactated Ringer's
  | 'missing-strength' // potassium chloride in dextrose 5%, no strength of its own
  | 'two-fluids' // lactated Ringer's in Ringer's: neither says how much
  | 'ion-alone' // 20 mmol potassium: as what?
  | 'no-ion-before-as' // magnesium sulfate as magnesium sulfate
  | 'recipes-of-no-mixture' // 2 x potassium chloride
  | 'negative-strength'
  | 'above-whole' // dissociation 120%
  | 'below-zero' // apparent volume -1 mL/g
  | 'not-above-zero' // molar mass 0 g/mol, container 0 mL
  | 'no-count' // 0 x, 1.5 x … every
  | 'nothing-stated'; // a stock without an ion or a solute

/** What an amount was wanted for, so that the finding can say what would fit there. */
export type Wanted =
  | 'amount-of-fluid'
  | 'amount-of-solute'
  | 'volume'
  | 'weight'
  | 'strength'
  | 'claim'
  | 'tolerance'
  | 'order-amount'
  | 'order-rate'
  | 'order-time'
  | 'drops'
  | 'patient-value';

/** What an abbreviation stands for, and so why it is misread. */
export type Abbreviation =
  | 'fluid' // LR
  | 'symbol' // KCl
  | 'micro' // µg, ug
  | 'cubic' // cc
  | 'activity' // U, IU
  | 'small-l' // ml
  | 'stop' // mL.
  | 'daily' // q.d.
  | 'sign'; // @, >, <

export type NoteFault =
  | OrderFault
  | UseFault
  | BoundFault
  | { readonly code: 'unclosed-fence' }
  | { readonly code: 'stray-info'; readonly found: string }
  | { readonly code: 'misplaced'; readonly where: Misplaced }
  | {
      readonly code: 'fluid';
      readonly problem: FluidProblem;
      readonly found: string;
      readonly carriers: readonly string[];
    }
  /** A name of the note that is something else than what is wanted here. */
  | {
      readonly code: 'wrong-kind';
      readonly found: string;
      readonly wanted: 'patient' | 'give' | 'fluid';
      readonly is: Entity['kind'];
    }
  /** A result asked of what does not have it. */
  | {
      readonly code: 'not-of-this';
      readonly observable: string;
      readonly of: readonly SubjectKind[];
      readonly subject: string;
      readonly is: SubjectKind;
    }
  /** A figure beyond what is met in life; in `unit`. */
  | {
      readonly code: 'unusual-patient-value';
      readonly of: string;
      readonly found: string;
      readonly least: Decimal;
      readonly most: Decimal;
      readonly unit: string;
    }
  | { readonly code: 'drops-without-set'; readonly found: string }
  /** Nothing can follow an order that has no end. */
  | { readonly code: 'after-endless'; readonly found: string }
  /** `repeated`: only a rate, and every so often. */
  | { readonly code: 'order-without-amount'; readonly repeated: boolean }
  | { readonly code: 'runs-overlap'; readonly duration: Decimal; readonly every: Decimal }
  /** A result of an order or a patient that what is written does not give. */
  | { readonly code: 'no-result'; readonly observable: string; readonly why: NoResult }
  /** `as`: what is looked for, when it is no fluid. */
  | {
      readonly code: 'unknown-name';
      readonly found: string;
      readonly near: readonly string[];
      readonly as?: 'patient' | 'give' | 'named';
      /** It is measured as a solute is. */
      readonly solute?: boolean;
    }
  | { readonly code: 'unknown-observable'; readonly found: string; readonly near: readonly string[] }
  | { readonly code: 'duplicate-name'; readonly name: string; readonly first: SourceSpan }
  | {
      readonly code: 'name-taken';
      readonly name: string;
      readonly by: 'solute' | 'unit' | 'observable' | 'ion' | 'name';
    }
  | {
      readonly code: 'wrong-dimension';
      readonly wanted: Wanted;
      readonly of: string;
      readonly found: string;
      readonly got: Dimension | null;
      readonly fits: readonly string[];
    }
  | {
      readonly code: 'elemental-or-salt';
      readonly found: string;
      readonly ion: string;
      readonly substance: string;
      readonly per: 'mmol' | 'mmol/L';
      readonly asSalt: Decimal;
      readonly asElement: Decimal;
    }
  | {
      readonly code: 'ion-not-in-substance';
      readonly ion: string;
      readonly substance: string;
      readonly gives: readonly string[];
    }
  | { readonly code: 'varying-charge'; readonly found: string; readonly ion: string }
  | { readonly code: 'no-molar-mass'; readonly found: string; readonly of: string }
  | {
      readonly code: 'no-such-solution';
      readonly found: string;
      readonly of: string;
      readonly strengths: readonly string[];
    }
  /**
   * The charges of a stock's label do not meet, in mEq/L: `apart` is what is left between them, `allowed` what the digits
   * leave open. `others` is what the label declares beside its ions, below zero for anions; null where it declares nothing.
   */
  | {
      readonly code: 'charge-imbalance';
      readonly name: string;
      readonly cations: Decimal;
      readonly anions: Decimal;
      readonly others: Decimal | null;
      readonly apart: Decimal;
      readonly allowed: Decimal;
    }
  | { readonly code: 'substance-charges'; readonly name: string; readonly fault: DefinitionFault }
  /** An ion cannot have the charge that is written, or, where `charge` is null, the one that is left over for it. */
  | {
      readonly code: 'ion-charge';
      readonly ion: string;
      readonly charge: number | null;
      /** Those that it carries. */
      readonly charges: readonly number[];
    }
  /** What a result rests on is not known: `of` names what a label or the data leave out. */
  | { readonly code: 'not-known'; readonly observable: string; readonly of: string }
  | {
      readonly code: 'no-estimate';
      readonly observable: string;
      readonly why: 'no-volume' | 'no-water' | 'charge-imbalance' | 'too-strong';
    }
  /** A target whose observable does not grow in proportion to the amounts. */
  | { readonly code: 'no-target'; readonly observable: string }
  /** `last`: in the block's text, its last line, or the acceptance below that, where it only brings dry solutes. */
  | { readonly code: 'missing-volume'; readonly name: string; readonly last: Span | null }
  | { readonly code: 'circular-mixture'; readonly names: readonly string[] }
  | { readonly code: 'ambiguous-name'; readonly found: string; readonly readings: readonly string[] }
  /** How an order is written where it is easily misread; `safe` says the same. */
  | {
      readonly code: 'unsafe-abbreviation';
      readonly kind: Abbreviation;
      readonly found: string;
      readonly safe: string;
    }
  | { readonly code: 'trailing-zero'; readonly found: string; readonly safe: string }
  | { readonly code: 'number-run-into-unit'; readonly found: string; readonly safe: string }
  | { readonly code: 'claim-mismatch'; readonly claim: FailedClaim; readonly slip: Slip | null }
  | { readonly code: 'nominal-claim'; readonly claim: FailedClaim }
  | {
      readonly code: 'tonicity-mismatch';
      readonly observable: Observable;
      readonly name: string;
      readonly claimed: Tonicity;
      readonly found: Tonicity;
      readonly osmolarity: Decimal;
    }
  | { readonly code: 'withdraw-too-much'; readonly asked: Decimal; readonly held: Decimal }
  | { readonly code: 'final-volume-too-small'; readonly held: Decimal; readonly to: Decimal }
  | { readonly code: 'no-water'; readonly substance: string; readonly limit: Decimal }
  | {
      readonly code: 'thousandfold';
      readonly found: string;
      readonly meant: string;
      readonly substance: string;
      /** g in 100 mL, as written. */
      readonly concentration: Decimal;
      readonly usual: string | null;
      readonly claimed: string | null;
    }
  | { readonly code: 'may-crystallise'; readonly overload: Overload }
  | { readonly code: 'impossible-concentration'; readonly overload: Overload }
  /** `makesRoom`: whether as much can be withdrawn right before the first additive. */
  | {
      readonly code: 'volume-added';
      readonly container: Decimal;
      readonly added: Decimal;
      readonly total: Decimal;
      readonly makesRoom: boolean;
    }
  /** A dry solute in a full container; strengths in g per 100 mL, as it is and as it was perhaps meant. */
  | {
      readonly code: 'solid-added';
      readonly substance: string;
      readonly container: Decimal;
      readonly space: Decimal;
      readonly made: Decimal;
      readonly meant: Decimal;
      /** In the block's text: the two lines so that the liquid fills up what the solute leaves; null where other lines stand beside them. */
      readonly madeUp: readonly BlockEdit[] | null;
    }
  | { readonly code: 'withdraw-after-adding' }
  | {
      readonly code: 'tonicity-falls-in-body';
      /** Its solutes that become water. */
      readonly used: readonly string[];
      /** Its solutes that spread into cells. */
      readonly crossing: readonly string[];
      readonly bag: Decimal;
      readonly body: Decimal;
      readonly inBag: Tonicity;
      readonly inBody: Tonicity;
    }
  | { readonly code: 'calcium-phosphate'; readonly calcium: Decimal; readonly phosphate: Decimal }
  | { readonly code: 'calcium-bicarbonate'; readonly calcium: Decimal; readonly bicarbonate: Decimal }
  | { readonly code: 'too-many-tolerances'; readonly limit: number }
  | { readonly code: 'two-unknowns' }
  | { readonly code: 'unknown-in-vehicle' }
  | { readonly code: 'withdraw-after-unknown' }
  | { readonly code: 'too-few-targets'; readonly unknowns: number; readonly targets: number }
  | {
      readonly code: 'target-unreachable';
      readonly observable: string;
      readonly wanted: string;
      readonly reason: Unreachable;
    }
  | {
      readonly code: 'unused-accept';
      readonly found: string;
      /** No finding has that code; it stands for an error; nothing there has it. */
      readonly why: 'no-such-code' | 'error' | 'nothing-found';
      readonly near: readonly string[];
    }
  | OrderFault;

/** Why no amount meets a target. */
export type Unreachable =
  /** None, or more than one: the targets do not tell the unknowns apart. */
  | { readonly kind: 'undetermined' }
  /** One would have to be below zero; `unit` is null for a count. */
  | { readonly kind: 'negative'; readonly value: Decimal; readonly unit: string | null }
  /** The amounts that would do it are more than is there, or than there is room for. */
  | { readonly kind: 'no-room' }
  /** What the one unknown can reach, from none of it to as much as fits; null where there is then no volume. */
  | {
      readonly kind: 'outside';
      readonly from: Decimal | null;
      readonly to: Decimal | null;
      readonly unit: string | null;
    };

export interface FailedClaim {
  readonly name: string;
  readonly observable: Observable;
  readonly claimed: Decimal;
  readonly claimedText: string;
  readonly found: Decimal;
  /** The ends of its range, when what it is made from carries tolerances. */
  readonly range: readonly [Decimal, Decimal] | null;
  /** Null for a ratio. */
  readonly unit: Unit | null;
  /** The claimed value's whole place as written, and the number that it begins with. */
  readonly written: { readonly text: string; readonly number: NumberNode };
  /** Relative distance from the claim, in percent of it. */
  readonly offBy: Decimal;
}

/** A fault and its place in the note. */
export type Located = { readonly at: SourceSpan; readonly fault: NoteFault | NotationFault };

export type { MixFault, Substance };
