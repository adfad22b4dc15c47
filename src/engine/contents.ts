/** What a volume of liquid holds. Immutable; volumes of liquids add, and so do amounts. */
import { type Decimal, ZERO } from './decimal.ts';
import { gramsOfMmol, particlesOf, type Substance } from './substances.ts';

/** The volume and the amounts of one liquid. */
export interface Contents {
  /** mL. */
  readonly volume: Decimal;
  /** mmol of each substance, as added, by its id. */
  readonly solutes: ReadonlyMap<string, Decimal>;
  /** mmol of each particle, by its id. */
  readonly particles: ReadonlyMap<string, Decimal>;
  /** Names of additives that count only by their volume. */
  readonly uncounted: readonly string[];
}

/** No volume and nothing in it. */
export const EMPTY: Contents = { volume: ZERO, solutes: new Map(), particles: new Map(), uncounted: [] };

/** Two liquids together: volumes and amounts add. */
export function plus(a: Contents, b: Contents): Contents {
  return {
    volume: a.volume.plus(b.volume),
    solutes: sum(a.solutes, b.solutes),
    particles: sum(a.particles, b.particles),
    uncounted: [...new Set([...a.uncounted, ...b.uncounted])],
  };
}

/** That many times as much of the same liquid. */
export function times(contents: Contents, factor: Decimal): Contents {
  const scale = (amount: Decimal) => amount.times(factor);
  return mapped(contents, scale);
}

/** The same operation on the volume and on every amount. */
export function mapped(contents: Contents, change: (amount: Decimal) => Decimal): Contents {
  const each = (amounts: ReadonlyMap<string, Decimal>) =>
    new Map([...amounts].map(([id, amount]) => [id, change(amount)] as const));
  return {
    volume: change(contents.volume),
    solutes: each(contents.solutes),
    particles: each(contents.particles),
    uncounted: contents.uncounted,
  };
}

/** What is left of `a` when `b`, a share of it, is taken out. */
export function minus(a: Contents, b: Contents): Contents {
  const less = (from: ReadonlyMap<string, Decimal>, taken: ReadonlyMap<string, Decimal>) =>
    new Map([...from].map(([id, amount]) => [id, amount.minus(taken.get(id) ?? ZERO)] as const));
  return {
    volume: a.volume.minus(b.volume),
    solutes: less(a.solutes, b.solutes),
    particles: less(a.particles, b.particles),
    uncounted: a.uncounted,
  };
}

/** An amount of a solute in mmol; `volume` in mL is that of the finished solution, or what the dry solute adds. */
export function ofSolute(substance: Substance, mmol: Decimal, volume: Decimal): Contents {
  return {
    volume,
    solutes: new Map([[substance.id, mmol]]),
    particles: particlesOf(substance, mmol),
    uncounted: [],
  };
}

/** mL that mmol of a dry solute add to a solution, by one apparent specific volume for all strengths. */
export function dryVolume(substance: Substance, mmol: Decimal): Decimal {
  return gramsOfMmol(mmol, substance.molarMass).times(substance.apparentVolume);
}

/** Water by its volume in mL. */
export function water(volume: Decimal): Contents {
  return { ...EMPTY, volume };
}

function sum(a: ReadonlyMap<string, Decimal>, b: ReadonlyMap<string, Decimal>): ReadonlyMap<string, Decimal> {
  const total = new Map(a);
  for (const [id, amount] of b) total.set(id, (total.get(id) ?? ZERO).plus(amount));
  return total;
}
