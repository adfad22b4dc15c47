/** The range of a result that tolerances leave. */
import { type Contents, Decimal, measure, type Observable, type Reference, type Unit } from '../engine/index.ts';

/** The least and the most it comes to over the combinations of the tolerances written; null when none is. */
export function rangeOf(
  { contents, extremes }: { readonly contents: Contents; readonly extremes: readonly Contents[] },
  observable: Observable,
  unit: Unit,
  reference: Reference,
): readonly [Decimal, Decimal] | null {
  if (extremes.length === 0) return null;
  const values = [contents, ...extremes].flatMap((held) => {
    const measured = measure(held, observable, unit, reference);
    return measured.ok ? [measured.value] : [];
  });
  return values.length === 0 ? null : [Decimal.min(...values), Decimal.max(...values)];
}
