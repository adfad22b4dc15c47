/** Ions as notes ask for them: by one name, whatever protons they hold. */
import type { Decimal } from './decimal.ts';
import { molarMass } from './formula.ts';
import { nameKey } from './names.ts';
import { type Particle, particleById, particles } from './particles.ts';
import { PARTICLE_DATA } from './reference.ts';

/** An ion with what differs from it by protons only: both phosphates are `phosphate`, citric acid counts as `citrate`. */
export interface Ion {
  readonly id: string;
  readonly name: string;
  readonly forms: readonly Particle[];
  /** Null where its forms carry different charges (phosphate), so that no amount of it can be told in mEq. */
  readonly charge: number | null;
  /** g/mol of what its mass means: of phosphate the phosphorus. Null where it is not known. */
  readonly molarMass: Decimal | null;
}

const GROUPS: readonly Ion[] = PARTICLE_DATA.together.map(({ id, name, forms, weighed }) => {
  const members = forms.map((form) => particleById(form)!);
  const charges = new Set(members.filter(({ ion }) => ion).map(({ charge }) => charge));
  return {
    id,
    name,
    forms: members,
    charge: charges.size === 1 ? [...charges][0]! : null,
    molarMass: molarMass(weighed),
  };
});

const SINGLE: ReadonlyMap<Particle, Ion> = new Map(
  particles().flatMap((particle) => (particle.ion ? [[particle, alone(particle)]] : [])),
);

const BY_NAME: ReadonlyMap<string, Ion> = new Map([
  ...PARTICLE_DATA.particles.flatMap(({ id, name, synonyms }) => named(SINGLE.get(particleById(id)!), name, synonyms)),
  ...PARTICLE_DATA.together.flatMap(({ name, synonyms }, index) => named(GROUPS[index], name, synonyms)),
]);

function alone(particle: Particle): Ion {
  const { id, name, charge, molarMass: mass } = particle;
  return { id, name, forms: [particle], charge, molarMass: mass };
}

function named(ion: Ion | undefined, name: string, synonyms: readonly string[]): readonly (readonly [string, Ion])[] {
  return ion ? [name, ...synonyms].map((text) => [nameKey(text), ion] as const) : [];
}

/** The ion of that name (`sodium`, `hydrogen carbonate`, `phosphorus`); symbols such as Na+ are no names. */
export function findIon(key: string): Ion | null {
  return BY_NAME.get(nameKey(key)) ?? null;
}

/** The ion that a particle is asked for as; null for a molecule that is none. */
export function ionOf(particle: Particle): Ion | null {
  const group = GROUPS.find(({ forms }) => forms.includes(particle));
  return group ?? SINGLE.get(particle) ?? (particle.ion ? alone(particle) : null);
}

/** Every name an ion can be called by, as written in the data. */
export function ionNames(): readonly string[] {
  const charged = PARTICLE_DATA.particles.filter(({ charge }) => charge !== 0);
  return [...charged, ...PARTICLE_DATA.together].flatMap(({ name, synonyms }) => [name, ...synonyms]);
}
