import { describe, expect, it } from 'vitest';
import { interactionOf } from '../../../src/engine/osmolality/interactions.ts';
import { osmoticCoefficient } from '../../../src/engine/osmolality/pitzer.ts';
import {
  FURTHEST,
  PITZER_SETS,
  READING_UNCERTAINTY,
  UNCERTAINTY_DOUBLES_AT,
} from '../../../src/engine/osmolality/tables.ts';
import { SALTS_FREEZING } from './handbook.ts';
import { coefficient, ion, reading } from './single-salts.ts';

describe('osmotic coefficients of single salts', () => {
  // Robinson and Stokes, Electrolyte Solutions; Hamer and Wu 1972. From memory.
  it.each([
    ['sodium-chloride', 0.1, 0.9324],
    ['sodium-chloride', 0.2, 0.9245],
    ['sodium-chloride', 0.3, 0.9215],
    ['sodium-chloride', 0.5, 0.9209],
    ['sodium-chloride', 0.7, 0.9257],
    ['sodium-chloride', 1, 0.9355],
    ['sodium-chloride', 2, 0.9833],
    ['sodium-chloride', 3, 1.0453],
    ['sodium-chloride', 4, 1.1158],
    ['sodium-chloride', 5, 1.1916],
    ['sodium-chloride', 6, 1.2706],
    ['potassium-chloride', 0.1, 0.9266],
    ['potassium-chloride', 0.2, 0.913],
    ['potassium-chloride', 0.5, 0.8989],
    ['potassium-chloride', 1, 0.8974],
    ['potassium-chloride', 2, 0.9124],
    ['potassium-chloride', 3, 0.9367],
    ['potassium-chloride', 4, 0.9647],
    ['calcium-chloride', 0.1, 0.854],
    ['calcium-chloride', 0.2, 0.862],
    ['calcium-chloride', 0.3, 0.876],
    ['calcium-chloride', 0.5, 0.917],
    ['calcium-chloride', 1, 1.046],
  ])('%s at %f mol/kg: %f to 0.003', (salt, molality, handbook) => {
    expect(Math.abs(coefficient(salt, molality) - handbook)).toBeLessThanOrEqual(0.003);
  });

  // Robinson and Stokes, from memory; isopiestic, and known to run above later measurements.
  it.each([
    [0.1, 0.606],
    [0.2, 0.562],
    [0.5, 0.522],
    [1, 0.525],
  ])('magnesium sulfate at %f mol/kg: %f to 0.015', (molality, handbook) => {
    expect(Math.abs(coefficient('magnesium-sulfate', molality) - handbook)).toBeLessThanOrEqual(0.015);
  });

  // The same parameters, worked out independently of this code: at 0.1, 0.3, 1 and 2 mol/kg.
  it.each([
    ['sodium-chloride', [0.9321, 0.9204, 0.9359, 0.9843], 0.001],
    ['potassium-chloride', [0.9264, 0.9063, 0.8983, 0.9131], 0.001],
    ['calcium-chloride', [0.8553, 0.8758, 1.0474, 1.3851], 0.001],
    ['magnesium-chloride', [0.8633, 0.8953, 1.1092, 1.5253], 0.001],
    ['magnesium-sulfate', [0.5958, 0.5434, 0.5258, 0.6624], 0.001],
    ['sodium-bicarbonate', [0.9339, 0.9093, 0.8465], 0.001],
    ['ammonium-chloride', [0.9256, 0.9052, 0.8972, 0.9097], 0.001],
    ['sodium-phosphate-monobasic', [0.9081, 0.8614, 0.7856, 0.7283], 0.001],
    ['sodium-phosphate-dibasic', [0.794, 0.7198, 0.5955, 0.5343], 0.001],
    ['potassium-phosphate-monobasic', [0.903, 0.845, 0.7358], 0.001],
    ['potassium-phosphate-dibasic', [0.7981, 0.7389, 0.6675, 0.6618], 0.001],
    // By the set of Pitzer and Mayorga 1973, which was quoted from memory; the set taken is that of May et al. 2011.
    ['sodium-acetate', [0.9416, 0.9453, 1.0022, 1.093], 0.003],
  ])('%s: %j to %f', (salt, rows, within) => {
    rows.forEach((expected, index) => {
      expect(Math.abs(coefficient(salt, [0.1, 0.3, 1, 2][index]!) - expected)).toBeLessThanOrEqual(within);
    });
  });

  it.each(Object.entries(SALTS_FREEZING))(
    '%s: freezing points of the handbook lie within the uncertainty stated',
    (salt, { molarMass, rows }) => {
      const { uncertainty } = PITZER_SETS.find((set) => set.salt === salt)!;
      for (const [massPercent, depression] of rows) {
        const estimated = reading(salt, (10 * massPercent) / molarMass / (1 - massPercent / 100));
        const allowed = estimated * uncertainty * (1 + estimated / UNCERTAINTY_DOUBLES_AT);
        const measured = (1000 * depression) / 1.86;
        expect(Math.abs(estimated - measured), `${massPercent} %`).toBeLessThanOrEqual(
          Math.max(READING_UNCERTAINTY, allowed),
        );
      }
    },
  );

  it.each(PITZER_SETS.map((set) => [set.salt, set] as const))(
    '%s: rises with its strength, and is ideal once thin',
    (salt, set) => {
      expect(coefficient(salt, 1e-6)).toBeCloseTo(1, 1);
      expect(coefficient(salt, 1e-9)).toBeCloseTo(1, 3);
      let before = 0;
      for (let step = 1; step <= 100; step++) {
        const now = reading(salt, (FURTHEST * set.maxMolality * step) / 100);
        expect(now).toBeGreaterThan(before);
        before = now;
      }
    },
  );
});

