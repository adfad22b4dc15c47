/** What can be wrong with numbers and tables in prose that are bound to results. */
import type { Dimension, Observable, SubjectKind } from '../engine/index.ts';
import type { BoundSlip } from '../markdown/note-text.ts';
import type { Edit, WorkedClaim } from './model.ts';

export type BoundFault =
  | { readonly code: 'broken-link'; readonly slip: LinkSlip }
  | {
      readonly code: 'stale-number';
      readonly subject: string;
      readonly observable: Observable;
      readonly written: string;
      readonly current: string;
      readonly outcome: WorkedClaim['outcome'];
      readonly edit: Edit;
    }
  | { readonly code: 'stale-table'; readonly fluids: readonly string[]; readonly edit: Edit };

/** Why a link or a mark is bound to nothing. */
export type LinkSlip =
  /** `safe`: the target without its spaces. */
  | { readonly problem: BoundSlip['problem']; readonly found: string; readonly safe: string }
  | { readonly problem: 'no-name'; readonly found: string }
  /** `readings`: whole targets that may be meant. */
  | { readonly problem: 'unknown-name' | 'unknown-observable'; readonly found: string; readonly readings: Readings }
  | {
      readonly problem: 'not-of-this';
      readonly observable: string;
      readonly of: readonly SubjectKind[];
      readonly subject: string;
      readonly is: SubjectKind;
    }
  /** No quantity in the text, no number, or no word for a tonicity; or more than one. `fits`: what would do. */
  | {
      readonly problem: 'nothing-bound' | 'several-bound';
      readonly found: string;
      readonly of: string;
      readonly fits: string;
    }
  | {
      readonly problem: 'wrong-dimension';
      readonly found: string;
      readonly of: string;
      readonly got: Dimension | null;
      readonly fits: readonly string[];
    }
  /** A mark that says nothing that can be kept. */
  | { readonly problem: 'unread-mark'; readonly found: string }
  /** Between the marks stands something else than a table. */
  | { readonly problem: 'other-text'; readonly found: string };

type Readings = readonly string[];
