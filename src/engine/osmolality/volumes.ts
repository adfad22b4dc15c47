/**
 * The room that solutes take up in a solution. Published model: floats.
 *
 * Salts: the apparent volume of each in a solution of that salt alone with the ionic strength of the mixture (Young's
 * rule). Molecules: that of each alone at the strength of all molecules together. Neither sees the other.
 */
import { molarMass } from '../formula.ts';
import { particleById } from '../particles.ts';
import { FAMILY_DATA, type FamilyData } from '../reference.ts';
import { gramsPerMl, ionicStrength, MOLECULES, type Solute, type Solution, type Species, total } from './solution.ts';
import { APPARENT_VOLUMES, along } from './tables.ts';

/** Where an apparent volume is from: a table; its last row; one figure for all strengths; salts of an ion; a guess. */
export type VolumeBasis = 'table' | 'beyond-table' | 'one-figure' | 'salts' | 'assumed';

/** What one solute, or one particle known from a label alone, takes up. */
export interface Occupied {
  readonly name: string;
  /** Anhydrous. */
  readonly gramsPerMl: number;
  /** mL of each mL of solution. */
  readonly volume: number;
  readonly basis: VolumeBasis;
}

/** mL/g where nothing is known; most solutes lie between 0.3 and 0.8. */
const ASSUMED_VOLUME = 0.55;

/** What a solution's solutes and loose particles take up. */
export function occupied(solution: Solution): readonly Occupied[] {
  const molecules =
    total(solution.solutes, (solute) => (solute.ionicStrength === 0 ? solute.gramsPerMl : 0)) +
    total(solution.loose, (species) => (species.charge === 0 ? gramsPerMl(species) : 0));
  return [
    ...solution.solutes.map((solute) => occupiedBySolute(solute, solution, molecules)),
    ...solution.loose.map((species) => occupiedByParticle(species, solution, molecules)),
  ];
}

/** mL/g of a solute at so many g in 1 mL of a solution of it alone; `otherwise` where it has no table. */
export function apparentVolume(
  family: string,
  concentration: number,
  otherwise: number,
): { readonly volume: number; readonly basis: VolumeBasis } {
  const curve = APPARENT_VOLUMES.get(family);
  if (!curve) return { volume: otherwise, basis: 'one-figure' };
  // A row's own strength comes back through a division or two, a digit above it.
  const beyond = concentration > curve.at(-1)![0] * 1.000001;
  return { volume: along(curve, concentration), basis: beyond ? 'beyond-table' : 'table' };
}

function occupiedBySolute(solute: Solute, solution: Solution, molecules: number): Occupied {
  const alone =
    solute.ionicStrength === 0 ? molecules : (solute.gramsPerMl * solution.ionicStrength) / solute.ionicStrength;
  const { volume, basis } = apparentVolume(solute.family, alone, solute.apparentVolume);
  return { name: solute.name, gramsPerMl: solute.gramsPerMl, volume: solute.gramsPerMl * volume, basis };
}

function occupiedByParticle(species: Species, solution: Solution, molecules: number): Occupied {
  const grams = gramsPerMl(species);
  const of = { name: species.name, gramsPerMl: grams };
  if (species.charge !== 0) {
    const molar = ionVolume(species.id, solution.ionicStrength);
    if (molar !== null) return { ...of, volume: (species.molarity * molar) / 1000, basis: 'salts' };
  }
  const family = MOLECULES.get(species.id);
  if (!family) return { ...of, volume: grams * ASSUMED_VOLUME, basis: 'assumed' };
  const { volume, basis } = apparentVolume(family.id, molecules, Number(family.apparentVolume.value));
  return { ...of, volume: grams * volume, basis };
}

/** An ion's place in the ladder: the salt that gives its volume once that of the salt's other ion is known. */
interface Rung {
  readonly family: FamilyData;
  readonly count: number;
  readonly other: { readonly particle: string; readonly count: number };
}

/**
 * Volumes of single ions, by the usual convention of sharing out salts: sodium none, chloride all of sodium chloride,
 * other cations from their chlorides, other anions from their sodium salts, sulfate from magnesium sulfate. A label's ions
 * come to the same volume however they are paired.
 */
const LADDER: ReadonlyMap<string, Rung> = ladder();

function ladder(): ReadonlyMap<string, Rung> {
  const rungs = new Map<string, Rung>();
  const known = new Set(['sodium']);
  for (let before = 0; before < known.size; ) {
    before = known.size;
    for (const family of FAMILY_DATA) {
      const [one, two, ...more] = family.gives;
      if (!one || !two || more.length > 0 || known.has(one.particle) === known.has(two.particle)) continue;
      const [ion, other] = known.has(one.particle) ? [two, one] : [one, two];
      rungs.set(ion.particle, { family, count: ion.count, other });
      known.add(ion.particle);
    }
  }
  return rungs;
}

/** mL/mol of an ion at an ionic strength in mol/L; null when no salt of it is known. */
function ionVolume(particle: string, strength: number): number | null {
  if (particle === 'sodium') return 0;
  const rung = LADDER.get(particle);
  if (!rung) return null;
  const others = ionVolume(rung.other.particle, strength)! * rung.other.count;
  return (saltVolume(rung.family, strength) - others) / rung.count;
}

function saltVolume({ id, formula, gives, apparentVolume: datum }: FamilyData, strength: number): number {
  const molar = molarMass(formula!)!.toNumber();
  const perMole = ionicStrength(gives.map(({ particle, count }) => [count, particleById(particle)!.charge]));
  return molar * apparentVolume(id, (strength / perMole) * (molar / 1000), Number(datum.value)).volume;
}
