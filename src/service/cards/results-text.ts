/** Results in words: one by one, and set side by side. */
import { formatDecimal, type Observable, type Reference, SODIUM_ERROR, type Unit } from '../../engine/index.ts';
import {
  type Answer,
  comparisonCells,
  rangeText,
  resultText,
  valueText,
  type WorkedComparison,
  type WorkedShow,
} from '../../note/index.ts';
import type { Tree } from '../../text/tree.ts';

export { resultText };

/** A row a fluid, a column a result; the unit stands at the head of its column. */
export function comparisonTable(
  comparison: Pick<WorkedComparison, 'observables' | 'rows'>,
  reference: Reference,
): Tree {
  const { head, rows } = comparisonCells(comparison, reference);
  return {
    kind: 'table',
    columns: head.map((title, index) => ({ title, align: index === 0 ? ('text' as const) : ('number' as const) })),
    rows,
  };
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

/** What a `show` line answers, each result by itself. */
export function shownValues(
  { shown }: WorkedShow,
  reference: Reference,
): readonly { readonly subject: string; readonly name: string; readonly value: string }[] {
  return shown.map(({ subject, observable, held, answer, unit }) => ({
    subject,
    name: observable.name,
    value: held ? resultText(held, observable, reference) : answerText(answer, observable, unit),
  }));
}

/** `alkaline: sodium 130 mmol/L`. */
export function shownItems(show: WorkedShow, reference: Reference): readonly string[] {
  return shownValues(show, reference).map(
    ({ subject, name, value }) => `${subject ? `${subject}: ` : ''}${name} ${value}`,
  );
}
