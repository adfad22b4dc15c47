/**
 * Estimated density of a mixture at 20 °C. Published model: floats.
 *
 * The solutes take up their apparent volumes (`volumes.ts`), water fills the rest, and the masses add. Water of
 * crystallisation counts as water; what counts only by its volume, a drug dosed in units, as water too.
 */
import type { Contents } from '../contents.ts';
import { remembered } from '../remembered.ts';
import { type Solution, solutionOf, total } from './solution.ts';
import { WATER } from './tables.ts';
import { type Occupied, occupied, type VolumeBasis } from './volumes.ts';

/** g/mL at 20 °C and how it comes about, or why there is none. */
export type Density =
  | {
      readonly ok: true;
      readonly gramsPerMl: number;
      /** g/mL by which it may be off. */
      readonly within: number;
      readonly waterGramsPerMl: number;
      readonly parts: readonly Occupied[];
    }
  /** `no-volume`: nothing is there. `no-water`: the solutes leave no room for it. */
  | { readonly ok: false; readonly reason: 'no-volume' | 'no-water' };

/** g/mL; the handbook's densities and those of an independent model differ by up to so much. */
const LEAST_UNCERTAINTY = 0.001;
/** mL/g by which an apparent volume may be off: between its rows, past them, and where it is no more than a guess. */
const UNCERTAINTY: Readonly<Record<VolumeBasis, number>> = {
  table: 0.003,
  'beyond-table': 0.02,
  'one-figure': 0.03,
  salts: 0.01,
  assumed: 0.25,
};
/** g/mL; no solution of these solutes is as heavy. */
const HEAVIEST = 3;
/** mol/L; water itself is 55. */
const MOST_PARTICLES = 100;

/** Estimated density at 20 °C, with the water it leaves in 1 mL. */
export function density(contents: Contents): Density {
  const solution = solutionOf(contents);
  return solution ? densityOf(solution) : { ok: false, reason: 'no-volume' };
}

/** The same of what 1 mL holds. The osmolality asks as well. */
export const densityOf = remembered((solution: Solution): Density => {
  const particles = total(solution.species, ({ molarity }) => molarity);
  if (solution.gramsPerMl > HEAVIEST || particles > MOST_PARTICLES) return { ok: false, reason: 'no-water' };
  const parts = occupied(solution);
  const waterGramsPerMl = WATER * (1 - total(parts, ({ volume }) => volume));
  if (waterGramsPerMl <= 0) return { ok: false, reason: 'no-water' };
  const off = WATER * total(parts, ({ gramsPerMl, basis }) => gramsPerMl * UNCERTAINTY[basis]);
  return {
    ok: true,
    gramsPerMl: waterGramsPerMl + solution.gramsPerMl,
    within: LEAST_UNCERTAINTY + off,
    waterGramsPerMl,
    parts,
  };
});
