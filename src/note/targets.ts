/** Targets: the observables that unknown amounts have to meet, solved for and explained when they cannot be. */
import {
  amountOfIon,
  type Contents,
  closed,
  contentsAt,
  type Decimal,
  decimal,
  findIon,
  measurable,
  mix,
  nearlyEqual,
  type Observable,
  type ObservableKind,
  ONE,
  type OpenStep,
  type Residual,
  solve,
  type Unit,
  ZERO,
} from '../engine/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { ClaimNode } from '../notation/ast.ts';
import { type AskedNumber, askedNumber, reportUnmeasured } from './asked-number.ts';
import type { Unreachable } from './faults.ts';
import type { Surroundings } from './fluids.ts';
import type { Entity, Solved } from './model.ts';
import { ObservableReader } from './observable-reader.ts';
import { resultOf } from './ranges.ts';
import type { Reporter } from './reporter.ts';
import type { BoundUnknown } from './steps.ts';

export type Answer =
  | {
      readonly ok: true;
      readonly amounts: readonly Decimal[];
      readonly solved: readonly Solved[];
      /** Targets beyond the number of unknowns: they are checked as claims. */
      readonly surplus: readonly ClaimNode[];
    }
  | { readonly ok: false; readonly cause: SourceSpan };

interface BoundTarget extends AskedNumber {
  readonly observable: Observable;
}

const CHLORIDE = findIon('chloride')!;

/** Amounts beyond any bag, where a mixture is as good as its last addition alone, in the unknown's own unit. */
const EVER_SO_MUCH = decimal('1e9');
const HALVINGS = 120;
/** Words, models and ratios: not linear in the amounts, or without a unit. */
const NOT_PROPORTIONAL: ReadonlySet<ObservableKind> = new Set([
  'tonicity-bag',
  'tonicity-body',
  'osmolality',
  'freezing-point',
  'density',
]);

/** Whether an amount can be solved for from it. */
export function canBeTarget({ kind }: Observable): boolean {
  return !NOT_PROPORTIONAL.has(kind);
}

export class TargetSolver {
  constructor(
    private readonly entity: Entity,
    private readonly steps: readonly OpenStep[],
    private readonly unknowns: readonly BoundUnknown[],
    private readonly around: Surroundings,
    private readonly report: Reporter,
  ) {}

  answer(nodes: readonly ClaimNode[]): Answer {
    const { unknowns, report } = this;
    if (unknowns.length === 0) return { ok: true, amounts: [], solved: [], surplus: nodes };
    if (nodes.length < unknowns.length) {
      const { cause } = report.at(unknowns[nodes.length]!.span, {
        code: 'too-few-targets',
        unknowns: unknowns.length,
        targets: nodes.length,
      });
      return { ok: false, cause };
    }
    const targets: BoundTarget[] = [];
    for (const node of nodes.slice(0, unknowns.length)) {
      const target = this.target(node);
      if ('cause' in target) return { ok: false, cause: target.cause };
      targets.push(target);
    }
    const solution = solve(
      this.steps,
      unknowns.length,
      targets.map((target) => this.residual(target)),
    );
    if (!solution.ok) return this.unreachable(targets[0]!, { kind: 'undetermined' });
    const amounts = solution.amounts.map((amount) => (nearlyEqual(amount, ZERO) ? ZERO : amount));
    const mixed = mix(closed(this.steps, amounts));
    const impossible = amounts.some((amount) => amount.isNegative()) || mixed.fault || mixed.contents.volume.lte(0);
    if (impossible) return this.outside(targets, amounts);
    return {
      ok: true,
      amounts,
      solved: this.solved(targets, amounts),
      surplus: nodes.slice(unknowns.length),
    };
  }

