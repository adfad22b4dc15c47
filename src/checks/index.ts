/** The ordered list of checks, and the finding that each fault of a note becomes. */
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Located } from '../note/faults.ts';
import type { LocatedPolicyFault } from '../note/policy/faults.ts';
import type { Policy } from '../note/policy.ts';
import { acceptWithoutReason } from './accept-without-reason.ts';
import { ambiguousName } from './ambiguous-name.ts';
import { brokenLink } from './broken-link.ts';
import { calciumBicarbonate } from './calcium-bicarbonate.ts';
import { calciumCeftriaxone } from './calcium-ceftriaxone.ts';
import { calciumPhosphate } from './calcium-phosphate.ts';
import { chargeImbalance } from './charge-imbalance.ts';
import type { Check, FaultCode, Fix, Severity, Wording } from './check.ts';
import { circularMixture } from './circular-mixture.ts';
import { circularUse } from './circular-use.ts';
import { claimMismatch } from './claim-mismatch.ts';
import { doseNamesNoSolute } from './dose-names-no-solute.ts';
import { duplicateName } from './duplicate-name.ts';
import { electrolyteRate } from './electrolyte-rate.ts';
import { elementalOrSalt } from './elemental-or-salt.ts';
import { finalVolumeTooSmall } from './final-volume-too-small.ts';
import { glucoseRate } from './glucose-rate.ts';
import { haemolysis } from './haemolysis.ts';
import { hypertonicPeripheral } from './hypertonic-peripheral.ts';
import { hypotonicMaintenance } from './hypotonic-maintenance.ts';
import { hypotonicToLowSodium } from './hypotonic-to-low-sodium.ts';
import { impossibleConcentration } from './impossible-concentration.ts';
import { incompleteImport } from './incomplete-import.ts';
import { mayCrystallise } from './may-crystallise.ts';
import { missingNote } from './missing-note.ts';
import { missingPatientValue } from './missing-patient-value.ts';
import { missingVolume } from './missing-volume.ts';
import { nakedDecimal } from './naked-decimal.ts';
import { noWater } from './no-water.ts';
import { nominalClaim } from './nominal-claim.ts';
import { notKnown } from './not-known.ts';
import { numberForm } from './number-form.ts';
import { numberRunIntoUnit } from './number-run-into-unit.ts';
import { outsideWorkspace } from './outside-workspace.ts';
import { overLimit } from './over-limit.ts';
import { policyInvalid } from './policy-invalid.ts';
import { potassiumConcentration } from './potassium-concentration.ts';
import { potassiumRate } from './potassium-rate.ts';
import { potassiumWhileHigh } from './potassium-while-high.ts';
import { rateMismatch } from './rate-mismatch.ts';
import { ratioStrength } from './ratio-strength.ts';
import { reservedName } from './reserved-name.ts';
import { sodiumChlorideLoad } from './sodium-chloride-load.ts';
import { sodiumFall } from './sodium-fall.ts';
import { sodiumRise } from './sodium-rise.ts';
import { staleNumber } from './stale-number.ts';
import { staleTable } from './stale-table.ts';
import { syntax } from './syntax.ts';
import { targetUnreachable } from './target-unreachable.ts';
import { thousandfold } from './thousandfold.ts';
import { tonicityFallsInBody } from './tonicity-falls-in-body.ts';
import { tooFewTargets } from './too-few-targets.ts';
import { trailingZero } from './trailing-zero.ts';
import { unclosedFence } from './unclosed-fence.ts';
import { undilutedConcentrate } from './undiluted-concentrate.ts';
import { unknownName } from './unknown-name.ts';
import { unknownObservable } from './unknown-observable.ts';
import { unknownRoute } from './unknown-route.ts';
import { unknownUnit } from './unknown-unit.ts';
import { unsafeAbbreviation } from './unsafe-abbreviation.ts';
import { unusedAccept } from './unused-accept.ts';
import { unusualPatientValue } from './unusual-patient-value.ts';
import { volumeAdded } from './volume-added.ts';
import { volumeBasisMissing } from './volume-basis-missing.ts';
import { withdrawAfterAdding } from './withdraw-after-adding.ts';
import { withdrawAfterUnknown } from './withdraw-after-unknown.ts';
import { withdrawTooMuch } from './withdraw-too-much.ts';
import { wrongDimension } from './wrong-dimension.ts';

