/** The card of what a word stands for, wherever the word is. */
import { findingOf, messageOf } from '../checks/index.ts';
import type { SourceSpan } from '../markdown/note-text.ts';
import type { Entity, Mention, WorkedMixture, WorkedNoteModel, WorkedOrder, WorkedPatient } from '../note/index.ts';
import type { Tree } from '../text/tree.ts';
import { ionFacts, substanceFacts } from './cards/line-cards.ts';
import { fluidCard, mixtureCard, usedCard, withheldCard } from './cards/mixture-card.ts';
import { orderCard, withheldOrderCard } from './cards/order-card.ts';
import { patientCard } from './cards/patient-card.ts';
import type { Lines } from './lines.ts';
import { sceneIn } from './orders.ts';
import { wordingInTerms } from './terms.ts';

export class Facts {
  constructor(
    private readonly model: WorkedNoteModel,
    private readonly lines: Lines,
  ) {}

  of(what: Mention['of']): readonly Tree[] {
    const { terms } = this.model.policy;
    switch (what.kind) {
      case 'substance':
        return substanceFacts(what, terms);
      case 'ion':
        return ionFacts(what.ion);
      case 'fluid':
        return fluidCard(what.name, what.perMl, this.model.policy);
      case 'used':
        return usedCard(what.mixture, what.from, this.model.policy);
      default:
        return this.entity(what.entity);
    }
  }

  /** Of a mixture, stock, patient or order of the note; nothing of others, and of a patient who is withheld. */
  entity(entity: Entity): readonly Tree[] {
    const same = (worked: { readonly entity: Entity }) => worked.entity === entity;
    const mixture = this.model.mixtures.find(same);
    if (mixture) return this.mixture(mixture);
    const patient = this.model.patients.find(same);
    if (patient) return this.patient(patient);
    const order = this.model.orders.find(same);
    return order ? this.order(order) : [];
  }

  mixture(mixture: WorkedMixture): readonly Tree[] {
    if (mixture.contents) return mixtureCard(mixture, mixture.contents, this.model.policy);
    const cause = mixture.cause ?? { start: 0, end: 0 };
    return withheldCard(mixture, this.lines.at(cause.start).line + 1, this.messageAt(cause));
  }

  order(order: WorkedOrder): readonly Tree[] {
    if (order.contents) return orderCard(order, order.contents, sceneIn(this.model, order), this.model.policy.terms);
    const cause = order.cause ?? { start: 0, end: 0 };
    return withheldOrderCard(order, this.lines.at(cause.start).line + 1, this.messageAt(cause));
  }

  private patient(patient: WorkedPatient): readonly Tree[] {
    return patient.state === 'complete' ? patientCard(patient, sceneIn(this.model, patient)) : [];
  }

  private messageAt(place: SourceSpan): string | null {
    const located = this.model.faults.find(({ at }) => at.start >= place.start && at.end <= place.end);
    return located ? messageOf(wordingInTerms(findingOf(located).wording, this.model.policy.terms)) : null;
  }
}
