/** Claims, shows and comparisons: what is asked of a mixture or fluid once it is worked out. */
import { type Contents, decimal, findObservable, type Observable, times } from '../engine/index.ts';
import type { Block } from '../markdown/note-text.ts';
import type { ClaimNode, CompareNode, FluidNode, ShowNode, Span } from '../notation/ast.ts';
import { keyOf, parseFluid } from '../notation/index.ts';
import { type BoundLiquid, FluidBinder, nameOf, type Surroundings } from './fluids.ts';
import { Judge, type Subject } from './judge.ts';
import type { Entity, Shown, WorkedClaim, WorkedComparison, WorkedMixture, WorkedShow } from './model.ts';
import { ObservableReader, wordStarts } from './observable-reader.ts';
import { type Desk, Reporter } from './reporter.ts';

const LITRE = decimal(1000);

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
    this.reader = new ObservableReader(block, this.report, around.own);
  }

  claim(node: ClaimNode, open: Entity | null): WorkedClaim | null {
    if (this.valueIsMissing(node)) return null;
    const asked = this.reader.split(node.subject);
    if (!asked) return null;
    const { observable } = asked;
    if (!this.reader.known(observable, node.subject.span)) return null;
    const subject = this.subject(asked.rest, open, node.subject.span);
    if (!subject) return null;
    return new Judge(this.block, this.report, this.around.reference).claim(node, observable, subject);
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
      if (!open || open.kind === 'substance') {
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
    return {
      name: nameOf(fluid),
      contents: times(bound.perMl, LITRE),
      extremes: [],
      beforeAdditives: null,
      mixture: null,
    };
  }
}

function ofMixture(mixture: WorkedMixture, contents: Contents): Subject {
  const { name, extremes } = mixture;
  return { name, contents, extremes, beforeAdditives: mixture.steps[0]?.after.volume ?? null, mixture };
}
