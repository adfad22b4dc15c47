/** Orders and patients in full: their cards, with where the fluid goes and the course of the serum sodium. */
import type { WorkedNoteModel, WorkedOrder, WorkedPatient } from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';
import { orderCard, withheldOrderCard } from '../cards/order-card.ts';
import { patientCard } from '../cards/patient-card.ts';
import { sodiumCourseFigure } from '../figures/sodium-course.ts';
import { whereItGoesFigure } from '../figures/where-it-goes.ts';
import type { Lines } from '../lines.ts';
import { sceneIn } from '../orders.ts';

/** Heading, sentence and table stand first on an order's card, then the figures. */
const BEFORE_FIGURES = 3;

/** `besides`: findings and answers, which stand below the order in words. */
export function orderInFull(
  order: WorkedOrder,
  model: WorkedNoteModel,
  lines: Lines,
  besides: readonly Tree[],
): readonly Tree[] {
  const { contents, cause } = order;
  if (!contents) return [...withheldOrderCard(order, lines.at(cause?.start ?? 0).line + 1, null), ...besides];
  const scene = sceneIn(model, order);
  const card = orderCard(order, contents, scene, model.policy.terms);
  const isLast = scene.orders.at(-1) === order;
  return [
    ...card.slice(0, BEFORE_FIGURES - 1),
    ...besides,
    ...card.slice(BEFORE_FIGURES - 1, BEFORE_FIGURES),
    ...whereItGoesFigure(order, contents, scene.reference),
    // All orders of the patient are drawn together, once.
    ...(isLast ? sodiumCourseFigure(scene) : []),
    ...card.slice(BEFORE_FIGURES),
  ];
}

export function patientInFull(patient: WorkedPatient, model: WorkedNoteModel, lines: Lines): readonly Tree[] {
  const { entity, name, state, cause } = patient;
  if (state === 'complete') return patientCard(patient, sceneIn(model, patient));
  const line = lines.at(cause?.start ?? 0).line + 1;
  return [
    { kind: 'heading', text: entity.title?.text || name, aside: 'no results' },
    { kind: 'paragraph', inline: plain(`Nothing is worked out until line ${line} is mended.`) },
  ];
}