  private target(node: ClaimNode): BoundTarget | { cause: SourceSpan } {
    const reader = new ObservableReader(this.entity.block, this.report, this.around);
    const asked = reader.split(node.subject);
    const cause = this.report.place(node.span);
    const name = this.entity.name?.text ?? '';
    if (!asked || !reader.suits(asked.observable, node.subject.span, { name, is: 'mixture' })) return { cause };
    if (asked.rest) return this.report.at(asked.rest, { code: 'misplaced', where: 'target-of-another' });
    const { observable } = asked;
    if (!canBeTarget(observable)) {
      return this.report.at(node.subject.span, { code: 'no-target', observable: observable.name });
    }
    const number = askedNumber(node.value, observable, this.entity.block, this.report);
    if (!number) return { cause };
    const some = contentsAt(
      this.steps,
      this.unknowns.map(() => ONE),
    );
    const measured = resultOf(some, observable, number.unit, this.around.policy.reference);
    if (measured.ok) return { ...number, observable };
    reportUnmeasured(this.report, number, observable, measured);
    return { cause: this.report.place(number.span) };
  }

  /**
   * Zero where the target is met, and linear in the contents: `amount − target × volume` for a concentration,
   * `amount − target` for a total, `(ratio − target) × chloride` for the ratio of sodium to chloride.
   */
  private residual({ observable, unit, number }: BoundTarget): Residual {
    return (contents) => {
      const missing = this.value(contents, observable, unit).minus(number.value);
      if (!unit) return missing.times(amountOfIon(contents, CHLORIDE));
      return unit.dimension.under.includes('volume') ? missing.times(contents.volume) : missing;
    };
  }

  private value(contents: Contents, observable: Observable, unit: Unit | null): Decimal {
    const found = resultOf(contents, observable, unit, this.around.policy.reference);
    return found.ok ? found.value : ZERO;
  }

  private solved(targets: readonly BoundTarget[], amounts: readonly Decimal[]): Solved[] {
    const rounded = this.unknowns.map(({ unit }, index) => {
      const value = amounts[index]!;
      if (!unit) return { value: value.toDecimalPlaces(0), with: 'whole ones' };
      return measurable({ value, unit });
    });
    const asMeasured = contentsAt(
      this.steps,
      rounded.map((amount, index) => amount?.value ?? amounts[index]!),
    );
    const costs = targets.map(({ observable, unit }) => ({
      observable,
      unit,
      value: asMeasured.volume.isZero() ? ZERO : this.value(asMeasured, observable, unit),
    }));
    return this.unknowns.map(({ span, line, unit }, index) => ({
      span,
      line,
      unit,
      value: amounts[index]!,
      measured: rounded[index] ?? null,
      asMeasured: costs,
    }));
  }

  /** No amounts that can be measured out: with one unknown, the range that it can reach is said. */
  private outside(targets: readonly BoundTarget[], amounts: readonly Decimal[]): Answer {
    const [target] = targets;
    if (this.unknowns.length > 1 || !target) {
      const below = amounts.findIndex((amount) => amount.isNegative());
      if (below < 0) return this.unreachable(targets[0]!, { kind: 'no-room' });
      const unit = this.unknowns[below]!.unit?.symbol ?? null;
      return this.unreachable(targets[0]!, { kind: 'negative', value: amounts[below]!, unit });
    }
    const from = this.reached(target, ZERO);
    const to = this.reached(target, this.most());
    return this.unreachable(target, { kind: 'outside', from, to, unit: target.unit?.symbol ?? null });
  }

  /** The largest amount of the one unknown with which every step can be carried out. */
  private most(): Decimal {
    const possible = (amount: Decimal) => mix(closed(this.steps, [amount])).fault === null;
    if (possible(EVER_SO_MUCH)) return EVER_SO_MUCH;
    let [low, high] = [ZERO, EVER_SO_MUCH];
    for (let halving = 0; halving < HALVINGS; halving++) {
      const middle = low.plus(high).div(2);
      if (possible(middle)) low = middle;
      else high = middle;
    }
    return low;
  }

  private reached(target: BoundTarget, amount: Decimal): Decimal | null {
    const contents = contentsAt(this.steps, [amount]);
    return contents.volume.lte(0) ? null : this.value(contents, target.observable, target.unit);
  }

  private unreachable(target: BoundTarget, reason: Unreachable): Answer {
    const { name } = target.observable;
    const { cause } = this.report.at(target.span, {
      code: 'target-unreachable',
      observable: name,
      wanted: target.text,
      reason,
    });
    return { ok: false, cause };
  }
}
