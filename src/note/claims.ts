/** Claims, shows and comparisons: what is asked of a mixture or fluid once it is worked out. */
import {
  atMost,
  type Contents,
  type Decimal,
  decimal,
  effectiveOsmolarity,
  findObservable,
  measure,
  type Observable,
  osmolarity,
  slip,
  type Tonicity,
  times,
  tonicity,
  ZERO,
} from '../engine/index.ts';
import type { Block } from '../markdown/note-text.ts';
import type { ClaimNode, CompareNode, FluidNode, NumberNode, ShowNode, Span, WordValueNode } from '../notation/ast.ts';
import { keyOf, parseFluid } from '../notation/index.ts';
import { halfWidth } from './choices.ts';
import type { FailedClaim } from './faults.ts';
import { type BoundLiquid, FluidBinder, nameOf, type Surroundings } from './fluids.ts';
import type { Entity, Shown, WorkedClaim, WorkedComparison, WorkedMixture, WorkedShow } from './model.ts';
import { ObservableReader, wordStarts } from './observable-reader.ts';
import { rangeOf } from './ranges.ts';
import { type Desk, Reporter, textOf } from './reporter.ts';

/** A claim that is off by no more than this, in percent of it, is how printed labels round. */
const NOMINAL_PERCENT = decimal(5);
const HUNDRED = decimal(100);
const HALF = decimal('0.5');
const LITRE = decimal(1000);
const TONICITIES: readonly Tonicity[] = ['hypotonic', 'isotonic', 'hypertonic'];

interface Subject {
  readonly name: string;
  readonly contents: Contents;
  /** Its contents at each combination of its tolerances. */
  readonly extremes: readonly Contents[];
  /** mL after its first step, before additives; null for a fluid that is no mixture of the note. */
  readonly beforeAdditives: Decimal | null;
}

/** Answers the lines of one scope that ask, in the block they stand in. */
export class Asker {
  private readonly report: Reporter;
  private readonly reader: ObservableReader;

  constructor(
    private readonly block: Block,
    private readonly around: Surroundings,
    desk: Desk,
  ) {
    this.report = new Reporter(block, desk);
    this.reader = new ObservableReader(block, this.report);
  }

  claim(node: ClaimNode, open: Entity | null): WorkedClaim | null {
    if (this.valueIsMissing(node)) return null;
    const asked = this.reader.split(node.subject);
    if (!asked) return null;
    const { observable } = asked;
    if (!this.reader.known(observable, node.subject.span)) return null;
    const subject = this.subject(asked.rest, open, node.subject.span);
    if (!subject) return null;
    if (observable.kind === 'tonicity-bag' || observable.kind === 'tonicity-body') {
      return this.tonicityClaim(node, observable, subject);
    }
    return this.numberClaim(node, observable, subject);
  }

  /** `claim free water`: by shape its last word is a value, by name it belongs to the observable. */
  private valueIsMissing(node: ClaimNode): boolean {
    if (node.value.kind !== 'word') return false;
    const span = { start: node.subject.span.start, end: node.value.span.end };
    const found = this.block.text.slice(span.start, span.end);
    const whole = wordStarts(this.block.text, span).some((start) => {
      const observable = findObservable(keyOf(this.block.text.slice(start, span.end)));
      return observable !== null && start < node.value.span.start;
    });
    if (whole) this.report.at(span, { code: 'syntax', span, problem: 'missing-value', found });
    return whole;
  }

  show(node: ShowNode, open: Entity | null): WorkedShow | null {
    let subject: Subject | null = null;
    const shown: Shown[] = [];
    for (const [index, item] of node.items.entries()) {
      const asked = this.reader.split(item);
      if (!asked) continue;
      if (index === 0 || asked.rest) subject = this.subject(asked.rest, open, item.span);
      if (!subject || !this.reader.known(asked.observable, item.span)) continue;
      const { name, contents, extremes } = subject;
      shown.push({ subject: name, observable: asked.observable, contents, extremes });
    }
    return shown.length > 0 ? { block: this.block, span: node.span, shown } : null;
  }

  compare(node: CompareNode): WorkedComparison | null {
    const observables: Observable[] = [];
    for (const words of node.observables) {
      const observable = this.reader.observable(words);
      if (observable && this.reader.known(observable, words.span)) observables.push(observable);
    }
    const rows: Subject[] = [];
    for (const fluid of node.fluids) {
      const binder = new FluidBinder(this.around, this.report);
      const bound = binder.liquid(fluid);
      if (bound.ok) rows.push(this.subjectOf(fluid, bound));
    }
    return rows.length > 0 && observables.length > 0 ? { node, block: this.block, observables, rows } : null;
  }

