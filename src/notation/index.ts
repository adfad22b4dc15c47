export type * from './ast.ts';
export { formatBlock, formatLines } from './format.ts';
export { LIMITS } from './limits.ts';
export { keyOf, normalise } from './normalise.ts';
export { parseBlock, parseFluid, parseQuantity } from './parse.ts';
export { placesAt } from './place.ts';
export type { Measured, Place } from './place-kinds.ts';
export { readRatio } from './ratio.ts';
export { RESERVED } from './reserved.ts';
