/**
 * Estimated osmolality, as a freezing-point osmometer would read it. Published model: floats.
 *
 * Water by density; ions by Pitzer's equations at 25 °C, together; molecules by the freezing points of each alone, added
 * without interaction. What counts only by its volume adds nothing.
 */
import type { Contents } from '../contents.ts';
import { remembered } from '../remembered.ts';
import { densityOf } from './density.ts';
import { type IonPart, ionPart } from './ions.ts';
import { type MoleculePart, moleculePart } from './molecules.ts';
import { solutionOf, total } from './solution.ts';
import { FURTHEST, OSMOMETER_RANGE, READING_UNCERTAINTY, UNCERTAINTY_DOUBLES_AT } from './tables.ts';

/** An estimate with its limits, or why there is none. */
export type Osmolality =
  | {
      readonly ok: true;
      readonly mOsmPerKg: number;
      /** mOsm/kg by which it may be off. */
      readonly within: number;
      readonly waterGramsPerMl: number;
      /** Above what an osmometer is made to read. */
      readonly beyondOsmometer: boolean;
      /** Names of what is stronger than the data reach and makes a noticeable part. */
      readonly beyondData: readonly string[];
      /** The ions together, then each molecule. */
      readonly parts: readonly (IonPart | MoleculePart)[];
    }
  /** `no-volume` and `no-water` as for the density; `charge-imbalance`: a label whose charges do not meet. */
  | { readonly ok: false; readonly reason: 'no-volume' | 'no-water' | 'charge-imbalance' }
  /** So much stronger than the data reach that they say nothing; the names of what is. */
  | { readonly ok: false; readonly reason: 'too-strong'; readonly names: readonly string[] };

/** Open charges, as a share of all particles, that the rounding of a label explains. */
const OPEN_CHARGES = 0.05;
/** Share of the whole from which a pair or molecule makes itself felt. */
const NOTICEABLE = 0.05;
/** In multiples of an osmometer's range; sodium chloride 30 % is still under it. */
const STRONGEST = 5;

/** Estimated osmolality in mOsm/kg of water. The freezing point asks as well. */
export const osmolality = remembered((contents: Contents): Osmolality => {
  const solution = solutionOf(contents);
  if (!solution) return { ok: false, reason: 'no-volume' };
  const density = densityOf(solution);
  if (!density.ok) return density;
  const { waterGramsPerMl } = density;
  const dissolved = solution.species.map((species) => ({ molality: species.molarity / waterGramsPerMl, ...species }));
  const open = Math.abs(total(dissolved, ({ molality, charge }) => molality * charge));
  if (open > OPEN_CHARGES * total(dissolved, ({ molality }) => molality)) {
    return { ok: false, reason: 'charge-imbalance' };
  }

  const ions = dissolved.filter(({ charge }) => charge !== 0);
  const parts = [
    ...(ions.length > 0 ? [ionPart(ions)] : []),
    ...dissolved.filter(({ charge }) => charge === 0).map(moleculePart),
  ];
  const mOsmPerKg = total(parts, (part) => part.mOsmPerKg);
  const felt = noticeable(parts, mOsmPerKg);
  const reaching = (multiple: number) => felt.filter(({ reach }) => reach > multiple);
  const plausible = mOsmPerKg >= 0 && mOsmPerKg <= STRONGEST * OSMOMETER_RANGE;
  if (reaching(FURTHEST).length > 0 || !plausible) {
    return { ok: false, reason: 'too-strong', names: reaching(FURTHEST).map(({ name }) => name) };
  }
  const off = total(parts, (part) => part.mOsmPerKg * part.uncertainty) * (1 + mOsmPerKg / UNCERTAINTY_DOUBLES_AT);
  return {
    ok: true,
    mOsmPerKg,
    within: Math.max(READING_UNCERTAINTY, off) + 1000 * open,
    waterGramsPerMl,
    beyondOsmometer: mOsmPerKg > OSMOMETER_RANGE,
    beyondData: reaching(1).map(({ name }) => name),
    parts,
  };
});

/** Pairs of ions and molecules that make at least a noticeable part of the whole. */
function noticeable(parts: readonly (IonPart | MoleculePart)[], whole: number) {
  return parts
    .flatMap((part) =>
      part.kind === 'ions'
        ? part.pairs.map(({ name, share, reach }) => ({ name, reach, mOsmPerKg: share * part.mOsmPerKg }))
        : [part],
    )
    .filter(({ mOsmPerKg }) => mOsmPerKg >= NOTICEABLE * whole);
}
