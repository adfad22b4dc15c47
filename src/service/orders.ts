/** Orders in one sentence, and as other programs read them. */
import { exactText, findObservable, formatQuantity, unit } from '../engine/index.ts';
import {
  allResults,
  answerOrder,
  byPatient,
  type OrderScene,
  type OrdersByPatient,
  sceneOf,
  type WorkedNoteModel,
  type WorkedOrder,
  type WorkedPatient,
} from '../note/index.ts';
import { extentText, takenTexts } from './cards/order-card.ts';
import type { Lines } from './lines.ts';
import type { Value } from './report-model.ts';

const DURATION = findObservable('duration')!;

export interface OrderReport {
  /** Empty for an order without a name. */
  readonly name: string;
  readonly fluid: string;
  /** null: to nobody that is named. */
  readonly patient: string | null;
  readonly line: number;
  readonly state: WorkedOrder['state'];
  /** null, and no results, unless `state` is `complete`; of an order without an end, in 24 h. */
  readonly volume: Value | null;
  /** null where it is given at once. */
  readonly rate: Value | null;
  /** From first to last; null where it is given at once, and for an order without an end. */
  readonly duration: Value | null;
  readonly results: Readonly<Record<string, Value>>;
  /** What was taken without being written, a phrase each. */
  readonly assumptions: readonly string[];
  /** `= 60 mL/h, 960 mL over 16 h`. */
  readonly sentence: string;
}

/** Of one worked note: every order of a patient is looked at with the same others. */
const SCENES = new WeakMap<WorkedNoteModel, Scenes>();

interface Scenes {
  readonly orders: OrdersByPatient;
  readonly of: Map<WorkedPatient, OrderScene>;
}

/** The patient of an order with the other orders for the patient, or the order alone. */
export function sceneIn(model: WorkedNoteModel, about: WorkedOrder | WorkedPatient): OrderScene {
  const patient = 'facts' in about ? about : about.patient;
  const known: Scenes = SCENES.get(model) ?? { orders: byPatient(model.orders), of: new Map() };
  SCENES.set(model, known);
  const scene = (patient && known.of.get(patient)) ?? sceneOf(about, known.orders, model.unreadOrders, model.policy);
  if (patient) known.of.set(patient, scene);
  return scene;
}

export function orderReport(order: WorkedOrder, model: WorkedNoteModel, lines: Lines): OrderReport {
  const { entity, name, fluid, patient, state, contents, rate } = order;
  const scene = sceneIn(model, order);
  const found: Record<string, Value> = {};
  if (contents) {
    for (const { observable, value, unit: of } of allResults(order, scene)) {
      found[observable.id] = { value: exactText(value), unit: of };
    }
  }
  const duration = contents && answerOrder(order, scene, DURATION, unit('h'));
  return {
    name,
    fluid,
    patient: patient?.name ?? null,
    line: lines.at(entity.block.toSource(entity.header).start).line,
    state,
    volume: contents && { value: exactText(contents.volume), unit: 'mL' },
    rate: rate && { value: exactText(rate), unit: 'mL/h' },
    duration: duration?.ok && !duration.value.isZero() ? { value: exactText(duration.value), unit: 'h' } : null,
    results: found,
    assumptions: takenTexts(order, model.policy.terms),
    sentence: orderResult(order, lines),
  };
}

/** `= 60 mL/h, 960 mL over 16 h`; without results, the line that stands in the way. */
export function orderResult(order: WorkedOrder, lines: Lines): string {
  const { contents, cause, rate } = order;
  if (!contents) return `no results until line ${lines.at(cause?.start ?? 0).line + 1} is mended`;
  const extent = extentText(order, contents);
  return rate ? `= ${formatQuantity(rate, 'mL/h')}, ${extent}` : `= ${extent}`;
}
