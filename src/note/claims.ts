/** Claims, shows and comparisons: what is asked of mixtures, fluids, orders and patients once they are worked out. */
import { type Contents, findObservable, type Observable, type SubjectKind, type Unit, unit } from '../engine/index.ts';
import type { Block } from '../markdown/note-text.ts';
import type { ClaimNode, CompareNode, ShowNode, Span } from '../notation/ast.ts';
import { keyOf, parseFluid } from '../notation/index.ts';
import type { Answer, Subject } from './answer.ts';
import { FluidBinder, type Surroundings } from './fluids.ts';
import { Judge } from './judge.ts';
import type { Lookups } from './lookups.ts';
import type { Entity, Shown, WorkedClaim, WorkedComparison, WorkedMixture, WorkedShow } from './model.ts';
import { ObservableReader, wordStarts } from './observable-reader.ts';
import { orderUnit } from './orders/all-results.ts';
import { type Desk, Reporter } from './reporter.ts';
import { toldShare } from './result-text.ts';
import { ofFluid, ofMixture, ofOrder, ofPatient } from './subjects.ts';

/** Answers the lines of one scope that ask, in the block they stand in. */
export class Asker {
  private readonly report: Reporter;
  private readonly reader: ObservableReader;

  constructor(
    private readonly block: Block,
    private readonly around: Lookups & Surroundings,
    desk: Desk,
  ) {
    this.report = new Reporter(block, desk);
    this.reader = new ObservableReader(block, this.report, around);
  }

  claim(node: ClaimNode, open: Entity | null): WorkedClaim | null {
    if (this.valueIsMissing(node)) return null;
    const asked = this.reader.split(node.subject);
    if (!asked) return null;
    const { observable } = asked;
    const subject = this.subject(asked.rest, open, node.subject.span);
    if (!subject || !this.reader.suits(observable, node.subject.span, subject)) return null;
    return new Judge(this.block, this.report, this.around.policy).claim(node, observable, subject);
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
    const shown = this.answers(node.items, open).filter((answer) => answer !== null);
    const { question, span } = node;
    return shown.length > 0 ? { block: this.block, span, open, question: question?.text ?? null, shown } : null;
  }

  /** Item by item; null where an answer is withheld, or its fault is reported. */
  answers(items: ShowNode['items'], open: Entity | null): readonly (Shown | null)[] {
    let subject: Subject | null = null;
    return items.map((item, index) => {
      const asked = this.reader.split(item);
      if (!asked) return null;
      if (index === 0 || asked.rest) subject = this.subject(asked.rest, open, item.span);
      if (!subject || !this.reader.suits(asked.observable, item.span, subject)) return null;
      return shownOf(subject, asAdded(asked.observable, subject.contents));
    });
  }

  compare(node: CompareNode): WorkedComparison | null {
    const observables: Observable[] = [];
    for (const words of node.observables) {
      const observable = this.reader.observable(words);
      if (observable && this.reader.suits(observable, words.span, COMPARED)) observables.push(observable);
    }
    const rows: WorkedComparison['rows'][number][] = [];
    for (const fluid of node.fluids) {
      const bound = new FluidBinder(this.around, this.report).liquid(fluid);
      if (!bound.ok) continue;
      const mixture = this.mixture(fluid.span);
      const { reference } = this.around.policy;
      const subject = mixture?.contents
        ? ofMixture(mixture, mixture.contents, reference)
        : ofFluid(fluid, bound, reference);
      if (subject.held) rows.push({ name: subject.name, ...subject.held });
    }
    return rows.length > 0 && observables.length > 0 ? { node, block: this.block, observables, rows } : null;
  }

  /** What the question is about; null when it is withheld or its fault is reported. */
  private subject(rest: Span | null, open: Entity | null, span: Span): Subject | null {
    if (rest) return this.written(rest);
    if (open && open.kind !== 'substance') return this.ofEntity(open);
    this.report.at(span, { code: 'misplaced', where: 'question-without-subject' });
    return null;
  }

