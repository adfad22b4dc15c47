/** What every card of a liquid says of its contents: the verdict, the first numbers, the ions. */
import {
  amountOfIon,
  type Contents,
  type Decimal,
  decimal,
  effectiveOsmolarity,
  findIon,
  formatQuantity,
  freeWaterPerLitre,
  type Ion,
  ionOf,
  osmolarity,
  type Particle,
  particles,
  type Reference,
  type Substance,
  tonicity,
} from '../../engine/index.ts';
import { type Policy, toldFreeWater } from '../../note/index.ts';
import type { Cell, Column, Tree } from '../../text/tree.ts';
import { nameInTerms } from '../terms.ts';

const LITRE = decimal(1000);
const ORDER: ReadonlyMap<Particle, number> = new Map(particles().map((particle, index) => [particle, index]));
const SODIUM = findIon('sodium')!;
const POTASSIUM = findIon('potassium')!;

/** `Isotonic in the bag (345 mOsm/L), hypotonic in the body (77 mOsm/L stay effective).` */
export function verdict(contents: Contents, reference: Reference): string {
  const bag = osmolarity(contents);
  const body = effectiveOsmolarity(contents);
  const inBag = tonicity(bag, reference);
  const inBody = tonicity(body, reference);
  const stays = body.eq(bag) ? '' : ` (${formatQuantity(body, 'mOsm/L')} stay effective)`;
  return `${capital(inBag)} in the bag (${formatQuantity(bag, 'mOsm/L')}), ${inBody} in the body${stays}.`;
}

/** The verdict in one or two words, for the end of a line. */
export function shortVerdict(contents: Contents, reference: Reference): string {
  const inBag = tonicity(osmolarity(contents), reference);
  const inBody = tonicity(effectiveOsmolarity(contents), reference);
  return inBag === inBody ? inBag : `${inBag} in the bag, ${inBody} in the body`;
}

/** The particles of a liquid in the order they are always named: sodium, potassium, …, a note's own last. */
export function particlesOf({ particles: held }: Contents): readonly { particle: Particle; amount: Decimal }[] {
  return [...held]
    .map(([particle, amount]) => ({ particle, amount }))
    .filter(({ amount }) => !amount.isZero())
    .sort((one, other) => placeOf(one.particle) - placeOf(other.particle));
}

function placeOf(particle: Particle): number {
  return ORDER.get(particle) ?? ORDER.size;
}

/** mmol, with mEq beside it where the charge makes them differ; mEq first where local policy prefers it. */
export function amountText(amount: Decimal, particle: Particle, { amounts }: Policy['terms']): string {
  const mmol = formatQuantity(amount, 'mmol');
  const charge = Math.abs(particle.charge);
  const mEq = formatQuantity(amount.times(charge), 'mEq');
  // A charge that varies with the acidity makes no fixed number of equivalents.
  const preferred = amounts === 'mEq' && typeof ionOf(particle)?.charge === 'number';
  if (charge > 1) return preferred ? `${mEq} (${mmol})` : `${mmol} (${mEq})`;
  return preferred ? mEq : mmol;
}

/** What is asked most, in one line: free water, sodium, and potassium when there is any, per litre. */
export function firstNumbers(contents: Contents, policy: Policy): Tree {
  return { kind: 'paragraph', inline: [{ text: firstNumbersText(contents, policy), weight: 'strong' }] };
}

export function firstNumbersText(contents: Contents, { reference, terms }: Policy): string {
  const perLitre = (ion: Ion) => amountOfIon(contents, ion).times(LITRE).div(contents.volume);
  const parts = [
    `electrolyte-free water ${formatQuantity(toldFreeWater(freeWaterPerLitre(contents, reference)), 'mL')}`,
    `sodium ${formatQuantity(perLitre(SODIUM), terms.amounts)}`,
  ];
  const potassium = perLitre(POTASSIUM);
  if (!potassium.isZero()) parts.push(`potassium ${formatQuantity(potassium, terms.amounts)}`);
  return `Per litre: ${parts.join(' · ')}`;
}

/** Free water, sodium, potassium when there is any, then the other ions and molecules: per litre and in all. */
export function compositionTable(contents: Contents, { reference, terms }: Policy, whole: string): Tree {
  const { volume } = contents;
  const oneLitre = volume.eq(LITRE);
  const freeWater = toldFreeWater(freeWaterPerLitre(contents, reference));
  const rows: Cell[][] = [
    row(
      'electrolyte-free water',
      formatQuantity(freeWater, 'mL'),
      formatQuantity(freeWater.times(volume).div(LITRE), 'mL'),
    ),
  ];
  for (const { particle, amount } of particlesOf(contents)) {
    const told = (of: Decimal) => amountText(of, particle, terms);
    rows.push(row(nameInTerms(particle.name, terms), told(amount.times(LITRE).div(volume)), told(amount)));
  }
  const none = `0 ${terms.amounts}`;
  if (amountOfIon(contents, SODIUM).isZero()) rows.splice(1, 0, row('sodium', none, none));
  for (const { name, amount, unit } of countedOtherwise(contents)) {
    const perLitre = formatQuantity(amount.times(LITRE).div(volume), unit);
    rows.push(row(name, perLitre, formatQuantity(amount, unit)));
  }
  const columns: Column[] = [
    { title: '', align: 'text' },
    { title: 'per litre', align: 'number' },
  ];
  if (!oneLitre) columns.push({ title: whole, align: 'number' });
  return { kind: 'table', columns, rows };

  function row(name: string, perLitre: string, inAll: string): Cell[] {
    return oneLitre ? [name, perLitre] : [name, perLitre, inAll];
  }
}

/** Solutes that have no molar mass: by mass, or by activity. */
export function countedOtherwise({
  masses,
  activities,
}: Contents): readonly { name: string; amount: Decimal; unit: string }[] {
  const told = (held: ReadonlyMap<Substance, Decimal>, unit: string) =>
    [...held].map(([{ name }, amount]) => ({ name, amount, unit }));
  return [...told(masses, 'g'), ...told(activities, 'units')];
}

/** The bag's free water and its place on the tonicity scale. Display numbers only. */
export function bagFigure(contents: Contents, reference: Reference): Tree {
  const freeWater = freeWaterPerLitre(contents, reference);
  return {
    kind: 'figure',
    figure: {
      kind: 'bag-and-body',
      name: 'Water in one litre, and its place on the tonicity scale',
      sentence: `${freeWaterSentence(freeWater)} ${verdict(contents, reference)}`,
      freeWater: freeWater.toNumber(),
      bag: osmolarity(contents).toNumber(),
      body: effectiveOsmolarity(contents).toNumber(),
      isotonic: [reference.isotonicFrom.toNumber(), reference.isotonicBelow.toNumber()],
    },
  };
}

function freeWaterSentence(perLitre: Decimal): string {
  const amount = formatQuantity(perLitre.abs(), 'mL');
  return perLitre.isNegative() && !perLitre.isZero()
    ? `Each litre takes up ${amount} of water beyond its own.`
    : `Of each litre ${amount} is electrolyte-free water.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
