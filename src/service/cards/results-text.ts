/** Results in words: one by one, and set side by side. */
import { rangeText, valueText } from '../../checks/index.ts';
import { type Observable, type Reference, unit } from '../../engine/index.ts';
import { type Held, rangeOf, resultOf, type WorkedComparison } from '../../note/index.ts';
import type { Tree } from '../../text/tree.ts';
import { tonicityOf } from './composition.ts';

/** A row a fluid, a column a result; the unit stands at the head of its column. */
export function comparisonTable(comparison: WorkedComparison, reference: Reference): Tree {
  return {
    kind: 'table',
    columns: [
      { title: '', align: 'text' },
      ...comparison.observables.map(({ name, unit: of }) => ({
        title: of ? `${name}, ${of}` : name,
        align: 'number' as const,
      })),
    ],
    rows: comparison.rows.map((row) => [
      row.name,
      ...comparison.observables.map((observable) => told(row, observable, reference, false)),
    ]),
  };
}

/** A result in its own unit, with its range where tolerances leave one: `152 mmol/L`, `isotonic`. */
export function resultText(held: Held, observable: Observable, reference: Reference): string {
  return told(held, observable, reference, true);
}

function told(held: Held, observable: Observable, reference: Reference, withUnit: boolean): string {
  const asWord = tonicityOf(held.contents, observable, reference);
  if (asWord) return asWord;
  const of = observable.unit ? unit(observable.unit) : null;
  const measured = resultOf(held.contents, observable, of, reference);
  if (!measured.ok) return measured.problem === 'not-stated' ? 'not stated' : '–';
  const range = rangeOf(held, observable, of, reference);
  const shown = withUnit ? of : null;
  return `${valueText(measured.value, shown, range)}${rangeText(range, shown?.symbol ?? '')}`;
}
