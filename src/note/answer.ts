/** What a question about a mixture, an order or a patient is answered with. */
import type { Contents, Decimal, Observable, SubjectKind, Unit, Unmeasured } from '../engine/index.ts';
import type { WorkedMixture } from './model.ts';
import type { Held } from './ranges.ts';

/** Why there is no answer. */
export type Unanswered =
  | Unmeasured
  /** Something of the patient that is not written; `patient` is empty where none is named. */
  | { readonly ok: false; readonly problem: 'missing-value'; readonly value: string; readonly patient: string }
  | { readonly ok: false; readonly problem: 'no-result'; readonly why: NoResult };

export type NoResult =
  /** Given at once, or without an end. */
  | 'no-time'
  /** The simple rule of where fluid goes does not hold for it, or for the way it is given. */
  | 'no-rule'
  /** No patient is named. */
  | 'no-body'
  | 'no-water-left'
  /** It ends later than a prediction is carried. */
  | 'too-long'
  /** The first 28 days of life go by other tables. */
  | 'newborn'
  /** A fluid without a recipe has no bags. */
  | 'no-recipe'
  /** No set of so many drops per mL is named. */
  | 'no-set'
  /** An order for the patient could not be worked out; that is said where it stands. */
  | 'withheld';

export type Answer =
  | { readonly ok: true; readonly value: Decimal; readonly range: readonly [Decimal, Decimal] | null }
  | Unanswered;

/** What a claim or a `show` is about. */
export interface Subject {
  readonly name: string;
  readonly is: SubjectKind;
  /** Of a mixture or a fluid: what it holds. */
  readonly held: Held | null;
  /** What it holds, or gives in all; null for a patient. */
  readonly contents: Contents | null;
  /** mL after its first step, before additives; null for a fluid that is no mixture of the note. */
  readonly beforeAdditives: Decimal | null;
  /** The mixture of the note that it is, else null. */
  readonly mixture: WorkedMixture | null;
  /** The result in that unit, or as a bare number where it is null. */
  answer(observable: Observable, unit: Unit | null): Answer;
}
