/** What an order does: where its water goes, what it brings beside what is usual, acid and base, what a leak does. */
import {
  ageGroup,
  amountOfIon,
  type Contents,
  compartments,
  compartmentsBeforeUse,
  type Decimal,
  decimal,
  findIon,
  findObservable,
  formatQuantity,
  maintenance,
  NEUTRAL_STRONG_ION_DIFFERENCE,
  type Observable,
  osmolarity,
  unit,
  usualIntake,
} from '../../engine/index.ts';
import { answerOrder, inADay, type OrderScene, reachesBody, toldShare, type WorkedOrder } from '../../note/index.ts';
import { plain, type Tree } from '../../text/tree.ts';

const DAILY = ['sodium', 'chloride'].map((name) => findIon(name)!);

/** h from which an order is set beside maintenance: common practice, no source. */
const SUSTAINED = decimal(4);
/** mOsm/L beyond which what leaks beside a vein harms the tissue: said, whatever limit is set. */
const EXTRAVASATES = decimal(900);
const STRONG_IONS = findObservable('strong ion difference')!;

/** Sodium and chloride of the first day per kg, beside what a body of that kind is usually given. */
export function besideUsual(order: WorkedOrder): Tree[] {
  const { weight, age } = order.patient?.facts ?? { weight: null, age: null };
  if (!weight?.gt(0) || !reachesBody(order)) return [];
  const day = inADay(order);
  const told = DAILY.map((ion) => `${ion.name} ${formatQuantity(amountOfIon(day, ion).div(weight), 'mmol/kg')}`);
  const group = ageGroup(age);
  const usual = group && usualIntake(group, weight);
  const often = usual
    ? `; usually about ${formatQuantity(usual.sodium, 'mmol/kg', 2)} and ${formatQuantity(usual.chloride, 'mmol/kg', 2)} (${usual.source})`
    : '';
  return [quiet(`In the first 24 h ${told.join(' and ')}${often}.`)];
}

/** 4-2-1 is of children, and not of the newborn. */
export function besideMaintenance({ rate, patient, duration, endless }: WorkedOrder): Tree[] {
  const { weight, age } = patient?.facts ?? { weight: null, age: null };
  const group = ageGroup(age);
  if (!rate || !weight || (group !== 'infant' && group !== 'child')) return [];
  if (!endless && duration?.lt(SUSTAINED)) return [];
  const usual = maintenance(weight).perHour;
  return [
    quiet(
      `4-2-1 gives ${formatQuantity(usual, 'mL/h')} at ${formatQuantity(weight, 'kg')}; this order runs at ${formatQuantity(rate.div(usual).times(100), '%')} of it.`,
    ),
  ];
}

export function whereItGoes(order: WorkedOrder, contents: Contents, { reference }: OrderScene): Tree[] {
  const into = order.route?.into ?? 'vein';
  if (into !== 'vein' && into !== 'marrow') return [];
  const after = compartments(contents, reference);
  const before = compartmentsBeforeUse(contents, reference);
  if (!after || !before) {
    return [
      quiet(
        'Where it goes is not told: the simple rule does not hold for mannitol, glycine, amino acids and colloids.',
      ),
    ];
  }
  const told = ({ plasma, interstitium, cells }: typeof after) =>
    `plasma ${formatQuantity(plasma, 'mL')}, interstitium ${formatQuantity(interstitium, 'mL')}, cells ${formatQuantity(toldShare(cells, contents.volume), 'mL')}`;
  const first = before.cells.eq(after.cells) ? '' : ` Before its dextrose is used: ${told(before)}.`;
  return [{ kind: 'paragraph', inline: plain(`Where it goes, by the simple rule: ${told(after)}.${first}`) }];
}

/** Whether it acidifies: its strong ions against the neutral 24 mEq/L, and against this patient's bicarbonate. */
export function acidBase(order: WorkedOrder, scene: OrderScene): Tree[] {
  const found = answerOf(order, scene, STRONG_IONS, 'mEq/L');
  const bicarbonate = scene.patient?.facts.serum.bicarbonate;
  if (!found) return [];
  const against = (level: Decimal) => (found.lt(level) ? 'below' : found.gt(level) ? 'above' : 'at');
  const neutral = NEUTRAL_STRONG_ION_DIFFERENCE;
  const effect = found.lt(neutral)
    ? 'it acidifies'
    : found.gt(neutral)
      ? 'it alkalinises'
      : 'it leaves the balance as it is';
  const own = bicarbonate
    ? `, and ${against(bicarbonate)} this patient’s bicarbonate of ${formatQuantity(bicarbonate, 'mmol/L')}`
    : '';
  return [
    {
      kind: 'paragraph',
      inline: plain(
        `Strong ion difference ${formatQuantity(found, 'mEq/L')}: ${against(neutral)} ${formatQuantity(neutral, 'mEq/L')}, so ${effect} by dilution${own}.`,
      ),
    },
  ];
}

export function leak({ route }: WorkedOrder, contents: Contents): Tree[] {
  if (route && (route.into !== 'vein' || route.peripheral === false)) return [];
  if (osmolarity(contents).lte(EXTRAVASATES)) return [];
  return [quiet('By a peripheral vein it harms the tissue if it leaks: watch the site, and stop at pain or swelling.')];
}

/** In that unit; null where there is no answer. */
export function answerOf(
  order: WorkedOrder,
  scene: OrderScene,
  observable: Observable,
  symbol: string,
): Decimal | null {
  const found = answerOrder(order, scene, observable, unit(symbol));
  return found.ok ? found.value : null;
}

/** What is read last. */
export function quiet(text: string): Tree {
  return { kind: 'paragraph', inline: [{ text, weight: 'quiet' }] };
}
