import type { BagAndBody } from '../../text/figures.ts';
import { sheet } from './sheet.ts';
import { tonicityScale } from './tonicity-scale.ts';
import { waterLine } from './water-line.ts';

const HEIGHT = 114;

/** How much of a litre is electrolyte-free water, above where the fluid stands in the bag and in the body. */
export function bagAndBody({ name, sentence, freeWater, bag, body, isotonic }: BagAndBody, id: string): string {
  return sheet({ id, name, sentence, height: HEIGHT }, waterLine(freeWater), tonicityScale(bag, body, isotonic));
}
