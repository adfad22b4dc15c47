/** What a volume of liquid holds. Immutable; volumes of liquids add, and so do amounts. */
import { type Decimal, decimal, ONE, ZERO } from './decimal.ts';
import type { Particle } from './particles.ts';
import { remembered } from './remembered.ts';
import { gramsOfMmol, particlesOf, type Substance } from './substances.ts';

/** The volume and the amounts of one liquid. */
export interface Contents {
  /** mL. */
  readonly volume: Decimal;
  /** mmol of each substance, as added. */
  readonly solutes: ReadonlyMap<Substance, Decimal>;
  /** g of each substance that has no molar mass: a drug of a note's own, albumin. */
  readonly masses: ReadonlyMap<Substance, Decimal>;
  /** Units of each substance that was given by its activity. */
  readonly activities: ReadonlyMap<Substance, Decimal>;
  /** mmol of each particle. */
  readonly particles: ReadonlyMap<Particle, Decimal>;
  /** Particles that a label leaves out: what is counted of them is the least there is. */
  readonly notStated: readonly Particle[];
  /** Names of additives that count only by their volume. */
  readonly uncounted: readonly string[];
}

/** An amount of a solute in the measure in which it is counted. One is never converted into another. */
export interface Amount {
  readonly in: 'mmol' | 'g' | 'units';
  readonly value: Decimal;
}

/** No volume and nothing in it. */
export const EMPTY: Contents = {
  volume: ZERO,
  solutes: new Map(),
  masses: new Map(),
  activities: new Map(),
  particles: new Map(),
  notStated: [],
  uncounted: [],
};

/** Two liquids together: volumes and amounts add. */
export function plus(a: Contents, b: Contents): Contents {
  return {
    volume: a.volume.plus(b.volume),
    solutes: sum(a.solutes, b.solutes),
    masses: sum(a.masses, b.masses),
    activities: sum(a.activities, b.activities),
    particles: sum(a.particles, b.particles),
    notStated: either(a.notStated, b.notStated),
    uncounted: either(a.uncounted, b.uncounted),
  };
}

/** That many times as much of the same liquid. */
export function times(contents: Contents, factor: Decimal): Contents {
  return factor.eq(ONE) ? contents : mapped(contents, (amount) => amount.times(factor));
}

/** 1 mL of a liquid, of which there is some. */
export const oneMl = remembered((contents: Contents): Contents => times(contents, ONE.div(contents.volume)));

/** The same operation on the volume and on every amount. */
export function mapped(contents: Contents, change: (amount: Decimal) => Decimal): Contents {
  const each = <K>(amounts: ReadonlyMap<K, Decimal>) => withEach(amounts, (_, amount) => change(amount));
  return {
    ...contents,
    volume: change(contents.volume),
    solutes: each(contents.solutes),
    masses: each(contents.masses),
    activities: each(contents.activities),
    particles: each(contents.particles),
  };
}

/** What is left of `a` when `b`, a share of it, is taken out. */
export function minus(a: Contents, b: Contents): Contents {
  const less = <K>(from: ReadonlyMap<K, Decimal>, taken: ReadonlyMap<K, Decimal>) =>
    withEach(from, (key, amount) => amount.minus(taken.get(key) ?? ZERO));
  return {
    ...a,
    volume: a.volume.minus(b.volume),
    solutes: less(a.solutes, b.solutes),
    masses: less(a.masses, b.masses),
    activities: less(a.activities, b.activities),
    particles: less(a.particles, b.particles),
  };
}

/** An amount of a solute; `volume` in mL is that of the finished solution, or what the dry solute adds. */
export function ofSolute(substance: Substance, amount: Amount, volume: Decimal): Contents {
  const held = new Map([[substance, amount.value]]);
  switch (amount.in) {
    case 'mmol':
      return { ...EMPTY, volume, solutes: held, particles: particlesOf(substance, amount.value) };
    case 'g':
      return { ...EMPTY, volume, masses: held };
    case 'units':
      return { ...EMPTY, volume, activities: held };
  }
}

/** A liquid known by what its label states, in mmol/L of each particle; `volume` in mL. */
export function ofParticles(perLitre: ReadonlyMap<Particle, Decimal>, volume: Decimal): Contents {
  const litres = volume.div(LITRE);
  return {
    ...EMPTY,
    volume,
    particles: new Map([...perLitre].map(([particle, mmol]) => [particle, mmol.times(litres)] as const)),
  };
}

/** Water by its volume in mL. */
export function water(volume: Decimal): Contents {
  return { ...EMPTY, volume };
}

/** How much of a substance a liquid holds, in that measure. */
export function held(contents: Contents, substance: Substance, measure: Amount['in']): Decimal {
  return AMOUNTS_IN[measure](contents).get(substance) ?? ZERO;
}

const AMOUNTS_IN: Readonly<Record<Amount['in'], (contents: Contents) => ReadonlyMap<Substance, Decimal>>> = {
  mmol: ({ solutes }) => solutes,
  g: ({ masses }) => masses,
  units: ({ activities }) => activities,
};

/**
 * mL that a dry solute adds to a solution, by one apparent specific volume for all strengths; none where its mass or its
 * apparent volume is not known.
 */
export function dryVolume(substance: Substance, amount: Amount): Decimal {
  return massOf(substance, amount)?.times(substance.apparentVolume) ?? ZERO;
}

/** g that an amount weighs; null where that cannot be known. */
export function massOf(substance: Substance, amount: Amount): Decimal | null {
  if (amount.in === 'g') return amount.value;
  return amount.in === 'mmol' && substance.molarMass ? gramsOfMmol(amount.value, substance.molarMass) : null;
}

const LITRE = decimal(1000);

/** Of each kind of amount most liquids hold none: what is empty adds nothing, and stays as it is. */
function sum<K>(a: ReadonlyMap<K, Decimal>, b: ReadonlyMap<K, Decimal>): ReadonlyMap<K, Decimal> {
  if (a.size === 0) return b;
  if (b.size === 0) return a;
  const total = new Map(a);
  for (const [key, amount] of b) total.set(key, total.get(key)?.plus(amount) ?? amount);
  return total;
}

function withEach<K>(
  amounts: ReadonlyMap<K, Decimal>,
  change: (key: K, amount: Decimal) => Decimal,
): ReadonlyMap<K, Decimal> {
  if (amounts.size === 0) return amounts;
  const changed = new Map<K, Decimal>();
  for (const [key, amount] of amounts) changed.set(key, change(key, amount));
  return changed;
}

/** Each once. */
function either<T>(a: readonly T[], b: readonly T[]): readonly T[] {
  return a.length + b.length === 0 ? a : [...new Set([...a, ...b])];
}
