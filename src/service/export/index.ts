/** One order or mixture of a note written out for other programs, or in words why it is not. */
import { findingOf, messageOf } from '../../checks/index.ts';
import { readNote } from '../../markdown/index.ts';
import { parseBlock } from '../../notation/index.ts';
import { type Policy, type UsedNotes, type WorkedNoteModel, workNote } from '../../note/index.ts';
import { Lines } from '../lines.ts';
import { wordingInTerms } from '../terms.ts';
import { bundleText } from './bundle.ts';
import type { Uuid } from './entries.ts';
import { outcomeOf, remarksOn, takenFor } from './outcome.ts';
import { type Product, productOfMixture, productOfOrder } from './product.ts';
import { type Subject, subjectOf } from './subject.ts';
import { tableText } from './table.ts';

export interface ExportAsked {
  readonly name: string;
  /** A Bundle of HL7 FHIR R4 in JSON, or a table of RFC 4180. */
  readonly format: 'fhir' | 'csv';
  /** Where the note lies; it is not told, and tells notes with the same words apart. */
  readonly path: string;
  /** The name of the policy's file; null: there is none. */
  readonly policyFile: string | null;
  readonly uuid: Uuid;
}

export type Exported =
  | { readonly ok: true; readonly text: string }
  /** `withheld`: it is there, and has no results or an error open. A clause without a capital letter or a full stop. */
  | { readonly ok: false; readonly withheld: boolean; readonly reason: string };

/** The same note under the same policy gives the same text. */
export function exportOf(source: string, asked: ExportAsked, policy: Policy, used: UsedNotes): Exported {
  const model = workNote(readNote(source), parseBlock, policy, used);
  const lines = new Lines(source);
  const subject = subjectOf(model, asked.name, lines);
  if ('reason' in subject) return { ok: false, withheld: false, reason: subject.reason };
  const outcome = outcomeOf(subject, model, lines);
  const product = productOf(subject, model);
  const error = outcome.find(({ severity }) => severity === 'error');
  if (error || !product) {
    const why = error
      ? `an error stands open in line ${error.line} (${error.code}): ${error.message}`
      : whyWithheld(subject, model, lines);
    return { ok: false, withheld: true, reason: `‘${asked.name}’ is not written out, since ${why}` };
  }
  const remarks = remarksOn(product, takenFor(subject, product, model), asked.policyFile);
  const parts = { subject, product, outcome, remarks };
  const text =
    asked.format === 'fhir'
      ? bundleText({ ...parts, place: `${asked.path}\n${source}`, uuid: asked.uuid })
      : tableText({ ...parts, model });
  return { ok: true, text };
}

/** null: it has no results. */
function productOf(subject: Subject, model: WorkedNoteModel): Product | null {
  if (subject.kind === 'mixture') {
    const { mixture } = subject;
    return mixture.contents && productOfMixture(mixture, mixture.contents);
  }
  const { order } = subject;
  return order.perMl && productOfOrder(order, order.perMl, model);
}

function whyWithheld(subject: Subject, { faults, policy }: WorkedNoteModel, lines: Lines): string {
  const { state, cause } = subject.kind === 'order' ? subject.order : subject.mixture;
  const place = cause ?? { start: 0, end: 0 };
  const located = faults.find(({ at }) => at.start >= place.start && at.end <= place.end);
  const words = located ? `: ${messageOf(wordingInTerms(findingOf(located).wording, policy.terms))}` : '';
  const until = state === 'unsolved' ? 'an amount of it is not solved for' : 'it has no results';
  return `${until} until line ${lines.at(place.start).line + 1} is mended${words}`;
}
