/** What a hospital decides for its notes: limits, words, how strictly to judge. */
import {
  DEFAULT_REFERENCE,
  type Decimal,
  decimal,
  defaultLimits,
  type Limits,
  type Pharmacopoeia,
  type Reference,
} from '../engine/index.ts';

/** How a finding is to be taken. */
export type PolicySeverity = 'error' | 'warning' | 'information' | 'hint' | 'off';

export interface Policy {
  readonly reference: Reference;
  readonly pharmacopoeia: Pharmacopoeia;
  /** A claim that is off by no more than this, in percent of it, is how printed labels round. */
  readonly claimTolerance: Decimal;
  readonly limits: Limits;
  /** By the code of the finding. */
  readonly severities: ReadonlyMap<string, PolicySeverity>;
  readonly terms: {
    readonly sugar: 'dextrose' | 'glucose' | null;
    readonly amounts: 'mmol' | 'mEq';
  };
  /** Whether the wording of orders is looked at in the prose of a note as well. */
  readonly prose: boolean;
  /** Paths, from the policy's folder, of notes whose fluids every note may use. */
  readonly formulary: readonly string[];
}

export const DEFAULT_POLICY: Policy = {
  reference: DEFAULT_REFERENCE,
  pharmacopoeia: 'USP',
  claimTolerance: decimal(5),
  limits: defaultLimits(null),
  severities: new Map(),
  terms: { sugar: null, amounts: 'mmol' },
  prose: false,
  formulary: [],
};
