/** Solutions of one salt for the tests, by the parameters of the reference data. */
import { interactionOf } from '../../../src/engine/osmolality/interactions.ts';
import { type Ion, osmoticCoefficient } from '../../../src/engine/osmolality/pitzer.ts';
import { formulaKey, PITZER_SETS } from '../../../src/engine/osmolality/tables.ts';

const CHARGES: Readonly<Record<string, number>> = {
  Na: 1,
  K: 1,
  NH4: 1,
  Ca: 2,
  Mg: 2,
  Cl: -1,
  HCO3: -1,
  C2H3O2: -1,
  C6H11O7: -1,
  H2PO4: -1,
  HPO4: -2,
  SO4: -2,
  C6H5O7: -3,
};
const BY_KEY = new Map(Object.entries(CHARGES).map(([formula, charge]) => [formulaKey(formula), charge]));

/** An ion at mol/kg. */
export function ion(formula: string, molality: number): Ion {
  return { formula: formulaKey(formula), charge: CHARGES[formula]!, molality };
}

/** The ions of a salt at mol/kg, and how many it gives. */
function saltIons(salt: string, molality: number): { readonly ions: readonly Ion[]; readonly count: number } {
  const { cation, anion } = PITZER_SETS.find((set) => set.salt === salt)!;
  const [positive, negative] = [BY_KEY.get(cation)!, -BY_KEY.get(anion)!];
  const units = positive === negative ? positive : 1;
  return {
    ions: [
      { formula: cation, charge: positive, molality: (molality * negative) / units },
      { formula: anion, charge: -negative, molality: (molality * positive) / units },
    ],
    count: (positive + negative) / units,
  };
}

/** Osmotic coefficient of one salt at mol/kg. */
export function coefficient(salt: string, molality: number): number {
  return osmoticCoefficient(saltIons(salt, molality).ions, interactionOf);
}

/** mOsm/kg of one salt at mol/kg. */
export function reading(salt: string, molality: number): number {
  return 1000 * molality * saltIons(salt, molality).count * coefficient(salt, molality);
}
