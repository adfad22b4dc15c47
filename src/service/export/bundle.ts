/** An order or a mixture as an HL7 FHIR R4 (4.0.1) Bundle, in JSON. */
import { type Json, jsonText } from '../../render/exact-json.ts';
import { Entries, type Resource, type Uuid } from './entries.ts';
import { type Fact, factsOf } from './facts.ts';
import { medication } from './medications.ts';
import { type OutcomeItem, toldOf } from './outcome.ts';
import type { Product } from './product.ts';
import { request } from './request.ts';
import type { Subject } from './subject.ts';
import { clean, concept, narrative } from './texts.ts';
import { quantity } from './ucum.ts';

export interface BundleParts {
  readonly subject: Subject;
  readonly product: Product;
  readonly outcome: readonly OutcomeItem[];
  /** Sentences on the whole of it. */
  readonly remarks: readonly string[];
  /** The note and where it lies. */
  readonly place: string;
  readonly uuid: Uuid;
}

export function bundleText({ subject, product, outcome, remarks, place, uuid }: BundleParts): string {
  const entries = new Entries(place, uuid);
  const medicationReference = medication(entries, product);
  if (subject.kind === 'mixture') {
    entries.own(operationOutcome(outcome, remarks, subject));
    return jsonText(entries.bundle());
  }
  const { order } = subject;
  const patient = { type: 'Patient', display: order.patient ? NOT_IDENTIFIED : NO_PATIENT };
  const facts = order.patient ? factsOf(order.patient) : [];
  const observations = facts.map((fact) => entries.own(observation(fact, patient)));
  entries.own(operationOutcome(outcome, remarks, subject));
  const notes = [...remarks, ...outcome.filter(({ severity }) => severity === 'warning').map(findingText)];
  entries.own(request(order, product.name, { medicationReference, subject: patient, observations, notes }));
  return jsonText(entries.bundle());
}

const NOT_IDENTIFIED = 'The patient of the note, not identified here';
const NO_PATIENT = 'The note names no patient';

/** A value that the note writes: when and by whom it was measured is not known. */
function observation({ name, value, unit, loinc }: Fact, subject: Json): Resource {
  const coding = loinc ? [{ system: 'http://loinc.org', ...loinc }] : undefined;
  return {
    resourceType: 'Observation',
    status: 'unknown',
    code: { coding, text: name },
    subject,
    valueQuantity: quantity(value, unit),
  };
}

/** FHIR has no severity below information. */
const SEVERITIES = { error: 'error', warning: 'warning', information: 'information', hint: 'information' } as const;

function operationOutcome(outcome: readonly OutcomeItem[], remarks: readonly string[], subject: Subject): Resource {
  const found = outcome.map((item) => ({
    severity: SEVERITIES[item.severity],
    code: item.severity === 'warning' ? 'business-rule' : 'informational',
    details: concept(toldOf(item)),
    diagnostics: clean(`line ${item.line}: ${item.code}`),
  }));
  const nothing = {
    severity: 'information',
    code: 'informational',
    details: concept(
      subject.kind === 'order'
        ? 'Checked: nothing was found in the order, its patient, the other orders for the patient, and what is given.'
        : 'Checked: nothing was found in the mixture and what it is made from.',
    ),
  };
  const said = remarks.map((text) => ({ severity: 'information', code: 'informational', details: concept(text) }));
  return {
    resourceType: 'OperationOutcome',
    text: narrative([...outcome.map(findingText), ...remarks]),
    issue: [...(found.length > 0 ? found : [nothing]), ...said],
  };
}

function findingText(item: OutcomeItem): string {
  return `Found by the check in line ${item.line}, ${item.code}: ${toldOf(item)}`;
}
