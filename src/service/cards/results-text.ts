/** Results in words: one by one, and set side by side. */
import { rangeText, valueText } from '../../checks/index.ts';
import { type Observable, type Reference, unit } from '../../engine/index.ts';
import { type Held, rangeOf, resultOf, type WorkedComparison } from '../../note/index.ts';
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
export function resultText(held: Held, observable: Observable, reference: Reference): string {
  const asWord = tonicityOf(held.contents, observable, reference);
  if (asWord) return asWord;
  const of = observable.unit ? unit(observable.unit) : null;
  const measured = resultOf(held.contents, observable, of, reference);
  if (!measured.ok) return measured.problem === 'not-stated' ? 'not stated' : '–';
  const range = rangeOf(held, observable, of, reference);
  return `${valueText(measured.value, of, range)}${rangeText(range, observable.unit)}`;
}
