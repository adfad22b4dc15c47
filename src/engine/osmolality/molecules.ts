/** What molecules add to the osmolality, from the freezing points of each alone. Published model: floats. */
import type { Dissolved } from './pitzer.ts';
import { MOLECULES } from './solution.ts';
import { ASSUMED, along, type Curve, FURTHEST, OSMOTIC_COEFFICIENTS } from './tables.ts';

/** One molecule's share of an osmolality. */
export interface MoleculePart {
  readonly kind: 'molecule';
  readonly name: string;
  /** mol/kg of water. */
  readonly molality: number;
  readonly coefficient: number;
  readonly mOsmPerKg: number;
  /** Where no freezing points are listed it counts once. */
  readonly basis: 'freezing-points' | 'counted-in-full';
  /** Its molality over the highest that the data reach. */
  readonly reach: number;
  /** Share by which it may be off, at low strength. */
  readonly uncertainty: number;
}

/** Each molecule for itself. */
export function moleculePart({ id, name, molality }: Dissolved): MoleculePart {
  const listed = listedCoefficient(MOLECULES.get(id)?.id ?? '', molality);
  const { coefficient, last } = listed ?? { coefficient: 1, last: ASSUMED.countedInFull.maxMolality };
  const { uncertainty } = listed ? ASSUMED.molecule : ASSUMED.countedInFull;
  const reach = molality / last;
  return {
    kind: 'molecule',
    name,
    molality,
    coefficient,
    mOsmPerKg: 1000 * molality * coefficient,
    basis: listed ? 'freezing-points' : 'counted-in-full',
    reach,
    uncertainty: uncertainty * Math.max(1, reach),
  };
}

/** Osmotic coefficient of a family's molecule at mol/kg, and the molality up to which it is listed; null without a list. */
export function listedCoefficient(
  family: string,
  molality: number,
): { readonly coefficient: number; readonly last: number } | null {
  const curve = OSMOTIC_COEFFICIENTS.get(family);
  return curve ? { coefficient: drawnOn(curve, molality), last: curve.at(-1)![0] } : null;
}

/** The last two points drawn on as far as data are. */
function drawnOn(curve: Curve, molality: number): number {
  const [[x0, y0], [x1, y1]] = curve.slice(-2) as [Curve[number], Curve[number]];
  if (molality <= x1) return along(curve, molality);
  return y1 + ((y1 - y0) / (x1 - x0)) * (Math.min(molality, FURTHEST * x1) - x1);
}
