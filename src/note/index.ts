export type { Answer, NoResult, Subject } from './answer.ts';
export { BoundBlock } from './bound-block.ts';
export { writtenTarget } from './bound-target.ts';
export type { FailedClaim, Located, NoteFault } from './faults.ts';
export { Memo } from './memo.ts';
export type * from './model.ts';
export { type PaceLimit, pacesOf } from './order-checks/sodium-course.ts';
export type { WorkedOrder, WorkedPatient } from './order-model.ts';
export { allResults } from './orders/all-results.ts';
export { answerOrder } from './orders/order-results.ts';
export { answerPatient } from './orders/patient-results.ts';
export { ONSETS, PATIENT_LINES, SEXES } from './orders/patients.ts';
export {
  byPatient,
  courseOf,
  endOfOrders,
  inADay,
  intakeOf,
  type OrderScene,
  type OrdersByPatient,
  pointAt,
  reachesBody,
  sceneOf,
} from './orders/scene.ts';
export { declaredIn } from './outline.ts';
export { BODIES } from './own-substances.ts';
export type { LocatedPolicyFault, PolicyFault } from './policy/faults.ts';
export {
  type FormularyEntry,
  POLICY_KEYS,
  type PolicyKey,
  type ReadPolicy,
  readPolicy,
  type Severities,
  severitiesAllowed,
} from './policy/read.ts';
export { DEFAULT_POLICY, type Policy } from './policy.ts';
export { type Held, rangeOf, resultOf } from './ranges.ts';
export {
  comparisonCells,
  rangeText,
  resultCell,
  resultText,
  toldFreeWater,
  toldShare,
  valueText,
} from './result-text.ts';
export { nameTakenBy } from './scope.ts';
export { canBeTarget } from './targets.ts';
export {
  type Answer as NoteAnswer,
  type Ask,
  type Closure,
  type FormularyPaths,
  type Target,
  walk,
} from './use/closure.ts';
export { NO_NOTES, type UsedNotes } from './use/given.ts';
export { NoteLibrary } from './use/library.ts';
export { type Refusal, type Unread, USE_LIMITS } from './use/refusal.ts';
export { type FoundNote, mayUse, type Uses, usesIn, usesOf } from './use/uses.ts';
export { changeIn } from './what-if/change.ts';
export type { WhatIf, WhatIfRow } from './what-if/what-if.ts';
export { type BlockReader, workNote } from './work.ts';
