/** What a text says, apart from how it is written. */
import type { UnitNode } from './ast.ts';
import { parseBlock } from './parse.ts';

/**
 * Whether two texts are read alike: the same statements with the same words, digits, units and titles, and the same
 * faults. Places and the spelling of units do not count.
 */
export function readsAlike(one: string, other: string): boolean {
  return readingOf(one) === readingOf(other);
}

function readingOf(text: string): string {
  return JSON.stringify(parseBlock(text), (key, value: unknown) => {
    if (key === 'span' || key === 'line') return undefined;
    return key === 'unit' && isUnitNode(value) ? value.unit : value;
  });
}

function isUnitNode(value: unknown): value is UnitNode {
  return typeof value === 'object' && value !== null && 'unit' in value;
}
