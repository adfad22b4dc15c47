/** Concentrated electrolytes that are never given as they are. */
import { type Contents, type Decimal, massOf, substanceById, ZERO } from '../../engine/index.ts';
import type { Concentrate } from '../order-faults.ts';
import type { WorkedOrder } from '../order-model.ts';
import type { OrderScene } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { gramsOfFamily, PHOSPHATE, POTASSIUM, percentOf, perLitre } from './contents.ts';
import { held, type Passing } from './limits.ts';
import { inVein, unsaidWay } from './scene.ts';

interface Strength {
  readonly of: Concentrate;
  readonly limit: string;
  readonly unit: string;
  readonly passing: Passing;
  readonly strength: (contents: Contents) => Decimal;
}

const HEPTAHYDRATE = substanceById('magnesium-sulfate-heptahydrate')!;

const STRENGTHS: readonly Strength[] = [
  {
    of: 'potassium',
    limit: 'undiluted-potassium',
    unit: 'mmol/L',
    passing: 'at least',
    strength: (contents) => perLitre(contents, POTASSIUM),
  },
  {
    of: 'sodium chloride',
    limit: 'undiluted-sodium-chloride',
    unit: '%',
    passing: 'beyond',
    strength: (contents) => percentOf(contents, gramsOfFamily(contents, 'sodium chloride')),
  },
  {
    of: 'magnesium sulfate',
    limit: 'undiluted-magnesium-sulfate',
    unit: '%',
    passing: 'beyond',
    strength: (contents) => percentOf(contents, asHeptahydrate(contents)),
  },
  {
    of: 'phosphate',
    limit: 'undiluted-phosphate',
    unit: 'mmol/L',
    passing: 'at least',
    strength: (contents) => perLitre(contents, PHOSPHATE),
  },
];

/** g. */
function asHeptahydrate({ solutes }: Contents): Decimal {
  const mmol = [...solutes]
    .filter(([{ family }]) => family === 'magnesium sulfate')
    .reduce((sum, [, amount]) => sum.plus(amount), ZERO);
  return massOf(HEPTAHYDRATE, { in: 'mmol', value: mmol })!;
}

/** Whether it was reported: what else its strength would bring up is then left out. */
export function undiluted(order: WorkedOrder, contents: Contents, scene: OrderScene, report: Reporter): boolean {
  if (!inVein(order)) return false;
  for (const { of, limit, unit, passing, strength } of STRENGTHS) {
    const found = held({ limit, unit, value: strength(contents) }, passing, scene);
    if (!found) continue;
    report.at(order.node.fluid.span, {
      code: 'undiluted-concentrate',
      of,
      ...found,
      unsaid: unsaidWay(order, 'blood'),
    });
    return true;
  }
  return false;
}
