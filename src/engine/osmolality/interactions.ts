/** Which parameters a cation and an anion take: their salt's, a stand-in's, or none. Published model: floats. */
import type { Coefficients, Ion } from './pitzer.ts';
import { ionicStrength } from './solution.ts';
import { ASSUMED, PITZER_SETS, type PitzerSet, STAND_INS } from './tables.ts';

/** A cation with an anion. */
export interface Interaction extends Coefficients {
  /** The salt that they are taken for; null where only their charges count. */
  readonly set: PitzerSet | null;
  readonly standIn: boolean;
  /** mol/kg up to which it holds. */
  readonly maxIonicStrength: number;
  /** Share of what the pair adds, at low strength. */
  readonly uncertainty: number;
}

const BY_IONS: ReadonlyMap<string, PitzerSet> = new Map(
  PITZER_SETS.map((set) => [`${set.cation} ${set.anion}`, set] as const),
);

/** Their salt; else the salt with a stand-in for the anion, the cation, or both; else their charges alone. */
export function interactionOf(cation: Ion, anion: Ion): Interaction {
  const own = BY_IONS.get(`${cation.formula} ${anion.formula}`);
  if (own) {
    return { set: own, standIn: false, maxIonicStrength: strengthOfSalt(own.maxMolality, cation, anion), ...own };
  }
  const [otherCation, otherAnion] = [STAND_INS.get(cation.formula), STAND_INS.get(anion.formula)];
  const set =
    BY_IONS.get(`${cation.formula} ${otherAnion}`) ??
    BY_IONS.get(`${otherCation} ${anion.formula}`) ??
    BY_IONS.get(`${otherCation} ${otherAnion}`);
  if (!set) return chargesOnly(cation, anion);
  return { set, standIn: true, ...set, ...ASSUMED.standIn };
}

/** Ionic strength in mol/kg of a salt of these two ions. */
function strengthOfSalt(molality: number, cation: Ion, anion: Ion): number {
  const [positive, negative] = [cation.charge, -anion.charge];
  const formulaUnits = positive === negative ? positive : 1;
  return ionicStrength([
    [(molality * negative) / formulaUnits, cation.charge],
    [(molality * positive) / formulaUnits, anion.charge],
  ]);
}

/** The stronger the charges, the sooner they alone say too little. */
function chargesOnly(cation: Ion, anion: Ion): Interaction {
  const { maxIonicStrength, uncertainty } = ASSUMED.chargesOnly;
  return {
    ...{ beta0: 0, beta1: 0, beta2: 0, cPhi: 0, set: null, standIn: false, uncertainty },
    maxIonicStrength: maxIonicStrength / Math.abs(cation.charge * anion.charge),
  };
}
