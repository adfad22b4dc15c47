/** What a mixture comes to under each figure of a `what if` line: vessels beside one another. */
import { formatQuantity, osmolarity } from '../../engine/index.ts';
import type { WhatIf } from '../../note/index.ts';
import type { Tree } from '../../text/tree.ts';
import { rowLabel } from '../cards/what-if-card.ts';

/** Nothing for a patient or an order. */
export function whatIfFigure(whatIf: WhatIf): readonly Tree[] {
  const told = whatIf.rows.flatMap((row) => {
    const contents = row.mixture?.contents;
    return contents ? [{ label: rowLabel(whatIf, row), contents }] : [];
  });
  if (told.length < 2) return [];
  const sentences = told.map(
    ({ label, contents }) =>
      `${label}: ${formatQuantity(contents.volume, 'mL')} of ${formatQuantity(osmolarity(contents), 'mOsm/L')}.`,
  );
  return [
    {
      kind: 'figure',
      figure: {
        kind: 'vessels',
        name: 'What it comes to: the level is the volume, the dots are the osmolarity',
        sentence: sentences.join(' '),
        steps: told.map(({ label, contents }) => ({
          label,
          volume: contents.volume.toNumber(),
          osmolarity: osmolarity(contents).toNumber(),
          added: null,
          withdrawn: 0,
        })),
      },
    },
  ];
}
