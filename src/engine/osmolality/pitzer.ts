/**
 * Osmotic coefficient of a mixture of salts by Pitzer's equations at 25 °C. Published model: floats.
 *
 * Electrostatics by ionic strength, and for each cation with each anion the parameters of their salt alone. What
 * likewise charged ions and threes of ions add (theta, psi, and the electrostatic term of unlike charges) is left out:
 * little in dilute fluids.
 */
import { ionicStrength, type Species, total } from './solution.ts';
import { DEBYE_HUECKEL } from './tables.ts';

/** An ion; mol/kg of water. */
export interface Ion {
  readonly formula: string;
  readonly charge: number;
  readonly molality: number;
}

/** A particle with the water around it. */
export interface Dissolved extends Species, Ion {}

/** Parameters of a cation with an anion; kg/mol and its powers. */
export interface Coefficients {
  readonly beta0: number;
  readonly beta1: number;
  readonly beta2: number;
  readonly cPhi: number;
}

/** Pitzer's b, (kg/mol)^½. */
const B = 1.2;

/** mol/kg. */
export function strengthOf(ions: readonly Ion[]): number {
  return ionicStrength(ions.map(({ molality, charge }) => [molality, charge]));
}

/** Osmotic coefficient of the ions together; 1 where there are none. */
export function osmoticCoefficient<I extends Ion>(
  ions: readonly I[],
  between: (cation: I, anion: I) => Coefficients,
): number {
  const all = total(ions, ({ molality }) => molality);
  if (all === 0) return 1;
  const strength = strengthOf(ions);
  const charges = total(ions, ({ charge, molality }) => molality * Math.abs(charge));
  const electrostatics = (-DEBYE_HUECKEL * strength ** 1.5) / (1 + B * Math.sqrt(strength));
  const cations = ions.filter(({ charge }) => charge > 0);
  const anions = ions.filter(({ charge }) => charge < 0);
  const pairs = total(cations, (cation) =>
    total(anions, (anion) => {
      const coefficients = between(cation, anion);
      const third = coefficients.cPhi / (2 * Math.sqrt(Math.abs(cation.charge * anion.charge)));
      return cation.molality * anion.molality * (second(coefficients, cation, anion, strength) + charges * third);
    }),
  );
  return 1 + (2 / all) * (electrostatics + pairs);
}

/** Pitzer's B of the osmotic coefficient; alpha1 is 1.4 where both ions carry two charges or more. */
function second({ beta0, beta1, beta2 }: Coefficients, cation: Ion, anion: Ion, strength: number): number {
  const root = Math.sqrt(strength);
  const alpha1 = Math.min(cation.charge, -anion.charge) > 1 ? 1.4 : 2;
  return beta0 + beta1 * Math.exp(-alpha1 * root) + beta2 * Math.exp(-12 * root);
}
