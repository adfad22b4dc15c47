/** The number of a claim or a target, and what is said when a result cannot be given in its unit. */
import type { Observable, Unit } from '../engine/index.ts';
import type { Block } from '../markdown/note-text.ts';
import type { NumberNode, Span, ValueNode } from '../notation/ast.ts';
import type { Unanswered } from './answer.ts';
import { type Reporter, textOf } from './reporter.ts';

/** A number that is claimed or wanted, with its unit unless it is a ratio. */
export interface AskedNumber {
  readonly span: Span;
  readonly number: NumberNode;
  readonly unit: Unit | null;
  /** As written, with one space before the unit. */
  readonly text: string;
}

/** A quantity, or a bare number for what has no unit. */
export function askedNumber(
  value: ValueNode,
  observable: Observable,
  block: Block,
  report: Reporter,
): AskedNumber | null {
  const { span } = value;
  if (value.kind === 'quantity') return { span, number: value.number, unit: value.unit.unit, text: textOf(value) };
  if (value.kind === 'number' && observable.unit === '') {
    return { span, number: value.number, unit: null, text: value.number.text };
  }
  report.at(span, {
    code: 'wrong-dimension',
    wanted: 'claim',
    of: observable.name,
    found: block.text.slice(span.start, span.end),
    got: null,
    fits: [observable.unit || 'a number without a unit'],
  });
  return null;
}

/** Says why a result cannot be given in what was asked. */
export function reportUnmeasured(
  report: Reporter,
  { span, text: found }: Pick<AskedNumber, 'span' | 'text'>,
  observable: Observable,
  why: Unanswered,
): void {
  switch (why.problem) {
    case 'wrong-dimension':
      report.at(span, {
        code: 'wrong-dimension',
        wanted: 'claim',
        of: observable.name,
        found,
        got: why.got,
        fits: why.fits,
      });
      break;
    case 'elemental-or-salt':
      report.at(span, {
        code: 'wrong-dimension',
        wanted: 'claim',
        of: observable.name,
        found,
        got: { over: 'mass', under: ['volume'] },
        fits: ['mmol/L', `the same of elemental ${observable.name}`],
      });
      break;
    case 'equivalents-of-varying-charge':
      report.at(span, { code: 'varying-charge', found, ion: why.ion.name });
      break;
    case 'not-stated':
      report.at(span, { code: 'not-known', observable: observable.name, of: why.of });
      break;
    case 'no-chloride':
      report.at(span, { code: 'not-known', observable: observable.name, of: 'chloride' });
      break;
    case 'no-estimate':
      report.at(span, { code: 'no-estimate', observable: observable.name, why: why.why });
      break;
    case 'no-such-result':
      report.at(span, {
        code: 'not-of-this',
        observable: observable.name,
        of: observable.of,
        subject: '',
        is: 'mixture',
      });
      break;
    case 'missing-value':
      report.at(span, {
        code: 'missing-patient-value',
        value: why.value,
        patient: why.patient,
        wanted: observable.name,
      });
      break;
    case 'no-result':
      if (why.why === 'withheld') break;
      report.at(span, { code: 'no-result', observable: observable.name, why: why.why });
      break;
  }
}
