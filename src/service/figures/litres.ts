/** The same litre of several fluids, and where each goes, by the simple rule. */
import { compartments, decimal, formatQuantity, type Reference, times } from '../../engine/index.ts';
import type { WorkedComparison } from '../../note/index.ts';
import type { Tree } from '../../text/tree.ts';
import { basinsInWords, drawnBasins } from './where-it-goes.ts';

const LITRE = decimal(1000);
/** Drawn where the comparison asks for one of these. */
const ASKED: ReadonlySet<string> = new Set(['free-water', 'effective-osmolarity']);

export function litresFigure({ rows, observables }: WorkedComparison, reference: Reference): readonly Tree[] {
  if (!observables.some(({ kind }) => ASKED.has(kind))) return [];
  const told = rows.map(({ name, contents }) => ({
    name,
    goes: contents.volume.gt(0) ? compartments(times(contents, LITRE.div(contents.volume)), reference) : null,
  }));
  const drawn = told.flatMap(({ name, goes }) => (goes ? [{ name, goes }] : []));
  if (drawn.length < 2) return [];
  const without = told.filter(({ goes }) => !goes).map(({ name }) => `${name}: the rule does not hold for it.`);
  return [
    {
      kind: 'figure',
      figure: {
        kind: 'litres',
        name: 'Where a litre of each goes, by the simple rule',
        sentence: [
          `Of ${formatQuantity(LITRE, 'mL')} of each.`,
          ...drawn.map(({ name, goes }) => `${name}: ${basinsInWords(goes)}.`),
          ...without,
        ].join(' '),
        rows: drawn.map(({ name, goes }) => ({ name, goes: drawnBasins(goes) })),
      },
    },
  ];
}
