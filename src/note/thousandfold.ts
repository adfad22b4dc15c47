/** Milligrams where only grams fit: an amount whose thousandfold is a strength in use, or what a claim asks for. */
import {
  type Contents,
  type Decimal,
  decimal,
  formatQuantity,
  massOf,
  type Substance,
  stockFluids,
} from '../engine/index.ts';
import type { QuantityNode } from '../notation/ast.ts';
import type { NoteFault } from './faults.ts';
import type { WorkedMixture, WorkedStep } from './model.ts';
import { textOf } from './reporter.ts';

/** A line that adds a dry solute by a small mass, alone in bringing it. */
export interface SmallMass {
  readonly step: WorkedStep;
  readonly amount: QuantityNode;
  readonly substance: Substance;
  /** g in 100 mL of the finished mixture. */
  readonly percent: Decimal;
}

const THOUSAND = decimal(1000);
const ONE_PERCENT = decimal('0.01');
/** An amount counts as far below every strength in use from a tenth of the weakest down. */
const FAR_BELOW = decimal('0.1');
const LARGER: Readonly<Record<string, string>> = { ng: 'mcg', mcg: 'mg', mg: 'g' };

/** The lines of a mixture where such a slip can have happened. */
export function smallMasses({ steps }: WorkedMixture, contents: Contents): readonly SmallMass[] {
  return steps.flatMap((step) => {
    const { node, brings } = step;
    if (node.kind !== 'addition' || node.amount?.kind !== 'quantity' || !brings) return [];
    if (!LARGER[node.amount.unit.unit.symbol]) return [];
    const [[substance, mmol] = [], ...more] = [...brings.solutes];
    if (!substance || !mmol || more.length > 0) return [];
    if (steps.some((other) => other !== step && bringsFamily(other, substance.family))) return [];
    const grams = massOf(substance, { in: 'mmol', value: mmol });
    const percent = grams?.times(100).div(contents.volume);
    return percent ? [{ step, amount: node.amount, substance, percent }] : [];
  });
}

function bringsFamily({ brings }: WorkedStep, family: string): boolean {
  return [...(brings?.solutes.keys() ?? [])].some((substance) => substance.family === family);
}

/** The strength in use that a thousand times the amount would give, when the amount is far below every one; else null. */
export function usualStrength({ substance, percent }: SmallMass): string | null {
  const inUse = STRENGTHS.get(substance) ?? [];
  if (inUse.some((strength) => percent.gte(strength.times(FAR_BELOW)))) return null;
  const meant = percent.times(THOUSAND);
  const near = inUse.find((strength) => meant.minus(strength).abs().lte(strength.times(ONE_PERCENT)));
  return near ? formatQuantity(near, '%') : null;
}

/** Strengths in g per 100 mL in which a substance is sold by itself. */
const STRENGTHS: ReadonlyMap<Substance, readonly Decimal[]> = strengthsInUse();

function strengthsInUse(): ReadonlyMap<Substance, readonly Decimal[]> {
  const found = new Map<Substance, Decimal[]>();
  for (const { recipe } of stockFluids()) {
    const [only, ...more] = recipe;
    if (!only || more.length > 0) continue;
    const strength = only.grams.div(10);
    found.set(only.substance, [...(found.get(only.substance) ?? []), strength]);
  }
  return found;
}

export function thousandfoldFault(
  { amount, substance, percent }: SmallMass,
  reason: { readonly usual: string | null; readonly claimed: string | null },
): NoteFault {
  const { number, unit: of } = amount;
  return {
    code: 'thousandfold',
    found: textOf(amount),
    meant: `${number.text} ${LARGER[of.unit.symbol]}`,
    substance: substance.name,
    concentration: percent,
    ...reason,
  };
}
