export type * from './ast.ts';
export { LIMITS } from './limits.ts';
export { keyOf, normalise } from './normalise.ts';
export { parseBlock, parseFluid } from './parse.ts';
export { RESERVED } from './reserved.ts';
