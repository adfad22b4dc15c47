/** How fast magnesium, phosphate and calcium are given by a vein. */
import {
  amountOfIon,
  type Contents,
  type Decimal,
  decimal,
  findStockFluid,
  massOf,
  substanceById,
} from '../../engine/index.ts';
import type { OrderFault } from '../order-faults.ts';
import type { WorkedOrder } from '../order-model.ts';
import type { OrderScene } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { CALCIUM, MAGNESIUM, PHOSPHATE } from './contents.ts';
import { type Candidate, heldForAge } from './limits.ts';
import { rateSpan } from './places.ts';
import { inVein, isCentral, unsaidWay } from './scene.ts';

type Electrolyte = Extract<OrderFault, { code: 'electrolyte-rate' }>['of'];

const HEPTAHYDRATE = substanceById('magnesium-sulfate-heptahydrate')!;
/** As labels count it: 100 mg in each mL of the 10 % injection, a stabiliser's calcium included. */
const GLUCONATE_PER_MMOL = decimal(100).div(
  amountOfIon(findStockFluid('calcium gluconate injection')!.perLitre, CALCIUM),
);

export function electrolyteRate(order: WorkedOrder, contents: Contents, scene: OrderScene, report: Reporter): void {
  const { rate } = order;
  if (!rate || !inVein(order)) return;
  for (const of of ['magnesium', 'phosphate', 'calcium'] as const) {
    const passed = heldForAge(candidates(of, order, contents, rate), 'beyond', scene);
    if (!passed) continue;
    const unsaid = [...passed.unsaid, ...unsaidWay(order, 'blood')];
    report.at(rateSpan(order.node), { code: 'electrolyte-rate', of, ...passed, unsaid });
  }
}

function candidates(of: Electrolyte, order: WorkedOrder, contents: Contents, rate: Decimal): readonly Candidate[] {
  switch (of) {
    case 'magnesium': {
      const value = amountOfIon(contents, MAGNESIUM).times(rate);
      return [{ limit: 'magnesium-rate', value: massOf(HEPTAHYDRATE, { in: 'mmol', value }), unit: 'g/h' }];
    }
    case 'phosphate': {
      const limit = isCentral(order) && order.monitored ? 'phosphate-rate-central' : 'phosphate-rate';
      return [{ limit, value: amountOfIon(contents, PHOSPHATE).times(rate), unit: 'mmol/h' }];
    }
    case 'calcium': {
      const found = {
        value: amountOfIon(contents, CALCIUM).times(rate).times(GLUCONATE_PER_MMOL),
        unit: 'g/h',
      };
      return [
        { limit: 'calcium-rate-adult', ages: ['adult'], ...found },
        { limit: 'calcium-rate-child', ages: ['child', 'infant', 'neonate'], ...found },
      ];
    }
  }
}
