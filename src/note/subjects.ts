/** What a name or a fluid in a question stands for, and how it answers. */
import { type Contents, decimal, type Reference, times } from '../engine/index.ts';
import type { FluidNode } from '../notation/ast.ts';
import type { Subject } from './answer.ts';
import { type BoundLiquid, nameOf } from './fluids.ts';
import type { WorkedMixture } from './model.ts';
import type { WorkedOrder, WorkedPatient } from './order-model.ts';
import { answerOrder } from './orders/order-results.ts';
import { answerPatient } from './orders/patient-results.ts';
import type { OrderScene } from './orders/scene.ts';
import { type Held, rangeOf, resultOf } from './ranges.ts';

const LITRE = decimal(1000);

export function ofMixture(mixture: WorkedMixture, contents: Contents, reference: Reference): Subject {
  const { name, extremes, steps } = mixture;
  const beforeAdditives = steps[0]?.after.volume ?? null;
  return { name, mixture, beforeAdditives, ...holding({ contents, extremes }, reference) };
}

/** A litre of a fluid that is no mixture of the note. */
export function ofFluid(fluid: FluidNode, bound: BoundLiquid, reference: Reference): Subject {
  const held = { contents: times(bound.perMl, LITRE), extremes: [] };
  return { name: nameOf(fluid), mixture: null, beforeAdditives: null, ...holding(held, reference) };
}

function holding(held: Held, reference: Reference): Pick<Subject, 'is' | 'held' | 'contents' | 'answer'> {
  return {
    is: 'mixture',
    held,
    contents: held.contents,
    answer(observable, unit) {
      const found = resultOf(held.contents, observable, unit, reference);
      return found.ok ? { range: rangeOf(held, observable, unit, reference), ...found } : found;
    },
  };
}

export function ofOrder(order: WorkedOrder, scene: OrderScene): Subject {
  return {
    name: order.name || order.fluid,
    is: 'order',
    held: null,
    contents: order.contents,
    mixture: null,
    beforeAdditives: null,
    answer: (observable, unit) => answerOrder(order, scene, observable, unit),
  };
}

export function ofPatient(patient: WorkedPatient, scene: OrderScene): Subject {
  return {
    name: patient.name,
    is: 'patient',
    held: null,
    contents: null,
    mixture: null,
    beforeAdditives: null,
    answer: (observable, unit) => answerPatient(scene, patient.facts, observable, unit),
  };
}
