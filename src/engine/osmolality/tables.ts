/**
 * The published tables behind density and osmolality, as numbers.
 *
 * Published model: floats. Estimates come out of it, shown as estimates with their uncertainty; no amount is ever
 * worked out from it.
 */
import densityData from '../../../shared/densities.json' with { type: 'json' };
import freezingData from '../../../shared/freezing-points.json' with { type: 'json' };
import pitzerData from '../../../shared/pitzer.json' with { type: 'json' };
import { parseFormula } from '../formula.ts';
import { WATER_DENSITY } from '../substances.ts';

/** Points whose x rises. */
export type Curve = readonly (readonly [x: number, y: number])[];

/** One salt's parameters in Pitzer's equations; kg/mol and its powers. */
export interface PitzerSet {
  /** Id of the family of the salt. */
  readonly salt: string;
  readonly cation: string;
  readonly anion: string;
  readonly beta0: number;
  readonly beta1: number;
  readonly beta2: number;
  readonly cPhi: number;
  /** mol/kg up to which it was fitted. */
  readonly maxMolality: number;
  /** Share of what the salt adds, at low strength. */
  readonly uncertainty: number;
  readonly source: string;
}

/** g/mL at 20 °C. */
export const WATER = WATER_DENSITY.toNumber();

/** How far data are drawn on, in multiples of what they reach; further on there is no estimate. */
export const FURTHEST = 2;

/** Linear between the points of a curve, and level outside them. */
export function along(curve: Curve, x: number): number {
  const [first, last] = [curve[0]!, curve.at(-1)!];
  if (x <= first[0]) return first[1];
  if (x >= last[0]) return last[1];
  const above = curve.findIndex(([at]) => at >= x);
  const [x0, y0] = curve[above - 1]!;
  const [x1, y1] = curve[above]!;
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}

/** By family: mL that 1 g of the anhydrous solute takes up, against g of it in 1 mL of solution. */
export const APPARENT_VOLUMES: ReadonlyMap<string, Curve> = new Map(
  densityData.solutes.map(({ id, tables }) => [
    id,
    tables.flatMap(({ rows }) =>
      rows.map(([massPercent, density]) => {
        const share = Number(massPercent) / 100;
        return [share * Number(density), (1 / Number(density) - (1 - share) / WATER) / share] as const;
      }),
    ),
  ]),
);

const CRYOSCOPIC = Number(freezingData.cryoscopicConstant.value);

/** By family: osmotic coefficient of a molecule, as a freezing-point osmometer reads it, against its molality. */
export const OSMOTIC_COEFFICIENTS: ReadonlyMap<string, Curve> = new Map(
  freezingData.solutes.map(({ id, rows }) => [
    id,
    [
      [0, 1],
      ...rows.map(([molality, depression]) => {
        const m = Number(molality);
        return [m, Number(depression) / CRYOSCOPIC / m] as const;
      }),
    ],
  ]),
);

/** mOsm/kg; readings above it lie outside what osmometers are made for. */
export const OSMOMETER_RANGE = Number(freezingData.osmometerRange.value);

/** Debye-Hückel slope of the osmotic coefficient at 25 °C, (kg/mol)^½. */
export const DEBYE_HUECKEL = Number(pitzerData.debyeHueckel.value);

/** One spelling for one composition, so that `H2PO4` and `PO4H2` meet. */
export function formulaKey(formula: string): string {
  const atoms = [...(parseFormula(formula) ?? [])].map(([element, count]) => `${element}${count}`);
  return atoms.sort().join('');
}

/** Every set, its ions by formula key. */
export const PITZER_SETS: readonly PitzerSet[] = pitzerData.sets.map((set) => ({
  salt: set.salt,
  cation: formulaKey(set.cation),
  anion: formulaKey(set.anion),
  beta0: Number(set.beta0),
  beta1: Number(set.beta1),
  beta2: Number(set.beta2 ?? 0),
  cPhi: Number(set.cPhi),
  maxMolality: Number(set.maxMolality),
  uncertainty: Number(set.uncertainty) / 100,
  source: set.source,
}));

/** By formula key: the ion that stands in where an ion's own salt is not listed. */
export const STAND_INS: ReadonlyMap<string, string> = new Map(
  pitzerData.standIns.map(({ ion, as }) => [formulaKey(ion), formulaKey(as)]),
);

const { standIn, chargesOnly, molecule, countedInFull } = pitzerData.assumptions;

/** What is assumed where a table is wanting; uncertainties as shares at low strength; strengths in mol/kg. */
export const ASSUMED = {
  standIn: { maxIonicStrength: Number(standIn.maxIonicStrength), uncertainty: Number(standIn.uncertainty) / 100 },
  chargesOnly: {
    maxIonicStrength: Number(chargesOnly.maxIonicStrength),
    uncertainty: Number(chargesOnly.uncertainty) / 100,
  },
  molecule: { uncertainty: Number(molecule.uncertainty) / 100 },
  countedInFull: {
    maxMolality: Number(countedInFull.maxMolality),
    uncertainty: Number(countedInFull.uncertainty) / 100,
  },
} as const;

/** mOsm/kg by which two readings of one sample may differ. */
export const READING_UNCERTAINTY = Number(pitzerData.readingUncertainty.value);
/** mOsm/kg at which every uncertainty has doubled. */
export const UNCERTAINTY_DOUBLES_AT = Number(pitzerData.uncertaintyDoublesAt.value);