  /** What the question is about; null when it is withheld or its fault is reported. */
  private subject(rest: Span | null, open: Entity | null, span: Span): Subject | null {
    if (!rest) {
      if (!open) {
        this.report.at(span, { code: 'misplaced', where: 'question-without-subject' });
        return null;
      }
      const mixture = this.around.worked.get(open);
      return mixture?.contents ? ofMixture(mixture, mixture.contents) : null;
    }
    const fluid = parseFluid(this.block.text, rest);
    if (!fluid) {
      this.report.at(rest, {
        code: 'unknown-name',
        found: this.block.text.slice(rest.start, rest.end).trim(),
        near: [],
      });
      return null;
    }
    const binder = new FluidBinder(this.around, this.report);
    const bound = binder.liquid(fluid);
    return bound.ok ? this.subjectOf(fluid, bound) : null;
  }

  private subjectOf(fluid: FluidNode, bound: BoundLiquid): Subject {
    const own = this.around.scope.names.get(fluid.parts[0].words.key);
    const mixture = own && own !== 'duplicate' && fluid.parts.length === 1 ? this.around.worked.get(own) : null;
    if (mixture?.contents) return ofMixture(mixture, mixture.contents);
    return { name: nameOf(fluid), contents: times(bound.perMl, LITRE), extremes: [], beforeAdditives: null };
  }

  private tonicityClaim(node: ClaimNode, observable: Observable, subject: Subject): WorkedClaim | null {
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
    const level =
      observable.kind === 'tonicity-bag' ? osmolarity(subject.contents) : effectiveOsmolarity(subject.contents);
    const found = tonicity(level, this.around.reference);
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
    const { value } = node;
    if (value.kind !== 'quantity') {
      const got = this.block.text.slice(value.span.start, value.span.end);
      this.report.at(value.span, {
        code: 'wrong-dimension',
        wanted: 'claim',
        of: observable.name,
        found: got,
        got: null,
        fits: [observable.unit],
      });
      return null;
    }
    const measured = measure(subject.contents, observable, value.unit.unit, this.around.reference);
    if (!measured.ok) {
      if (measured.problem === 'elemental-or-salt') {
        this.report.dimension(value, 'claim', observable.name, ['mmol/L', 'mEq/L']);
      } else if (measured.problem === 'wrong-dimension') {
        this.report.dimension(value, 'claim', observable.name, measured.fits);
      } else this.reader.known({ ...observable, known: false }, node.subject.span);
      return null;
    }
    const claimed = value.number.value;
    const margin = this.margin(node);
    if (!margin) return null;
    const range = rangeOf(subject, observable, value.unit.unit, this.around.reference);
    const [low, high] = range ?? [measured.value, measured.value];
    const holds = atMost(low.minus(margin.allowed), claimed) && atMost(claimed, high.plus(margin.allowed));
    if (!holds) this.failed(node, observable, subject, measured.value, range, margin.written);
    return {
      node,
      block: this.block,
      subject: subject.name,
      observable,
      outcome: { kind: 'number', claimed, found: measured.value, unit: value.unit.unit, holds },
    };
  }

  /** How far a result may lie from the claim: as written after `within` or `±`, else half a unit of the last place. */
  private margin({ within, value }: ClaimNode): { allowed: Decimal; written: boolean } | null {
    if (value.kind !== 'quantity') return null;
    const tolerance = within ?? value.tolerance;
    if (!tolerance) return { allowed: halfUnit(value.number), written: false };
    const held = { ...value, tolerance };
    this.report.tolerance(held);
    const allowed = halfWidth(held);
    return allowed && { allowed, written: true };
  }

  private failed(
    node: ClaimNode,
    observable: Observable,
    subject: Subject,
    found: Decimal,
    range: readonly [Decimal, Decimal] | null,
    written: boolean,
  ): void {
    const value = node.value as Extract<ClaimNode['value'], { kind: 'quantity' }>;
    const claimed = value.number.value;
    const offBy = claimed.isZero() ? HUNDRED : found.minus(claimed).div(claimed).abs().times(HUNDRED);
    const claim: FailedClaim = {
      name: subject.name,
      observable,
      claimed,
      claimedText: textOf(value),
      found,
      range,
      unit: value.unit.unit,
      offBy,
    };
    if (!written && atMost(offBy, NOMINAL_PERCENT)) {
      this.report.at(value.span, { code: 'nominal-claim', claim });
      return;
    }
    const context = {
      contents: subject.contents,
      observable,
      unit: value.unit.unit,
      halfUnit: halfUnit(value.number),
      ...(subject.beforeAdditives ? { volumeBeforeAdditives: subject.beforeAdditives } : {}),
    };
    this.report.at(value.span, { code: 'claim-mismatch', claim, slip: slip(claimed, found, context) });
  }
}

function ofMixture(mixture: WorkedMixture, contents: Contents): Subject {
  const { name, extremes } = mixture;
  return { name, contents, extremes, beforeAdditives: mixture.steps[0]?.after.volume ?? null };
}

/** Half a unit of the last place written; nothing for a fraction, which is exact. */
function halfUnit({ decimals }: NumberNode): Decimal {
  return decimals === null ? ZERO : HALF.times(decimal(`1e-${decimals}`));
}
