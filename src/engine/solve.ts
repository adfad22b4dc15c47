/**
 * Unknown amounts from targets. While nothing is withdrawn after an unknown, what a mixture holds is an affine function
 * of its unknown amounts, and so is each target once it is multiplied out (`sodium ÷ volume = t` is
 * `sodium − t × volume = 0`): as many targets as unknowns are a linear system, solved by elimination in decimals.
 */
import { type Contents, EMPTY, plus, times } from './contents.ts';
import { type Decimal, decimal, ONE, ZERO } from './decimal.ts';
import type { MixStep } from './mixture.ts';

/** A step whose amount is unknown; `unknown` counts from 0. */
export type UnknownStep =
  /** So many units of what one unit brings: 1 mL of a fluid, 1 g of a solute, one ampoule. */
  | { readonly kind: 'add-unknown'; readonly unknown: number; readonly perUnit: Contents }
  | { readonly kind: 'withdraw-unknown'; readonly unknown: number }
  | { readonly kind: 'exchange-unknown'; readonly unknown: number; readonly perMl: Contents };

export type OpenStep = MixStep | UnknownStep;

/** Zero where the target is met; linear in the contents. */
export type Residual = (contents: Contents) => Decimal;

export type Solution =
  | { readonly ok: true; readonly amounts: readonly Decimal[] }
  /** No answer, or more than one: the targets do not tell the unknowns apart. */
  | { readonly ok: false };

/** A pivot this small beside its column is what forty digits leave of a zero. */
const SINGULAR = decimal('1e-25');

/** As many residuals as unknowns. Amounts may come out below zero: whether that can be is the caller's to say. */
export function solve(steps: readonly OpenStep[], unknowns: number, residuals: readonly Residual[]): Solution {
  const base: Decimal[] = Array.from({ length: unknowns }, () => ONE);
  const at = (amounts: readonly Decimal[]) => {
    const contents = contentsAt(steps, amounts);
    return residuals.map((residual) => residual(contents));
  };
  const start = at(base);
  const columns = base.map((amount, index) => {
    const moved = at(base.with(index, amount.plus(ONE)));
    return moved.map((value, row) => value.minus(start[row]!));
  });
  const rows = residuals.map((_, row) => [...columns.map((column) => column[row]!), start[row]!.negated()]);
  const shift = eliminate(rows, unknowns);
  return shift ? { ok: true, amounts: shift.map((value, index) => value.plus(base[index]!)) } : { ok: false };
}

/** What the steps give for these amounts, whether or not it can be made. */
export function contentsAt(steps: readonly OpenStep[], amounts: readonly Decimal[]): Contents {
  let held = EMPTY;
  for (const step of steps) held = after(held, step, amounts);
  return held;
}

function after(held: Contents, step: OpenStep, amounts: readonly Decimal[]): Contents {
  switch (step.kind) {
    case 'add':
      return plus(held, step.contents);
    case 'make-up':
      return plus(held, times(step.perMl, step.to.minus(held.volume)));
    case 'withdraw':
      return without(held, step.volume);
    case 'exchange':
      return plus(without(held, step.volume), times(step.perMl, step.volume));
    case 'add-unknown':
      return plus(held, times(step.perUnit, amounts[step.unknown]!));
    case 'withdraw-unknown':
      return without(held, amounts[step.unknown]!);
    case 'exchange-unknown': {
      const volume = amounts[step.unknown]!;
      return plus(without(held, volume), times(step.perMl, volume));
    }
  }
}

function without(held: Contents, volume: Decimal): Contents {
  return held.volume.isZero() ? held : times(held, ONE.minus(volume.div(held.volume)));
}

/** The same steps with the amounts put in, to be carried out and refused like any others. */
export function closed(steps: readonly OpenStep[], amounts: readonly Decimal[]): readonly MixStep[] {
  return steps.map((step): MixStep => {
    switch (step.kind) {
      case 'add-unknown':
        return { kind: 'add', contents: times(step.perUnit, amounts[step.unknown]!) };
      case 'withdraw-unknown':
        return { kind: 'withdraw', volume: amounts[step.unknown]! };
      case 'exchange-unknown':
        return { kind: 'exchange', volume: amounts[step.unknown]!, perMl: step.perMl };
      default:
        return step;
    }
  });
}

/** Gaussian elimination with the largest pivot; null for a singular system. Each row ends with its right-hand side. */
function eliminate(rows: Decimal[][], size: number): Decimal[] | null {
  for (let pivot = 0; pivot < size; pivot++) {
    const column = rows.slice(pivot).map((row) => row[pivot]!.abs());
    const largest = column.reduce((most, value, index) => (value.gt(column[most]!) ? index : most), 0);
    const scale = rows[pivot + largest]!.reduce((most, value) => (value.abs().gt(most) ? value.abs() : most), ZERO);
    if (column[largest]!.lte(scale.times(SINGULAR))) return null;
    [rows[pivot], rows[pivot + largest]] = [rows[pivot + largest]!, rows[pivot]!];
    for (let below = pivot + 1; below < size; below++) {
      const factor = rows[below]![pivot]!.div(rows[pivot]![pivot]!);
      rows[below] = rows[below]!.map((value, index) => value.minus(factor.times(rows[pivot]![index]!)));
    }
  }
  let answer: Decimal[] = [];
  for (let row = size - 1; row >= 0; row--) {
    const behind = rows[row]!.slice(row + 1, size);
    const known = behind.reduce((sum, value, index) => sum.plus(value.times(answer[index]!)), ZERO);
    answer = [rows[row]![size]!.minus(known).div(rows[row]![row]!), ...answer];
  }
  return answer;
}
