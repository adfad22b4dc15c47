/** Fluids side by side, the least effective osmolarity first. */
import {
  effectiveOsmolarity,
  formatDecimal,
  formatQuantity,
  freeWaterPerLitre,
  osmolarity,
  type Reference,
  tonicity,
} from '../../engine/index.ts';
import { toldFreeWater, type WorkedComparison } from '../../note/index.ts';
import type { Tree } from '../../text/tree.ts';

export function comparisonFigure({ rows }: WorkedComparison, reference: Reference): Tree {
  const told = rows
    .map(({ name, contents }) => ({
      name,
      freeWater: toldFreeWater(freeWaterPerLitre(contents, reference)),
      bag: osmolarity(contents),
      body: effectiveOsmolarity(contents),
    }))
    .sort((a, b) => a.body.cmp(b.body));
  const sentences = told.map(
    ({ name, freeWater, bag, body }) =>
      `${name}: ${formatQuantity(freeWater, 'mL')} of electrolyte-free water per litre, ${formatDecimal(bag)} mOsm/L in the bag and ${formatDecimal(body)} in the body, ${tonicity(body, reference)} there.`,
  );
  return {
    kind: 'figure',
    figure: {
      kind: 'comparison',
      name: 'Water in one litre, and tonicity: filled mark in the bag, open mark in the body',
      sentence: sentences.join(' '),
      rows: told.map(({ name, freeWater, bag, body }) => ({
        name,
        freeWater: freeWater.toNumber(),
        bag: bag.toNumber(),
        body: body.toNumber(),
      })),
      isotonic: [reference.isotonicFrom.toNumber(), reference.isotonicBelow.toNumber()],
    },
  };
}
