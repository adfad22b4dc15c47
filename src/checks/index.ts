/** The ordered list of checks, and the finding that each fault of a note becomes. */
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Located } from '../note/faults.ts';
import { ambiguousName } from './ambiguous-name.ts';
import { calciumBicarbonate } from './calcium-bicarbonate.ts';
import { calciumPhosphate } from './calcium-phosphate.ts';
import { chargeImbalance } from './charge-imbalance.ts';
import type { Check, FaultCode, Severity, Wording } from './check.ts';
import { circularMixture } from './circular-mixture.ts';
import { claimMismatch } from './claim-mismatch.ts';
import { duplicateName } from './duplicate-name.ts';
import { elementalOrSalt } from './elemental-or-salt.ts';
import { finalVolumeTooSmall } from './final-volume-too-small.ts';
import { impossibleConcentration } from './impossible-concentration.ts';
import { mayCrystallise } from './may-crystallise.ts';
import { missingVolume } from './missing-volume.ts';
import { nakedDecimal } from './naked-decimal.ts';
import { noWater } from './no-water.ts';
import { nominalClaim } from './nominal-claim.ts';
import { notKnown } from './not-known.ts';
import { notWorkedOut } from './not-worked-out.ts';
import { numberForm } from './number-form.ts';
import { overLimit } from './over-limit.ts';
import { reservedName } from './reserved-name.ts';
import { syntax } from './syntax.ts';
import { targetUnreachable } from './target-unreachable.ts';
import { thousandfold } from './thousandfold.ts';
import { tonicityFallsInBody } from './tonicity-falls-in-body.ts';
import { tooFewTargets } from './too-few-targets.ts';
import { unclosedFence } from './unclosed-fence.ts';
import { unknownName } from './unknown-name.ts';
import { unknownObservable } from './unknown-observable.ts';
import { unknownUnit } from './unknown-unit.ts';
import { unsafeAbbreviation } from './unsafe-abbreviation.ts';
import { volumeAdded } from './volume-added.ts';
import { withdrawAfterAdding } from './withdraw-after-adding.ts';
import { withdrawAfterUnknown } from './withdraw-after-unknown.ts';
import { withdrawTooMuch } from './withdraw-too-much.ts';
import { wrongDimension } from './wrong-dimension.ts';

/** In the order of the documentation: notation, arithmetic, physics, wording. */
export const CHECKS = [
  syntax,
  unclosedFence,
  unknownName,
  unknownObservable,
  duplicateName,
  reservedName,
  unknownUnit,
  wrongDimension,
  numberForm,
  elementalOrSalt,
  missingVolume,
  circularMixture,
  overLimit,
  notWorkedOut,
  notKnown,
  claimMismatch,
  nominalClaim,
  withdrawTooMuch,
  finalVolumeTooSmall,
  tooFewTargets,
  targetUnreachable,
  withdrawAfterUnknown,
  chargeImbalance,
  impossibleConcentration,
  noWater,
  thousandfold,
  mayCrystallise,
  volumeAdded,
  withdrawAfterAdding,
  tonicityFallsInBody,
  calciumBicarbonate,
  calciumPhosphate,
  ambiguousName,
  nakedDecimal,
  unsafeAbbreviation,
] as unknown as readonly Check[];

/** A fault put into words. */
export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly at: SourceSpan;
  readonly wording: Wording;
  /** The other place that matters to it, such as the first of two equal names. */
  readonly other: { readonly at: SourceSpan; readonly words: string } | null;
}

const BY_FAULT: ReadonlyMap<FaultCode, Check> = new Map(
  CHECKS.flatMap((check) => check.faults.map((code) => [code, check] as const)),
);

export function findingOf({ at, fault }: Located): Finding {
  const check = BY_FAULT.get(fault.code);
  if (!check) throw new Error(`no check words the fault ${fault.code}`);
  const other =
    fault.code === 'duplicate-name' ? { at: fault.first, words: `‘${fault.name}’ is first given here.` } : null;
  return { code: check.code, severity: check.severity, at, wording: asSentences(check.words(fault)), other };
}

/** A part may begin with the name of a result or solute. */
function asSentences({ read, why, mend, ...rest }: Wording): Wording {
  const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
  return { read: capital(read), why: capital(why), mend: capital(mend), ...rest };
}

/** One string for a squiggle: what was read, why it cannot stand, what mends it, the source last in brackets. */
export function messageOf({ read, why, mend, source }: Wording): string {
  return `${read} ${why} ${mend}${source ? ` [${source}]` : ''}`;
}

export { rangeText, valueText } from './wording.ts';
export type { Check, FaultCode, Severity, Wording };
