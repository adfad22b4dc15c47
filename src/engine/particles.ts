/** Particles: what solutes are once dissolved. */
import type { Decimal } from './decimal.ts';
import { molarMass } from './formula.ts';
import { PARTICLE_DATA } from './reference.ts';

/** What the body makes of a particle, as far as water goes: only what stays outside cells holds water there. */
export type Body = 'stays outside cells' | 'crosses cells' | 'becomes water';

/** An ion or a whole molecule in solution. One object for one particle: compare by identity. */
export interface Particle {
  readonly id: string;
  readonly name: string;
  readonly charge: number;
  /** g/mol; null for an ion of a note's own that does not give it. */
  readonly molarMass: Decimal | null;
  readonly ion: boolean;
  readonly body: Body;
  /** Whether it keeps its charge in the body, so that it counts in the strong ion difference. */
  readonly strong: boolean;
  /** mmol of bicarbonate that the body makes of 1 mmol of it; below zero for what brings acid, such as ammonium. */
  readonly base: number;
}

const ALL: readonly Particle[] = PARTICLE_DATA.particles.map(({ id, name, charge, body, strong, base, formula }) => ({
  id,
  name,
  charge,
  molarMass: formula === null ? null : molarMass(formula)!,
  ion: charge !== 0,
  body: body as Body,
  strong,
  base,
}));

const BY_ID: ReadonlyMap<string, Particle> = new Map(ALL.map((particle) => [particle.id, particle]));

/** Every built-in particle, in the order in which results are told. */
export function particles(): readonly Particle[] {
  return ALL;
}

/** The built-in particle of that id, or null. */
export function particleById(id: string): Particle | null {
  return BY_ID.get(id) ?? null;
}

/** Whether it holds water outside cells, and so counts in the effective osmolarity. */
export function isEffective(particle: Particle): boolean {
  return particle.body === 'stays outside cells';
}