describe('osmotic coefficients of mixtures', () => {
  // Reference-composition sea water (Millero et al. 2008, mol/kg of water at 35.165 g/kg, from memory; borate as chloride,
  // carbonate and bromide as chloride by charge). Coefficients from the Gibbs Seawater (TEOS-10) toolbox, python3-gsw
  // 3.6.16: (mu0 - mu)/(R·T·molality) of water at 25 °C.
  const SEA = [
    ['Na', 0.48606],
    ['K', 0.01058],
    ['Mg', 0.054742],
    ['Ca', 0.010657],
    ['Cl', 0.567233],
    ['SO4', 0.029264],
    ['HCO3', 0.00178],
  ] as const;

  it.each([
    [0.32165, 0.9012],
    [0.64986, 0.8971],
    [1.16058, 0.9026],
  ])('sea water of %f mol/kg: %f to 0.006, without theta and psi', (molality, expected) => {
    const ions = SEA.map(([formula, amount]) => ion(formula, (amount * molality) / 1.16058));
    expect(Math.abs(osmoticCoefficient(ions, interactionOf) - expected)).toBeLessThanOrEqual(0.006);
  });

  it('lie between their salts when they share an ion, here to 0.005', () => {
    // Zdanovskii's and Harned's rules hold nearly for sodium with potassium chloride (Robinson and Stokes).
    const mixed = osmoticCoefficient([ion('Na', 0.5), ion('K', 0.5), ion('Cl', 1)], interactionOf);
    const mean = (coefficient('sodium-chloride', 1) + coefficient('potassium-chloride', 1)) / 2;
    expect(Math.abs(mixed - mean)).toBeLessThanOrEqual(0.005);
  });

  it('do not depend on the order of the ions', () => {
    const ions = SEA.map(([formula, amount]) => ion(formula, amount));
    expect(osmoticCoefficient(ions.toReversed(), interactionOf)).toBeCloseTo(
      osmoticCoefficient(ions, interactionOf),
      12,
    );
  });

  it('is 1 for nothing', () => {
    expect(osmoticCoefficient([], interactionOf)).toBe(1);
  });
});
