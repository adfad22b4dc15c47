/**
 * Quantities that carry a tolerance, and the range of results that follows. A concentration rises or falls with each
 * quantity alone, so its extremes lie where every quantity is at one end of its tolerance: the mixture is worked out at
 * each such combination.
 */
import { type Contents, type Decimal, decimal, type Quantity, sameDimension } from '../engine/index.ts';
import type { QuantityNode } from '../notation/ast.ts';
import type { WorkedMixture } from './model.ts';

/** At most so many combinations are worked out: eight tolerances, or a few where mixtures are made from mixtures. */
export const MOST_COMBINATIONS = 256;

const HUNDRED = decimal(100);

/** One combination: for each thing that varies, which of its values is taken. */
export type Combination = ReadonlyMap<object, number>;

/** Gives quantities and mixtures the values of one combination, and notes what can vary. */
export class Choices {
  private readonly ways = new Map<object, number>();

  /** null: everything as written. */
  constructor(private readonly combination: Combination | null = null) {}

  /** A quantity as written, or at the end of its tolerance that this combination takes. */
  quantity(node: QuantityNode): Quantity {
    const { unit } = node.unit;
    const { value } = node.number;
    const half = halfWidth(node);
    if (!half) return { value, unit };
    this.ways.set(node, 2);
    const taken = this.combination?.get(node);
    if (taken === undefined) return { value, unit };
    return { value: taken === 0 ? value.minus(half) : value.plus(half), unit };
  }

  /** A worked-out mixture's contents, or one of its extremes. */
  contents(mixture: WorkedMixture): Contents | null {
    if (mixture.extremes.length === 0) return mixture.contents;
    this.ways.set(mixture, mixture.extremes.length);
    const taken = this.combination?.get(mixture);
    return taken === undefined ? mixture.contents : mixture.extremes[taken]!;
  }

  /** Every combination of what was found to vary; null when there are too many, none when nothing varies. */
  combinations(): readonly Combination[] | null {
    if (this.ways.size === 0) return [];
    let all: Map<object, number>[] = [new Map()];
    for (const [point, ways] of this.ways) {
      if (all.length * ways > MOST_COMBINATIONS) return null;
      all = all.flatMap((one) => Array.from({ length: ways }, (_, taken) => new Map([...one, [point, taken]])));
    }
    return all;
  }
}

/** Half the width of a tolerance, in the quantity's own unit; null without one, or when it measures something else. */
export function halfWidth({ number, unit, tolerance }: QuantityNode): Decimal | null {
  if (!tolerance) return null;
  const given = tolerance.number.value.abs();
  const { unit: of } = tolerance.unit;
  if (of.percent) return number.value.abs().times(given).div(HUNDRED);
  if (!sameDimension(of.dimension, unit.unit.dimension)) return null;
  return given.times(of.factor).div(unit.unit.factor);
}
