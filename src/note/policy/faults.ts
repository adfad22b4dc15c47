/** What can be wrong with a policy file: data and places, the words stand in `src/checks`. */
import type { Decimal, Dimension } from '../../engine/index.ts';
import type { SourceSpan } from '../../markdown/note-text.ts';
import type { PolicySeverity } from '../policy.ts';
import type { Refusal } from '../use/refusal.ts';

/** What an entry must be. */
export type Wanted = 'object' | 'text' | 'quantity' | 'truth' | 'list-of-texts';

/** `of` names the entry: `claim-tolerance`, `limits of ‘…’`. */
export type PolicyProblem =
  /** A note of the formulary that is not read, or behind which a bound is met. */
  | { readonly problem: 'formulary-note'; readonly path: string; readonly why: Refusal }
  | { readonly problem: 'too-large'; readonly most: number }
  | { readonly problem: 'too-deep'; readonly most: number }
  /** `line` counts from one. */
  | { readonly problem: 'not-json'; readonly line: number }
  | { readonly problem: 'duplicate-key'; readonly key: string }
  | {
      readonly problem: 'unknown-key';
      readonly key: string;
      readonly of: string | null;
      readonly near: readonly string[];
    }
  | { readonly problem: 'wrong-type'; readonly of: string | null; readonly wanted: Wanted; readonly example: string }
  | {
      readonly problem: 'unknown-word';
      readonly of: string;
      readonly found: string;
      readonly near: readonly string[];
      readonly words: readonly string[];
    }
  | { readonly problem: 'unknown-code'; readonly found: string; readonly near: readonly string[] }
  | { readonly problem: 'unknown-limit'; readonly found: string; readonly near: readonly string[] }
  /** A severity below the one that it must keep. */
  | {
      readonly problem: 'lowered';
      readonly of: string;
      readonly to: PolicySeverity;
      readonly from: PolicySeverity;
      readonly because: 'error' | 'concentrate' | 'withholds';
    }
  | { readonly problem: 'no-quantity'; readonly of: string; readonly found: string; readonly example: string }
  | { readonly problem: 'no-unit'; readonly of: string; readonly found: string; readonly example: string }
  | { readonly problem: 'unknown-unit'; readonly of: string; readonly found: string; readonly near: readonly string[] }
  | { readonly problem: 'number-form'; readonly found: string; readonly readings: readonly string[] }
  | {
      readonly problem: 'wrong-dimension';
      readonly of: string;
      readonly found: string;
      readonly got: Dimension;
      readonly unit: string;
    }
  | { readonly problem: 'not-above-zero'; readonly of: string; readonly found: string }
  | { readonly problem: 'above-most'; readonly of: string; readonly found: string; readonly most: Decimal }
  /** mOsm/L. */
  | { readonly problem: 'upside-down'; readonly from: Decimal; readonly below: Decimal }
  | { readonly problem: 'missing'; readonly of: string; readonly what: 'limit' | 'source' }
  | { readonly problem: 'empty'; readonly of: string }
  | { readonly problem: 'too-long'; readonly of: string; readonly most: number }
  | { readonly problem: 'no-date'; readonly of: string; readonly found: string };

export type PolicyFault = { readonly code: 'policy-invalid' } & PolicyProblem;

/** A fault and its place in the policy's text. */
export interface LocatedPolicyFault {
  readonly at: SourceSpan;
  readonly fault: PolicyFault;
}
