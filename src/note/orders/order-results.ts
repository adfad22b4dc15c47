/** What an order gives, and what it does: its results in the unit asked. */
import {
  amountOfIon,
  type Contents,
  compartments,
  type Decimal,
  decimal,
  findIon,
  freeWaterAgainst,
  isTime,
  isVolume,
  LONGEST_COURSE,
  massOf,
  measure,
  measureRatio,
  type Observable,
  ONE,
  type Unit,
  type Unmeasured,
} from '../../engine/index.ts';
import type { Answer, Unanswered } from '../answer.ts';
import type { WorkedOrder } from '../order-model.ts';
import { type OrderScene, predictedAt } from './scene.ts';
import { DAY, endOf, firstDayShare, runningTime } from './schedule.ts';

const POTASSIUM = findIon('potassium')!;

/** In `to`, or a bare number where it is null. The order is complete. */
export function answerOrder(order: WorkedOrder, scene: OrderScene, observable: Observable, to: Unit | null): Answer {
  const contents = order.contents as Contents;
  switch (observable.kind) {
    case 'bags':
      if (to) return wrong(to, ['a number without a unit']);
      return order.bags ? value(order.bags) : noResult('no-recipe');
    case 'duration':
      return to && isTime(to) ? durationOf(order, to) : wrong(to, ['h', 'min', 'd']);
    case 'rate':
      return rateOf(order, order.rate, 'volume', to, ['mL/h', 'mL/kg/h']);
    case 'drop-rate':
      return order.dropsPerMl
        ? rateOf(order, order.rate === null ? null : order.rate.times(order.dropsPerMl), 'drops', to, ['drops/min'])
        : noResult('no-set');
    case 'potassium-rate':
      return rateOf(order, perHour(order, amountOfIon(order.perMl as Contents, POTASSIUM)), 'amount', to, [
        'mmol/h',
        'mEq/h',
        'mmol/kg/h',
      ]);
    case 'glucose-rate':
      return rateOf(order, perHour(order, sugarOf(order.perMl as Contents)), 'mass', to, ['mg/kg/min', 'g/h']);
    case 'free-water-for-patient':
      return forPatient(order, contents, to);
    case 'plasma':
    case 'interstitium':
    case 'cells':
      return shareOf(order, scene, observable.kind, to);
    case 'predicted-sodium':
    case 'predicted-sodium-by-regression':
      return sodiumAt(scene, endOf(order.runs), observable, to);
    case 'sodium-to-chloride-ratio': {
      const ratio = measureRatio(contents, observable);
      return to ? wrong(to, ['a number without a unit']) : ratio.ok ? value(ratio.value) : ratio;
    }
    default:
      return to ? ofContents(order, scene, observable, to) : wrong(to, [observable.total ?? observable.unit]);
  }
}

/** At an hour, with every order of the patient. */
export function sodiumAt(scene: OrderScene, hour: Decimal, observable: Observable, to: Unit | null): Answer {
  if (!to || !perLitreOfOneCharge(to)) return wrong(to, ['mmol/L', 'mEq/L']);
  if (hour.gt(LONGEST_COURSE)) return noResult('too-long');
  const predicted = predictedAt(scene, hour);
  if (!predicted) return noResult('no-body');
  if (!predicted.ok) {
    return predicted.why !== 'missing'
      ? noResult(predicted.why)
      : { ok: false, problem: 'missing-value', value: predicted.value, patient: scene.patient?.name ?? '' };
  }
  const { point } = predicted;
  if (!point) return noResult('no-water-left');
  const found = observable.kind === 'predicted-sodium' ? point.massBalance : point.regression;
  return value(found.div(1000).div(to.factor));
}

/** Of an ion with one charge, mmol/L and mEq/L are the same number. */
function perLitreOfOneCharge({ dimension: { over, under } }: Unit): boolean {
  return (over === 'amount' || over === 'charge') && under.join() === 'volume';
}

/** Totals, concentrations, and either per kg of body weight or per time while it runs. */
function ofContents(order: WorkedOrder, scene: OrderScene, observable: Observable, to: Unit): Answer {
  const { over, under } = to.dimension;
  const rest = under.filter((base) => base !== 'body-weight' && base !== 'time');
  if (rest.length === under.length) return told(measure(order.contents as Contents, observable, to, scene.reference));
  const plain: Unit = { ...to, symbol: '', factor: ONE, dimension: { over, under: rest } };
  const found = measure(order.contents as Contents, observable, plain, scene.reference);
  if (!found.ok) return found.problem === 'wrong-dimension' ? wrong(to, found.fits) : found;
  return perBody(order, found.value, to);
}

