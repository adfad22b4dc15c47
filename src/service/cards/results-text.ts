/** Results in words: one by one, and set side by side. */
import { rangeText } from '../../checks/index.ts';
import { type Contents, formatQuantity, measure, type Observable, type Reference, unit } from '../../engine/index.ts';
import { rangeOf, type WorkedComparison } from '../../note/index.ts';
import type { Tree } from '../../text/tree.ts';
import { tonicityOf } from './composition.ts';

/** A row a fluid, a column a result, in each result's own unit. */
export function comparisonTable(comparison: WorkedComparison, reference: Reference): Tree {
  return {
    kind: 'table',
    columns: [
      { title: '', align: 'text' },
      ...comparison.observables.map(({ name }) => ({ title: name, align: 'number' as const })),
    ],
    rows: comparison.rows.map((row) => [
      row.name,
      ...comparison.observables.map((observable) => resultText(row, observable, reference)),
    ]),
  };
}

/** A result in its own unit, with its range where tolerances leave one: `152 mmol/L`, `isotonic`. */
export function resultText(
  held: { readonly contents: Contents; readonly extremes: readonly Contents[] },
  observable: Observable,
  reference: Reference,
): string {
  const asWord = tonicityOf(held.contents, observable, reference);
  if (asWord) return asWord;
  const of = unit(observable.unit);
  const measured = measure(held.contents, observable, of, reference);
  if (!measured.ok) return '–';
  return `${formatQuantity(measured.value, observable.unit)}${rangeText(rangeOf(held, observable, of, reference), observable.unit)}`;
}
