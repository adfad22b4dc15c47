/** Particles: what solutes are once dissolved. */
import type { Decimal } from './decimal.ts';
import { molarMass } from './formula.ts';
import { nameKey } from './names.ts';
import { PARTICLE_DATA } from './reference.ts';

/** An ion or a whole molecule in solution. */
export interface Particle {
  readonly id: string;
  readonly name: string;
  readonly charge: number;
  /** g/mol. */
  readonly molarMass: Decimal;
  /** Whether it holds water outside cells; dextrose does not. */
  readonly effective: boolean;
  readonly ion: boolean;
}

const ALL: readonly Particle[] = PARTICLE_DATA.map(({ id, name, charge, effective, formula }) => ({
  id,
  name,
  charge,
  molarMass: molarMass(formula)!,
  effective,
  ion: charge !== 0,
}));

const BY_ID: ReadonlyMap<string, Particle> = new Map(ALL.map((particle) => [particle.id, particle]));

const IONS: ReadonlyMap<string, Particle> = new Map(
  PARTICLE_DATA.flatMap(({ id, name, synonyms }) => {
    const particle = BY_ID.get(id)!;
    return particle.ion ? [name, ...synonyms].map((text) => [nameKey(text), particle] as const) : [];
  }),
);

/** Every particle, in the order in which results are told. */
export function particles(): readonly Particle[] {
  return ALL;
}

/** The particle of that id, or null. */
export function particleById(id: string): Particle | null {
  return BY_ID.get(id) ?? null;
}

/** The ion of that name (`sodium`, `hydrogen carbonate`); symbols such as Na+ are no names. */
export function findIon(key: string): Particle | null {
  return IONS.get(nameKey(key)) ?? null;
}
