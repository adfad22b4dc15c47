/** Too dilute for red cells, too strong for a peripheral vein. */
import {
  type Contents,
  type Decimal,
  decimal,
  manyTimes,
  massOf,
  osmolarity,
  type Particle,
  substanceById,
  ZERO,
} from '../../engine/index.ts';
import type { WorkedOrder } from '../order-model.ts';
import type { OrderScene } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { held } from './limits.ts';
import { routeSpan } from './places.ts';
import { inVein, mayBePeripheral, unsaidWay } from './scene.ts';

const LITRE = decimal(1000);
const HUNDRED = decimal(100);
/** mOsm that a gram of a drug without a molar mass may add: two ions of a salt of 40 g/mol (worked out here). */
const MOST_PER_GRAM = decimal(50);
const SALT = substanceById('sodium-chloride')!;

/**
 * How a particle counts in the osmolarity that red cells feel. Urea and glycerol pass into them, and so does boric acid;
 * ammonium does as well, and takes an anion with it. Dextrose counts while it is in the bag.
 */
function weightFor({ id, body }: Particle): number {
  if (id === 'ammonium') return -1;
  return body === 'crosses cells' || id === 'boric-acid' ? 0 : 1;
}

/** mOsm/L of the particles that red cells keep out, the most that drugs without a molar mass may add included. */
function keptOut({ particles, masses, volume }: Contents): Decimal {
  if (volume.isZero()) return ZERO;
  let osmoles = ZERO;
  for (const [particle, mmol] of particles) osmoles = osmoles.plus(manyTimes(mmol, weightFor(particle)));
  for (const grams of masses.values()) osmoles = osmoles.plus(grams.times(MOST_PER_GRAM));
  return osmoles.times(LITRE).div(volume);
}

export function haemolysis(order: WorkedOrder, contents: Contents, scene: OrderScene, report: Reporter): void {
  if (!inVein(order) || contents.notStated.length > 0) return;
  const candidate = { value: keptOut(contents), unit: 'mOsm/L' };
  const complete = held({ limit: 'haemolysis-complete', ...candidate }, 'short of', scene);
  const passed = complete ?? held({ limit: 'haemolysis-begins', ...candidate }, 'short of', scene);
  if (!passed) return;
  const reaches = candidate.value.isZero() ? 'water' : complete ? 'complete' : 'begins';
  report.at(order.node.fluid.span, { code: 'haemolysis', reaches, ...passed, unsaid: unsaidWay(order, 'blood') });
}

export function hypertonicPeripheral(
  order: WorkedOrder,
  contents: Contents,
  scene: OrderScene,
  report: Reporter,
): void {
  if (!mayBePeripheral(order)) return;
  const passed = held({ limit: 'peripheral-osmolarity', value: osmolarity(contents), unit: 'mOsm/L' }, 'beyond', scene);
  if (!passed || isEmergencyDose(order, contents, scene)) return;
  report.at(routeSpan(order.node), { code: 'hypertonic-peripheral', ...passed, unsaid: unsaidWay(order, 'vein') });
}

/** A short dose of sodium chloride 3 %, or of anything where the patient is monitored. */
function isEmergencyDose(order: WorkedOrder, contents: Contents, scene: OrderScene): boolean {
  const over = (limit: string, value: Decimal, unit: string) => held({ limit, value, unit }, 'beyond', scene) !== null;
  const short = order.runs.every(
    ({ contents: { volume }, start, end }) =>
      !over('hypertonic-bolus-volume', volume, 'mL') && !over('hypertonic-bolus-time', end.minus(start), 'h'),
  );
  return short && (order.monitored || isSalineUpTo(contents, scene));
}

function isSalineUpTo({ particles, volume }: Contents, scene: OrderScene): boolean {
  const present = [...particles].filter(([, mmol]) => !mmol.isZero()).map(([{ id }]) => id);
  const sodium = [...particles].find(([{ id }]) => id === 'sodium')?.[1] ?? ZERO;
  if (!present.every((id) => id === 'sodium' || id === 'chloride') || volume.isZero()) return false;
  const percent = massOf(SALT, { in: 'mmol', value: sodium })!.times(HUNDRED).div(volume);
  return !held({ limit: 'hypertonic-bolus-strength', value: percent, unit: '%' }, 'beyond', scene);
}
