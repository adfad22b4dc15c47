/** Where an order's fluid goes in the body. */
import {
  type Compartments,
  type Contents,
  compartments,
  compartmentsBeforeUse,
  decimal,
  formatQuantity,
  type Reference,
  water,
} from '../../engine/index.ts';
import { toldShare, type WorkedOrder } from '../../note/index.ts';
import type { Basins } from '../../text/figures.ts';
import type { Tree } from '../../text/tree.ts';

/** Pure water spreads as the body's own water lies. */
const SPREAD = water(decimal(1000));

/** Nothing for what does not reach the blood at once, and where the simple rule does not hold. */
export function whereItGoesFigure({ route }: WorkedOrder, contents: Contents, reference: Reference): Tree[] {
  const into = route?.into ?? 'vein';
  if (into !== 'vein' && into !== 'marrow') return [];
  const after = compartments(contents, reference);
  const before = compartmentsBeforeUse(contents, reference);
  const shares = compartments(SPREAD, reference);
  if (!after || !before || !shares) return [];
  const differs = !before.cells.eq(after.cells);
  return [
    {
      kind: 'figure',
      figure: {
        kind: 'where-it-goes',
        name: 'Where it goes, by the simple rule',
        sentence: `Of ${formatQuantity(contents.volume, 'mL')}: ${basinsInWords(after)}.${differs ? ` Before the dextrose is used: ${basinsInWords(before)}.` : ''}`,
        water: drawnBasins(shares),
        arrives: drawnBasins(after),
        before: differs ? drawnBasins(before) : null,
      },
    },
  ];
}

export function basinsInWords({ cells: exact, interstitium, plasma }: Compartments): string {
  const cells = toldShare(exact, exact.plus(interstitium).plus(plasma));
  const toCells = cells.isNegative()
    ? `${formatQuantity(cells.abs(), 'mL')} taken from cells`
    : `cells ${formatQuantity(cells, 'mL')}`;
  return `${toCells}, interstitium ${formatQuantity(interstitium, 'mL')}, plasma ${formatQuantity(plasma, 'mL')}`;
}

export function drawnBasins({ cells, interstitium, plasma }: Compartments): Basins {
  return { cells: cells.toNumber(), interstitium: interstitium.toNumber(), plasma: plasma.toNumber() };
}
