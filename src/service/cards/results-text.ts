/** Results in words: one by one, and set side by side. */
import { rangeText, valueText } from '../../checks/index.ts';
import { formatDecimal, type Observable, type Reference, SODIUM_ERROR, type Unit, unit } from '../../engine/index.ts';
import { type Answer, type Held, rangeOf, resultOf, type WorkedComparison } from '../../note/index.ts';
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

/** Behind a predicted serum sodium: how far such predictions have missed. */
export function errorOf({ kind }: Observable): string {
  if (kind !== 'predicted-sodium' && kind !== 'predicted-sodium-by-regression') return '';
  const { least, most } = SODIUM_ERROR;
  return ` (missed by ${formatDecimal(least, 2)} to ${formatDecimal(most, 2)})`;
}

/** An answer in the unit that it was asked in: `40.97 L`. */
export function answerText(answer: Answer, observable: Observable, unit: Unit | null): string {
  if (!answer.ok) return answer.problem === 'missing-value' ? `${answer.value} is not written` : '–';
  return `${valueText(answer.value, unit, answer.range)}${rangeText(answer.range, unit?.symbol ?? '')}${errorOf(observable)}`;
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
