/** What the check found that bears on an order or a mixture, and what is to be known of its numbers. */
import { findingsOf } from '../../checks/findings.ts';
import type { Severity } from '../../checks/index.ts';
import { type Finding, messageOf } from '../../checks/index.ts';
import type { SourceSpan } from '../../markdown/note-text.ts';
import type { WorkedNoteModel } from '../../note/index.ts';
import { assumptionText } from '../cards/assumptions.ts';
import { CAUTION_TEXT } from '../cards/caution.ts';
import { takenTexts } from '../cards/order-card.ts';
import type { Lines } from '../lines.ts';
import { madeFrom, placeOf } from '../places.ts';
import { wordingInTerms } from '../terms.ts';
import type { Product } from './product.ts';
import { entityOf, type Subject } from './subject.ts';

export interface OutcomeItem {
  readonly code: string;
  readonly severity: Severity;
  /** Counted from one. */
  readonly line: number;
  readonly message: string;
  /** Found in another order for the same patient. */
  readonly ofAnotherOrder: boolean;
  /** Why the note accepts it; null for what stands open. */
  readonly accepted: string | null;
}

/** Open findings and accepted ones, each in the order of the note. */
export function outcomeOf(subject: Subject, model: WorkedNoteModel, lines: Lines): readonly OutcomeItem[] {
  const own = ownPlaces(subject, model);
  const others = placesOfOthers(subject, model);
  const { open, accepted } = findingsOf(model);
  const within = (places: readonly SourceSpan[], { at }: Finding) =>
    places.some(({ start, end }) => at.start >= start && at.end <= end);
  const about = (finding: Finding) => within(own, finding) || within(others, finding);
  const item = (finding: Finding, reason: string | null): OutcomeItem => ({
    code: finding.code,
    severity: finding.severity,
    line: lines.at(finding.at.start).line + 1,
    message: messageOf(wordingInTerms(finding.wording, model.policy.terms)),
    ofAnotherOrder: !within(own, finding),
    accepted: reason,
  });
  return [
    ...open.filter(about).map((finding) => item(finding, null)),
    ...accepted.filter(({ finding }) => about(finding)).map(({ finding, reason }) => item(finding, reason)),
  ];
}

/** It, what it is made from, and its patient. */
function ownPlaces(subject: Subject, model: WorkedNoteModel): readonly SourceSpan[] {
  const patient = subject.kind === 'order' ? subject.order.patient : null;
  return [...madeFrom(entityOf(subject), model), ...(patient ? [patient.entity] : [])].map(placeOf);
}

/** The patient's other orders count as well, since limits look at all of them together. */
function placesOfOthers(subject: Subject, { orders }: WorkedNoteModel): readonly SourceSpan[] {
  if (subject.kind === 'mixture' || !subject.order.patient) return [];
  const { order } = subject;
  return orders.filter((one) => one !== order && one.patient === order.patient).map(({ entity }) => placeOf(entity));
}

/** What was found, and why the note accepts it if it does. */
export function toldOf({ message, ofAnotherOrder, accepted }: OutcomeItem): string {
  const where = ofAnotherOrder ? 'In another order for the patient: ' : '';
  return `${where}${message}${accepted === null ? '' : ` The note accepts this because ‘${accepted}’.`}`;
}

/** What was taken without being written, a phrase each. */
export function takenFor(subject: Subject, { assumptions }: Product, { policy }: WorkedNoteModel): readonly string[] {
  const ofProduct = assumptions.map((assumption) => assumptionText(assumption, policy.terms));
  const own = subject.kind === 'order' ? takenTexts(subject.order, policy.terms) : ['volumes of liquids add'];
  return [...new Set([...own, ...ofProduct])];
}

/** What is said of every export, a sentence each. `policy`: its file's name, null for none. */
export function remarksOn(
  { fromElsewhere, contents, recipe }: Product,
  taken: readonly string[],
  policy: string | null,
): readonly string[] {
  const takesOut = recipe?.mixture.steps.some(({ node }) => node.kind === 'withdraw' || node.kind === 'exchange');
  const tolerances = recipe && recipe.mixture.extremes.length > 0;
  return [
    `A draft, to be checked by licensed staff; nothing is authorised by it. ${CAUTION_TEXT}`,
    `Taken: ${taken.join('; ')}.`,
    'Numbers of up to 15 significant digits are exact; longer ones are rounded to 9, halves away from zero.',
    policy === null ? 'Checked by the built-in limits.' : `Checked by the built-in limits and ${policy}.`,
    ...(takesOut
      ? [
          'Something is taken out in making it up: each ingredient is told by what is left of it, not by what is put in.',
        ]
      : []),
    ...(tolerances ? ['The note writes tolerances; amounts are those without them.'] : []),
    ...(contents.notStated.length > 0
      ? [
          `Not stated on a label, and so at least as much as is counted: ${contents.notStated.map(({ name }) => name).join(', ')}.`,
        ]
      : []),
    ...(fromElsewhere ? ['What is given stands in another note; what is found there is not told here.'] : []),
  ];
}
