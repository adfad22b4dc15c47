/** Every result of an order, each in its own unit. */
import {
  type Contents,
  type Decimal,
  fixedObservables,
  type Observable,
  type ObservableKind,
  results,
  unit,
} from '../../engine/index.ts';
import type { WorkedOrder } from '../order-model.ts';
import { answerOrder } from './order-results.ts';
import type { OrderScene } from './scene.ts';

export interface OrderResult {
  readonly observable: Observable;
  readonly value: Decimal;
  readonly unit: string;
}

/** Told beside the results, or only when asked for. */
const ELSEWHERE: ReadonlySet<ObservableKind> = new Set([
  'volume',
  'rate',
  'duration',
  'bags',
  'predicted-sodium-by-regression',
]);

/** What is told of all that is given; the rest stays by its litre, as an osmolarity does. */
const IN_ALL: ReadonlySet<ObservableKind> = new Set([
  'ion',
  'solute',
  'sodium-load',
  'chloride-load',
  'free-water',
  'bicarbonate-precursors',
  'energy',
]);

/** The unit in which an order tells a result. */
export function orderUnit({ kind, total, unit: perLitre }: Observable): string {
  return IN_ALL.has(kind) && total ? total : perLitre;
}

/**
 * What it holds, in all (mmol, g, mL, kcal) or by its own measure where there is no total, and what only an order has. A
 * rate that is nothing is left out, and so is what rests on something of the patient that is not written.
 */
export function allResults(order: WorkedOrder, scene: OrderScene): readonly OrderResult[] {
  const held = results(order.contents as Contents, scene.reference).map(({ observable, unit: of }) => ({
    observable,
    symbol: of === 'units/mL' ? 'units' : orderUnit(observable),
    always: true,
  }));
  const only = fixedObservables()
    .filter(({ of }) => of.includes('order') && !of.includes('mixture'))
    .map((observable) => ({ observable, symbol: observable.unit, always: false }));
  return [...held, ...only].flatMap(({ observable, symbol, always }) => {
    if (ELSEWHERE.has(observable.kind)) return [];
    const answer = answerOrder(order, scene, observable, unit(symbol));
    if (!answer.ok || (!always && answer.value.isZero())) return [];
    return [{ observable, value: answer.value, unit: symbol }];
  });
}