/**
 * Divides a total by the weight and the time, as the unit asks: per minute and per hour while it runs; per day, what is
 * given in the 24 h from its own start.
 */
function perBody(order: WorkedOrder, all: Decimal, to: Unit): Answer {
  const { under } = to.dimension;
  const daily = to.symbol.split('/').includes('d');
  const total = daily ? all.times(firstDayShare(order.runs)) : all;
  const hours = daily ? DAY : under.includes('time') ? runningTime(order.runs) : ONE;
  if (hours.isZero()) return noResult('no-time');
  const weight = under.includes('body-weight') ? (order.patient?.facts.weight ?? null) : ONE;
  if (!weight) return { ok: false, problem: 'missing-value', value: 'weight', patient: order.patient?.name ?? '' };
  return value(total.div(weight).div(hours).div(to.factor));
}

function rateOf(
  order: WorkedOrder,
  perHour: Decimal | null,
  over: Unit['dimension']['over'],
  to: Unit | null,
  fits: readonly string[],
): Answer {
  const under = to?.dimension.under ?? [];
  const others = under.filter((base) => base !== 'body-weight' && base !== 'time');
  const measured = to?.dimension.over;
  // The one ion whose rate is told carries one charge: mmol/h and mEq/h are the same number.
  const counted = measured === over || (over === 'amount' && measured === 'charge');
  if (!to || !counted || !under.includes('time') || others.length > 0) return wrong(to, fits);
  if (!perHour) return noResult('no-time');
  const weight = under.includes('body-weight') ? (order.patient?.facts.weight ?? null) : ONE;
  if (!weight) return { ok: false, problem: 'missing-value', value: 'weight', patient: order.patient?.name ?? '' };
  return value(perHour.div(weight).div(to.factor));
}

function perHour({ rate }: WorkedOrder, perMl: Decimal): Decimal | null {
  return rate === null ? null : rate.times(perMl);
}

/** g of dextrose in 1 mL, by the mass of the form that the label names. */
function sugarOf({ solutes }: Contents): Decimal {
  return [...solutes].reduce(
    (sum, [substance, mmol]) =>
      substance.family === 'dextrose' ? sum.plus(massOf(substance, { in: 'mmol', value: mmol }) ?? 0) : sum,
    decimal(0),
  );
}

/** From the first start to the last end; null for an order without an end. */
function durationOf({ runs, endless }: WorkedOrder, to: Unit): Answer {
  const [first] = runs;
  if (endless || !first) return noResult('no-time');
  return value(endOf(runs).minus(first.start).div(to.factor));
}

function forPatient(order: WorkedOrder, contents: Contents, to: Unit | null): Answer {
  const sodium = order.patient?.facts.serum.sodium;
  if (!sodium)
    return { ok: false, problem: 'missing-value', value: 'serum sodium', patient: order.patient?.name ?? '' };
  return to && to.dimension.over === 'volume' && !to.dimension.under.includes('volume')
    ? perBodyOrTotal(order, freeWaterAgainst(contents, sodium), to)
    : wrong(to, ['mL', 'mL/kg']);
}

function shareOf(
  order: WorkedOrder,
  { reference }: OrderScene,
  kind: 'plasma' | 'interstitium' | 'cells',
  to: Unit | null,
): Answer {
  if (!to || !isVolume(to)) return wrong(to, ['mL', 'L']);
  const into = order.route?.into ?? 'vein';
  const shares = into === 'vein' || into === 'marrow' ? compartments(order.contents as Contents, reference) : null;
  return shares ? value(shares[kind].div(to.factor)) : noResult('no-rule');
}

function perBodyOrTotal(order: WorkedOrder, total: Decimal, to: Unit): Answer {
  return to.dimension.under.length === 0 ? value(total.div(to.factor)) : perBody(order, total, to);
}

function told(found: ReturnType<typeof measure>): Answer {
  return found.ok ? value(found.value) : found;
}

function value(found: Decimal): Answer {
  return { ok: true, value: found, range: null };
}

function noResult(why: Extract<Unanswered, { problem: 'no-result' }>['why']): Unanswered {
  return { ok: false, problem: 'no-result', why };
}

function wrong(to: Unit | null, fits: readonly string[]): Unmeasured {
  return { ok: false, problem: 'wrong-dimension', got: to?.dimension ?? null, fits };
}
