/** Holds a claim against what its subject works out at. */
import {
  atMost,
  type Decimal,
  decimal,
  effectiveOsmolarity,
  type Observable,
  osmolarity,
  slip,
  type Tonicity,
  tonicity,
  ZERO,
} from '../engine/index.ts';
import type { Block } from '../markdown/note-text.ts';
import type { ClaimNode, NumberNode, QuantityNode, WordValueNode } from '../notation/ast.ts';
import type { Subject } from './answer.ts';
import { type AskedNumber, askedNumber, reportUnmeasured } from './asked-number.ts';
import { halfWidth } from './choices.ts';
import type { FailedClaim } from './faults.ts';
import type { WorkedClaim } from './model.ts';
import type { Policy } from './policy.ts';
import type { Held } from './ranges.ts';
import { type Reporter, textOf } from './reporter.ts';
import { type SmallMass, smallMasses, thousandfoldFault, usualStrength } from './thousandfold.ts';

const HUNDRED = decimal(100);
const HALF = decimal('0.5');
const TONICITIES: readonly Tonicity[] = ['hypotonic', 'isotonic', 'hypertonic'];

export class Judge {
  constructor(
    private readonly block: Block,
    private readonly report: Reporter,
    private readonly policy: Policy,
  ) {}

  claim(node: ClaimNode, observable: Observable, subject: Subject): WorkedClaim | null {
    return subject.held && (observable.kind === 'tonicity-bag' || observable.kind === 'tonicity-body')
      ? this.tonicityClaim(node, observable, subject, subject.held)
      : this.numberClaim(node, observable, subject);
  }

  private tonicityClaim(
    node: ClaimNode,
    observable: Observable,
    subject: Subject,
    { contents }: Held,
  ): WorkedClaim | null {
    const claimed =
      node.value.kind === 'word' ? TONICITIES.find((word) => word === (node.value as WordValueNode).words.key) : null;
    if (!claimed) {
      this.report.at(node.value.span, {
        code: 'wrong-dimension',
        wanted: 'claim',
        of: observable.name,
        found: this.block.text.slice(node.value.span.start, node.value.span.end),
        got: node.value.kind === 'quantity' ? node.value.unit.unit.dimension : null,
        fits: TONICITIES,
      });
      return null;
    }
    const level = observable.kind === 'tonicity-bag' ? osmolarity(contents) : effectiveOsmolarity(contents);
    const found = tonicity(level, this.policy.reference);
    if (found !== claimed) {
      const { name } = subject;
      this.report.at(node.value.span, {
        code: 'tonicity-mismatch',
        observable,
        name,
        claimed,
        found,
        osmolarity: level,
      });
    }
    return {
      node,
      block: this.block,
      subject: subject.name,
      observable,
      outcome: { kind: 'tonicity', claimed, found, osmolarity: level },
    };
  }

  private numberClaim(node: ClaimNode, observable: Observable, subject: Subject): WorkedClaim | null {
    const claimed = askedNumber(node.value, observable, this.block, this.report);
    if (!claimed) return null;
    const { unit, number } = claimed;
    const measured = subject.answer(observable, unit);
    if (!measured.ok) {
      reportUnmeasured(this.report, claimed, observable, measured);
      return null;
    }
    const margin = this.margin(node, number);
    if (!margin) return null;
    const { range } = measured;
    const [low, high] = range ?? [measured.value, measured.value];
    const holds = atMost(low.minus(margin.allowed), number.value) && atMost(number.value, high.plus(margin.allowed));
    if (!holds) this.failed(claimed, observable, subject, measured.value, range, margin.written);
    return {
      node,
      block: this.block,
      subject: subject.name,
      observable,
      outcome: { kind: 'number', claimed: number.value, found: measured.value, unit, range, holds },
    };
  }

  /** How far a result may lie from the claim: as written after `within` or `±`, else half a unit of the last place. */
  private margin({ within, value }: ClaimNode, number: NumberNode): { allowed: Decimal; written: boolean } | null {
    const tolerance = within ?? (value.kind === 'quantity' ? value.tolerance : null);
    if (!tolerance) return { allowed: halfUnit(number), written: false };
    if (value.kind !== 'quantity') {
      const percent = tolerance.unit.unit.percent;
      const allowed = number.value.abs().times(tolerance.number.value.abs()).div(HUNDRED);
      if (percent) return { allowed, written: true };
      this.report.at(tolerance.span, {
        code: 'wrong-dimension',
        wanted: 'tolerance',
        of: number.text,
        found: textOf(tolerance),
        got: tolerance.unit.unit.dimension,
        fits: ['%'],
      });
      return null;
    }
    const held: QuantityNode = { ...value, tolerance };
    this.report.tolerance(held);
    const allowed = halfWidth(held);
    return allowed && { allowed, written: true };
  }

  private failed(
    { span, number, unit, text }: AskedNumber,
    observable: Observable,
    subject: Subject,
    found: Decimal,
    range: readonly [Decimal, Decimal] | null,
    written: boolean,
  ): void {
    const { value } = number;
    const offBy = value.isZero() ? HUNDRED : found.minus(value).div(value).abs().times(HUNDRED);
    const claim: FailedClaim = {
      name: subject.name,
      observable,
      claimed: value,
      claimedText: text,
      found,
      range,
      unit,
      written: { text: this.block.text.slice(span.start, span.end), number },
      offBy,
    };
    if (!written && atMost(offBy, this.policy.claimTolerance)) {
      this.report.at(span, { code: 'nominal-claim', claim });
      return;
    }
    if (!subject.held) {
      this.report.at(span, { code: 'claim-mismatch', claim, slip: null });
      return;
    }
    const context = {
      contents: subject.held.contents,
      observable,
      halfUnit: halfUnit(number),
      ...(unit && { unit }),
      ...(subject.beforeAdditives && { volumeBeforeAdditives: subject.beforeAdditives }),
    };
    const named = slip(value, found, context);
    if (named?.factor === 'thousand' && value.gt(found) && this.blamed(subject, observable, text)) return;
    this.report.at(span, { code: 'claim-mismatch', claim, slip: named });
  }

  /** A claim that is a thousand times what was found, with one small mass that accounts for it: the slip is there. */
  private blamed({ mixture, held }: Subject, observable: Observable, claimed: string): boolean {
    if (!held || mixture?.entity.block !== this.block) return false;
    const accountsFor = ({ substance }: SmallMass) =>
      substance.family === observable.substance?.family ||
      substance.gives.some(({ particle }) => observable.ion?.forms.includes(particle));
    const [small, ...more] = smallMasses(mixture, held.contents).filter(accountsFor);
    if (!small || more.length > 0) return false;
    if (!usualStrength(small)) this.report.at(small.amount.span, thousandfoldFault(small, { usual: null, claimed }));
    return true;
  }
}

/** Half a unit of the last place written; nothing for a fraction, which is exact. */
export function halfUnit({ decimals }: NumberNode): Decimal {
  return decimals === null ? ZERO : HALF.times(decimal(`1e-${decimals}`));
}