  private ofEntity(entity: Entity): Subject | null {
    if (entity.kind === 'give') {
      const order = this.around.orders.get(entity);
      return order?.state === 'complete' ? ofOrder(order, this.around.scene(order)) : null;
    }
    if (entity.kind === 'patient') {
      const patient = this.around.patients.get(entity);
      return patient?.state === 'complete' ? ofPatient(patient, this.around.scene(patient)) : null;
    }
    const mixture = this.around.worked.get(entity);
    return mixture?.contents ? ofMixture(mixture, mixture.contents, this.around.policy.reference) : null;
  }

  /** A name of the note, or a fluid written out; null when it is withheld or its fault is reported. */
  written(span: Span): Subject | null {
    const named = this.named(span);
    if (named && named.kind !== 'substance') {
      if (named.kind !== 'mixture' && named.kind !== 'stock') {
        this.report.mention(span, { kind: named.kind === 'give' ? 'order' : 'patient', entity: named });
        return this.ofEntity(named);
      }
      const mixture = this.around.worked.get(named);
      if (mixture?.contents) {
        this.report.mention(span, { kind: 'mixture', entity: named });
        return ofMixture(mixture, mixture.contents, this.around.policy.reference);
      }
    }
    const used = named ? null : this.used(span);
    if (used?.mixture.contents) {
      this.report.mention(span, { kind: 'used', ...used });
      return ofMixture(used.mixture, used.mixture.contents, this.around.policy.reference);
    }
    const fluid = parseFluid(this.block.text, span);
    if (!fluid) {
      const found = this.block.text.slice(span.start, span.end).trim();
      this.report.at(span, { code: 'unknown-name', found, near: [] });
      return null;
    }
    const bound = new FluidBinder(this.around, this.report).liquid(fluid);
    return bound.ok ? ofFluid(fluid, bound, this.around.policy.reference) : null;
  }

  private named({ start, end }: Span): Entity | null {
    const own = this.around.scope.names.get(keyOf(this.block.text.slice(start, end)));
    return own && own !== 'duplicate' ? own : null;
  }

  /** A mixture or stock of another note; the note's own names are not among them. */
  private used({ start, end }: Span): { readonly mixture: WorkedMixture; readonly from: string } | null {
    const found = this.around.imports.get(keyOf(this.block.text.slice(start, end)));
    return found?.kind === 'fluid' ? { mixture: found.mixture, from: found.from } : null;
  }

  private mixture(span: Span): WorkedMixture | null {
    const named = this.named(span);
    return (named ? this.around.worked.get(named) : this.used(span)?.mixture) ?? null;
  }
}

/** Comparisons set fluids side by side. */
const COMPARED: { readonly name: string; readonly is: SubjectKind } = { name: '', is: 'mixture' };

/** What was added in units alone is told in units: they are never converted, and its mass is not nothing. */
function asAdded(observable: Observable, contents: Contents | null): Observable {
  const { substance } = observable;
  const inUnits = substance && contents?.activities.has(substance) && !contents.masses.has(substance);
  return inUnits ? { ...observable, unit: 'units/mL', total: 'units' } : observable;
}

/** The result in its own unit: of a mixture per litre, of an order in all. */
function shownOf(subject: Subject, observable: Observable): Shown {
  const symbol = subject.is === 'order' ? orderUnit(observable) : observable.unit;
  const of: Unit | null = symbol ? unit(symbol) : null;
  const answer = withoutTrace(subject.answer(observable, of), subject, observable);
  return { subject: subject.name, observable, held: subject.held, unit: of, answer };
}

/** Saline 0.9 % has 154.0 mmol/L to the last digit that is told: the trace of free water that it takes in all is none. */
function withoutTrace(answer: Answer, { is, contents }: Subject, { kind }: Observable): Answer {
  const isShare = is === 'order' && (kind === 'free-water' || kind === 'cells');
  return answer.ok && contents && isShare ? { ...answer, value: toldShare(answer.value, contents.volume) } : answer;
}
