/** Substances and ions of a note's own: checked, and then like the built-in ones. */
import { type Decimal, ZERO } from './decimal.ts';
import { equivalentBy, type FreezingFigure } from './isotonicity.ts';
import { nameKey } from './names.ts';
import type { Body, Particle } from './particles.ts';
import type { Given, Substance } from './substances.ts';

/** A particle to be made; `charge` null where it follows from the neutrality of the substance that gives it. */
export interface ParticleDefinition {
  readonly name: string;
  readonly charge: number | null;
  /** g/mol. */
  readonly molarMass: Decimal | null;
  /** Outside cells unless it says otherwise. */
  readonly body?: Body;
}

/** A substance to be made. Without a molar mass it is counted by mass and by activity, and its ions by mmol. */
export interface SubstanceDefinition {
  readonly name: string;
  /** g/mol. */
  readonly molarMass: Decimal | null;
  /** Empty: one whole molecule for each mole, or nothing that counts where no molar mass is known. */
  readonly gives: readonly { readonly particle: Particle | ParticleDefinition; readonly count: number }[];
  readonly solubility?: { readonly celsius: Decimal; readonly gramsPer100gWater: Decimal };
  /** What the body makes of the whole molecule; outside cells unless it says otherwise. */
  readonly body?: Body;
  /** mL/g; nothing is added to the volume where it is left out. */
  readonly apparentVolume?: Decimal;
  /** kcal/g. */
  readonly energy?: Decimal;
  readonly freezing?: FreezingFigure;
}

/** Why a definition makes no substance. */
export type DefinitionFault =
  /** `sum`: the charges that the ions of one mole add up to. */
  | { readonly problem: 'charge-imbalance'; readonly sum: number }
  /** More than one charge is missing, so that none of them follows. */
  | { readonly problem: 'charges-missing'; readonly particles: readonly string[] }
  /** The charge that neutrality asks for is not a whole number. */
  | { readonly problem: 'charge-impossible'; readonly particle: string; readonly sum: number };

export type Defined =
  | { readonly ok: true; readonly substance: Substance }
  | { readonly ok: false; readonly fault: DefinitionFault };

/** Source of what a note declares itself. */
const FROM_NOTE = 'the note';

/** Makes an ion or molecule of a note's own. An ion keeps its charge in the body. */
export function defineParticle({ name, charge, molarMass, body }: ParticleDefinition & { charge: number }): Particle {
  const ion = charge !== 0;
  return {
    id: idOf(name),
    name,
    charge,
    molarMass,
    ion,
    body: body ?? 'stays outside cells',
    strong: ion,
    base: 0,
  };
}

/** Makes a substance of a note's own, or says why it cannot be one: its charges must balance. */
export function defineSubstance(definition: SubstanceDefinition): Defined {
  const given = givenBy(definition);
  if (!given.ok) return given;
  const { name, molarMass, solubility, energy = null, freezing } = definition;
  const { apparentVolume = ZERO } = definition;
  const ions = given.gives.reduce((sum, { count }) => sum + count, 0);
  const substance: Substance = {
    id: idOf(name),
    name,
    formula: null,
    molarMass,
    gives: given.gives,
    apparentVolume,
    family: name,
    solubility: solubility ? [{ ...solubility, source: FROM_NOTE }] : [],
    listedStrengths: [],
    anhydrous: { molarMass, apparentVolume },
    energy,
    sodiumChlorideEquivalent: freezing ? equivalentBy(freezing, molarMass, ions) : null,
    dissociation: freezing?.by === 'dissociation' ? freezing.share : null,
    solutionOnly: false,
    own: true,
    sources: [FROM_NOTE],
  };
  return { ok: true, substance };
}

type GivenBy =
  | { readonly ok: true; readonly gives: readonly Given[] }
  | { readonly ok: false; readonly fault: DefinitionFault };

function givenBy({ name, molarMass, gives, body }: SubstanceDefinition): GivenBy {
  if (gives.length === 0) {
    const whole = molarMass && defineParticle({ name, charge: 0, molarMass, ...(body && { body }) });
    return { ok: true, gives: whole ? [{ particle: whole, count: 1 }] : [] };
  }
  const open = gives.filter(({ particle }) => particle.charge === null);
  if (open.length > 1) {
    return { ok: false, fault: { problem: 'charges-missing', particles: open.map(({ particle }) => particle.name) } };
  }
  const sum = gives.reduce((total, { particle, count }) => total + (particle.charge ?? 0) * count, 0);
  const [missing] = open;
  if (!missing && sum !== 0) return { ok: false, fault: { problem: 'charge-imbalance', sum } };
  const charge = missing ? 0 - sum / missing.count : 0;
  if (missing && !Number.isInteger(charge)) {
    return { ok: false, fault: { problem: 'charge-impossible', particle: missing.particle.name, sum } };
  }
  return {
    ok: true,
    gives: gives.map(({ particle, count }) => ({ particle: madeOf(particle, charge), count })),
  };
}

function madeOf(particle: Particle | ParticleDefinition, charge: number): Particle {
  return 'id' in particle ? particle : defineParticle({ ...particle, charge: particle.charge ?? charge });
}

function idOf(name: string): string {
  return nameKey(name).replaceAll(' ', '-');
}
