/** Patients and fluids for the tests of bodies. */
import { expect } from 'vitest';
import {
  type Contents,
  type Decimal,
  decimal,
  findStockFluid,
  ofParticles,
  type PatientFacts,
  particleById,
  times,
} from '../../../src/engine/index.ts';

const UNKNOWN: PatientFacts = {
  weight: null,
  birthWeight: null,
  height: null,
  age: null,
  gestation: null,
  sex: null,
  bodyWater: null,
  serum: { sodium: null, potassium: null, glucose: null, urea: null, bicarbonate: null },
  baseDeficit: null,
  onset: null,
  demyelinationRisk: false,
  burn: null,
  losses: [],
};

/** A patient of whom only that is known. */
export function patient(known: Partial<PatientFacts>): PatientFacts {
  return { ...UNKNOWN, ...known };
}

/** 1 L of a stock fluid, or `millilitres` of it. */
export function stock(name: string, millilitres = 1000): Contents {
  return times(findStockFluid(name)!.perLitre, decimal(millilitres).div(1000));
}

/** 1 L with that much sodium and potassium in mmol, as tables round them. */
export function litreWith(sodium: string, potassium = '0'): Contents {
  const particles = new Map([
    [particleById('sodium')!, decimal(sodium)],
    [particleById('potassium')!, decimal(potassium)],
  ]);
  return ofParticles(particles, decimal(1000));
}

export function near(found: Decimal, printed: string, within: string): void {
  const off = found.minus(printed).abs();
  expect(off.lte(within), `${found.toFixed(4)} is off ${printed} by ${off.toFixed(4)}`).toBe(true);
}
