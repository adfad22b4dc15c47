/** What is worked out of a patient: water, deficits, maintenance, serum osmolality. */
import {
  ageGroup,
  bicarbonateDeficit,
  bodyWater,
  calculatedOsmolality,
  correctedSodium,
  type Decimal,
  decimal,
  deficitByBase,
  effectiveOsmolality,
  freeWaterDeficit,
  maintenance,
  type Observable,
  type PatientFacts,
  type Serum,
  type Unit,
  unit,
} from '../../engine/index.ts';
import type { Answer, Unanswered } from '../answer.ts';
import { sodiumAt } from './order-results.ts';
import type { OrderScene } from './scene.ts';
import { DAY } from './schedule.ts';

/** mmol/L that a bicarbonate deficit is told against, when nothing else is said: the usual level of plasma. */
const USUAL_BICARBONATE = decimal(24);

/** In `to`. */
export function answerPatient(scene: OrderScene, facts: PatientFacts, observable: Observable, to: Unit | null): Answer {
  if (observable.kind === 'predicted-sodium' || observable.kind === 'predicted-sodium-by-regression') {
    return sodiumAt(scene, DAY, observable, to);
  }
  const name = scene.patient?.name ?? '';
  const own = unit(observable.unit);
  if (!to || !measures(to, own)) {
    return { ok: false, problem: 'wrong-dimension', got: to?.dimension ?? null, fits: [observable.unit] };
  }
  const found = inOwnUnit(facts, observable, name);
  if (!('value' in found) || !found.ok) return found;
  return { ...found, value: found.value.times(own.factor).div(to.factor) };
}

/** What is counted of a patient, sodium and bicarbonate, carries one charge: mmol and mEq are the same number. */
function measures({ dimension: { over, under } }: Unit, { dimension: own }: Unit): boolean {
  const counted = over === 'charge' ? 'amount' : over;
  return counted === own.over && under.join() === own.under.join();
}

function inOwnUnit(facts: PatientFacts, observable: Observable, patient: string): Answer {
  const missing = (value: string): Unanswered => ({ ok: false, problem: 'missing-value', value, patient });
  const found = (value: Decimal): Answer => ({ ok: true, value, range: null });
  const { weight, serum, baseDeficit } = facts;
  const water = bodyWater(facts);
  const lacking = (names: readonly (keyof Serum)[]) => names.find((name) => !serum[name]);
  switch (observable.kind) {
    case 'body-water':
      return water.ok ? found(water.litres) : missing(water.missing[0] as string);
    case 'free-water-deficit':
      if (!water.ok) return missing(water.missing[0] as string);
      return serum.sodium ? found(freeWaterDeficit(water.litres, serum.sodium)) : missing('serum sodium');
    case 'bicarbonate-deficit':
      if (!weight) return missing('weight');
      if (baseDeficit && !serum.bicarbonate) return found(deficitByBase(weight, baseDeficit));
      return serum.bicarbonate
        ? found(bicarbonateDeficit({ weight, bicarbonate: serum.bicarbonate, target: USUAL_BICARBONATE }))
        : missing('serum bicarbonate');
    case 'maintenance-rate':
      if (ageGroup(facts.age) === 'neonate') return NEWBORN;
      return weight ? found(maintenance(weight).perHour) : missing('weight');
    case 'maintenance-volume':
      if (ageGroup(facts.age) === 'neonate') return NEWBORN;
      return weight ? found(maintenance(weight).perDay) : missing('weight');
    case 'serum-osmolality': {
      const lack = lacking(['sodium', 'glucose', 'urea']);
      return lack ? missing(`serum ${lack}`) : found(calculatedOsmolality(serum as Known));
    }
    case 'effective-serum-osmolality': {
      const lack = lacking(['sodium', 'glucose']);
      return lack ? missing(`serum ${lack}`) : found(effectiveOsmolality(serum as Known));
    }
    case 'corrected-sodium': {
      const lack = lacking(['sodium', 'glucose']);
      return lack
        ? missing(`serum ${lack}`)
        : found(correctedSodium((serum as Known).sodium, (serum as Known).glucose));
    }
    default:
      return { ok: false, problem: 'no-such-result' };
  }
}

const NEWBORN: Unanswered = { ok: false, problem: 'no-result', why: 'newborn' };

type Known = { readonly [K in keyof Serum]: Decimal };