const LIST = [
  syntax,
  unclosedFence,
  policyInvalid,
  unknownName,
  unknownObservable,
  duplicateName,
  reservedName,
  unknownUnit,
  wrongDimension,
  numberForm,
  elementalOrSalt,
  missingVolume,
  volumeBasisMissing,
  doseNamesNoSolute,
  unknownRoute,
  missingPatientValue,
  circularMixture,
  missingNote,
  outsideWorkspace,
  circularUse,
  incompleteImport,
  brokenLink,
  overLimit,
  acceptWithoutReason,
  unusedAccept,
  notKnown,
  unusualPatientValue,
  claimMismatch,
  nominalClaim,
  staleNumber,
  staleTable,
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
  rateMismatch,
  undilutedConcentrate,
  haemolysis,
  hypertonicPeripheral,
  potassiumConcentration,
  potassiumRate,
  potassiumWhileHigh,
  hypotonicToLowSodium,
  hypotonicMaintenance,
  glucoseRate,
  electrolyteRate,
  calciumCeftriaxone,
  sodiumChlorideLoad,
  sodiumRise,
  sodiumFall,
  ambiguousName,
  ratioStrength,
  nakedDecimal,
  trailingZero,
  numberRunIntoUnit,
  unsafeAbbreviation,
] as const;

/** Faults that no check puts into words: there are none, and this does not compile when there are. */
type Unworded = Exclude<FaultCode, (typeof LIST)[number]['faults'][number]>;

/** In the order of the documentation: notation, arithmetic, physics, orders, wording. */
export const CHECKS: [Unworded] extends [never] ? readonly Check[] : Unworded = LIST as unknown as readonly Check[];

/** A fault put into words. */
export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly at: SourceSpan;
  readonly wording: Wording;
  readonly fixes: readonly Fix[];
  /** The other place that matters to it, such as the first of two equal names. */
  readonly other: { readonly at: SourceSpan; readonly words: string } | null;
}

/** The severities that findings have by themselves, by their code. */
export const SEVERITIES: ReadonlyMap<string, Severity> = new Map(CHECKS.map(({ code, severity }) => [code, severity]));

const BY_FAULT: ReadonlyMap<FaultCode, Check> = new Map(
  CHECKS.flatMap((check) => check.faults.map((code) => [code, check] as const)),
);

/** A fault stays the same object while the note is edited elsewhere, and so do its words. */
const WORDED = new WeakMap<object, Omit<Finding, 'at'>>();

export function findingOf({ at, fault }: Located | LocatedPolicyFault): Finding {
  const worded = WORDED.get(fault) ?? wordedFault(fault);
  WORDED.set(fault, worded);
  return { ...worded, at };
}

function wordedFault(fault: (Located | LocatedPolicyFault)['fault']): Omit<Finding, 'at'> {
  const check = BY_FAULT.get(fault.code);
  if (!check) throw new Error(`no check words the fault ${fault.code}`);
  const other =
    fault.code === 'duplicate-name' ? { at: fault.first, words: `‘${fault.name}’ is first given here.` } : null;
  const wording = asSentences(check.words(fault));
  const severity = check.severityOf?.(fault) ?? check.severity;
  return { code: check.code, severity, wording, fixes: check.fixes?.(fault) ?? [], other };
}

/** How local policy wants a finding taken; null for one that it switches off. An error stays one, whatever is set. */
export function severityUnder({ severities }: Policy, { code, severity }: Finding): Severity | null {
  const set = severities.get(code);
  if (!set || severity === 'error') return severity;
  return set === 'off' ? null : set;
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
export type { Check, FaultCode, Fix, Severity, Wording };
