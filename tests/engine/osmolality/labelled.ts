/** Fluids known from a label alone. */
import {
  type Contents,
  decimal,
  defineParticle,
  EMPTY,
  type Particle,
  particleById,
} from '../../../src/engine/index.ts';

/** A molecule of a note's own, which no table knows. */
function ownMolecule(name: string): Particle {
  return defineParticle({ name, charge: 0, molarMass: null });
}

/** mmol in 1 L, known from a label alone. */
export function labelled(amounts: Readonly<Record<string, string>>): Contents {
  const particles = new Map(
    Object.entries(amounts).map(([id, mmol]) => [particleById(id) ?? ownMolecule(id), decimal(mmol)]),
  );
  return { ...EMPTY, volume: decimal(1000), particles };
}
