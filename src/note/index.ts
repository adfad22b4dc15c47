export type { FailedClaim, Located, NoteFault } from './faults.ts';
export type * from './model.ts';
export { type Held, rangeOf, resultOf } from './ranges.ts';
export { type BlockReader, workNote } from './work.ts';
