/** Potassium by a vein: how strong, how fast, and to whom. */
import { type AgeGroup, type Contents, type Decimal, ZERO } from '../../engine/index.ts';
import type { Held } from '../order-faults.ts';
import type { WorkedOrder } from '../order-model.ts';
import type { OrderScene } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { POTASSIUM, perLitre } from './contents.ts';
import { type Candidate, held, heldForAge, perKg } from './limits.ts';
import { rateSpan } from './places.ts';
import { inVein, isCentral, mayBePeripheral, unsaidRoutes, unsaidWay, weightOf } from './scene.ts';
import { mostAtOnce, streams } from './timeline.ts';

const ADULTS: readonly AgeGroup[] = ['adult'];
const CHILDREN: readonly AgeGroup[] = ['child', 'infant'];
const NEONATES: readonly AgeGroup[] = ['neonate'];

/** Whether it brings potassium beyond what plasma holds. */
function counts(order: WorkedOrder, contents: Contents, scene: OrderScene): boolean {
  const value = perLitre(contents, POTASSIUM);
  return inVein(order) && held({ limit: 'potassium-as-in-plasma', value, unit: 'mmol/L' }, 'beyond', scene) !== null;
}

/** mmol/h while it runs; null where no rate is known. */
function perHour({ rate }: WorkedOrder, contents: Contents): Decimal | null {
  return rate?.times(perLitre(contents, POTASSIUM)).div(1000) ?? null;
}

export function potassium(
  order: WorkedOrder,
  contents: Contents,
  scene: OrderScene,
  report: Reporter,
  undiluted: boolean,
): void {
  if (!counts(order, contents, scene)) return;
  whileHigh(order, scene, report);
  if (!undiluted) concentration(order, contents, scene, report);
  const rate = perHour(order, contents);
  const passed = rate && tooFast(rate, order.monitored, scene);
  if (!passed) return;
  report.at(rateSpan(order.node), {
    code: 'potassium-rate',
    perHour: rate,
    monitored: order.monitored,
    fluids: [order.fluid],
    ...passed,
    unsaid: [...passed.unsaid, ...unsaidWay(order, 'blood')],
  });
}

function whileHigh(order: WorkedOrder, scene: OrderScene, report: Reporter): void {
  const value = scene.patient?.facts.serum.potassium ?? null;
  const passed = held({ limit: 'potassium-serum-high', value, unit: 'mmol/L' }, 'above', scene);
  if (!passed) return;
  report.at(order.node.fluid.span, { code: 'potassium-while-high', ...passed, unsaid: unsaidWay(order, 'blood') });
}

/** For adults, and for all who are younger. */
const CONCENTRATIONS = {
  peripheral: { grown: 'potassium-concentration-peripheral', young: 'potassium-concentration-peripheral-child' },
  central: { grown: 'potassium-concentration-central', young: 'potassium-concentration-central-child' },
} as const;

function concentration(order: WorkedOrder, contents: Contents, scene: OrderScene, report: Reporter): void {
  const way = mayBePeripheral(order) ? 'peripheral' : isCentral(order) ? 'central' : null;
  if (!way) return;
  const { grown, young } = CONCENTRATIONS[way];
  const found = { value: perLitre(contents, POTASSIUM), unit: 'mmol/L' };
  const candidates: readonly Candidate[] = [
    { limit: grown, ages: ADULTS, ...found },
    { limit: young, ages: [...CHILDREN, ...NEONATES], ...found },
  ];
  const passed = heldForAge(candidates, 'beyond', scene);
  if (!passed) return;
  report.at(order.node.fluid.span, {
    code: 'potassium-concentration',
    ...passed,
    unsaid: [...passed.unsaid, ...unsaidWay(order, 'vein')],
  });
}

function tooFast(rate: Decimal, monitored: boolean, scene: OrderScene): Held | null {
  const hourly = { value: rate, unit: 'mmol/h' };
  const byWeight = { value: perKg(rate, weightOf(scene.patient)), unit: 'mmol/kg/h' };
  const candidates: readonly Candidate[] = monitored
    ? [
        { limit: 'potassium-rate-adult-monitored', ages: ADULTS, ...hourly },
        { limit: 'potassium-rate-child-monitored', ages: CHILDREN, ...byWeight },
        { limit: 'potassium-rate-neonate-monitored', ages: NEONATES, ...byWeight },
      ]
    : [
        { limit: 'potassium-rate-adult', ages: ADULTS, ...hourly },
        { limit: 'potassium-rate-child-hourly', ages: CHILDREN, ...hourly },
        { limit: 'potassium-rate-child', ages: CHILDREN, ...byWeight },
        { limit: 'potassium-rate-neonate', ages: NEONATES, ...byWeight },
      ];
  return heldForAge(candidates, 'beyond', scene);
}

/** Orders none of which is too fast, and that are so while they run together. */
export function potassiumTogether(scene: OrderScene, reporterOf: (order: WorkedOrder) => Reporter): void {
  const bringing = scene.orders.filter((order) => order.perMl && counts(order, order.perMl, scene));
  const most = mostAtOnce(bringing.flatMap((order) => streams(order, perLitre(order.perMl!, POTASSIUM).div(1000))));
  if (!most || most.orders.length < 2) return;
  if (bringing.some((order) => tooFast(perHour(order, order.perMl!) ?? ZERO, order.monitored, scene))) return;
  const monitored = most.orders.every((order) => order.monitored);
  const passed = tooFast(most.rate, monitored, scene);
  if (!passed) return;
  const last = most.orders[most.orders.length - 1]!;
  reporterOf(last).at(rateSpan(last.node), {
    code: 'potassium-rate',
    perHour: most.rate,
    monitored,
    fluids: most.orders.map(({ fluid }) => fluid),
    ...passed,
    unsaid: [...passed.unsaid, ...unsaidRoutes(most.orders)],
  });
}
