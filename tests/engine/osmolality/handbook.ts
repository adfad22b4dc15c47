/**
 * Rows of the CRC Handbook of Chemistry and Physics, 102nd edition (2021), "Concentrative properties of aqueous solutions",
 * 20 °C, that the reference data do not hold, so that what lies between their rows is checked too.
 */

/** g of anhydrous solute in 100 g of solution, and g/mL; by family. */
export const DENSITIES: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
  'sodium-chloride': [
    [4, 1.0268],
    [8, 1.0559],
    [12, 1.0857],
    [18, 1.1319],
  ],
  'sodium-citrate': [
    [3, 1.0186],
    [8, 1.0557],
    [14, 1.1019],
    [32, 1.2487],
  ],
  'sodium-phosphate-monobasic': [
    [3, 1.0206],
    [8, 1.0589],
    [15, 1.1152],
  ],
  'ammonium-chloride': [
    [3, 1.0076],
    [8, 1.0227],
    [15, 1.0429],
  ],
  'magnesium-chloride': [
    [2, 1.0144],
    [7, 1.0564],
    [14, 1.1189],
  ],
  'magnesium-sulfate': [
    [3, 1.0289],
    [7, 1.0708],
    [14, 1.1484],
    [24, 1.2701],
  ],
  dextrose: [
    [3, 1.0097],
    [8, 1.0294],
    [12, 1.0457],
    [18, 1.071],
    [26, 1.1063],
    [36, 1.1529],
    [48, 1.213],
    [54, 1.2451],
  ],
  mannitol: [
    [3, 1.0088],
    [7.5, 1.0248],
    [12, 1.0412],
  ],
  glycerol: [
    [7, 1.0144],
    [14, 1.0311],
    [28, 1.0664],
    [36, 1.0876],
    [48, 1.12],
  ],
  urea: [
    [3, 1.0058],
    [7, 1.0165],
    [15, 1.0388],
    [30, 1.0812],
  ],
  tromethamine: [
    [7, 1.0153],
    [14, 1.0335],
    [28, 1.0723],
  ],
  sucrose: [
    [7, 1.0259],
    [15, 1.0592],
    [24, 1.099],
    [36, 1.1562],
    [46, 1.2079],
  ],
  'citric-acid': [
    [3, 1.0105],
    [7, 1.0274],
    [14, 1.058],
    [26, 1.1147],
  ],
};

/** mol/kg, and °C below the freezing point of water; by family. */
export const MOLECULES_FREEZING: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
  dextrose: [
    [0.483, 0.91],
    [0.757, 1.44],
    [1.218, 2.35],
    [1.95, 3.9],
  ],
  mannitol: [
    [0.477, 0.9],
    [0.749, 1.41],
  ],
  glycerol: [
    [0.817, 1.56],
    [1.768, 3.47],
  ],
  urea: [
    [1.253, 2.22],
    [2.27, 3.95],
    [5.85, 9.52],
  ],
  tromethamine: [
    [0.527, 0.97],
    [1.344, 2.47],
  ],
  sucrose: [
    [0.361, 0.7],
    [0.923, 1.89],
    [1.643, 3.63],
  ],
  'citric-acid': [
    [0.392, 0.76],
    [0.991, 1.95],
    [1.644, 3.21],
  ],
};

/** By family of the salt: g/mol of its anhydrous form; g of it in 100 g of solution, and °C below water's freezing point. */
export const SALTS_FREEZING: Readonly<
  Record<string, { readonly molarMass: number; readonly rows: readonly (readonly [number, number])[] }>
> = {
  'sodium-chloride': {
    molarMass: 58.443,
    rows: [
      [0.5, 0.3],
      [1, 0.59],
      [3, 1.79],
      [5, 3.05],
      [7, 4.38],
    ],
  },
  'potassium-chloride': {
    molarMass: 74.551,
    rows: [
      [1, 0.46],
      [2, 0.92],
      [5, 2.32],
      [10, 4.81],
    ],
  },
  'calcium-chloride': {
    molarMass: 110.984,
    rows: [
      [1, 0.44],
      [5, 2.35],
      [7, 3.57],
      [10, 5.86],
    ],
  },
  'magnesium-chloride': {
    molarMass: 95.211,
    rows: [
      [1, 0.52],
      [2, 1.06],
      [5, 3.01],
    ],
  },
  'magnesium-sulfate': {
    molarMass: 120.368,
    rows: [
      [1, 0.19],
      [4, 0.69],
      [10, 1.85],
      [14, 2.86],
    ],
  },
  'sodium-bicarbonate': {
    molarMass: 84.007,
    rows: [
      [1, 0.4],
      [2, 0.78],
      [4, 1.54],
      [6, 2.26],
    ],
  },
  'sodium-acetate': {
    molarMass: 82.034,
    rows: [
      [1, 0.43],
      [2, 0.88],
      [5, 2.32],
    ],
  },
  'ammonium-chloride': {
    molarMass: 53.492,
    rows: [
      [1, 0.64],
      [5, 3.25],
      [10, 6.95],
    ],
  },
  'sodium-phosphate-monobasic': {
    molarMass: 119.977,
    rows: [
      [1, 0.28],
      [2, 0.56],
      [5, 1.39],
      [10, 2.58],
    ],
  },
  'sodium-phosphate-dibasic': {
    molarMass: 141.959,
    rows: [
      [0.5, 0.17],
      [1, 0.32],
    ],
  },
  'potassium-phosphate-monobasic': {
    molarMass: 136.085,
    rows: [
      [1, 0.25],
      [2, 0.49],
      [5, 1.19],
      [10, 2.23],
    ],
  },
  'potassium-phosphate-dibasic': {
    molarMass: 174.176,
    rows: [
      [1, 0.25],
      [2, 0.49],
      [5, 1.22],
      [8, 1.95],
    ],
  },
  'sodium-citrate': {
    molarMass: 258.069,
    rows: [
      [1, 0.2],
      [2, 0.39],
      [4, 0.79],
      [5, 0.97],
      [10, 1.96],
      [20, 4.39],
    ],
  },
  'sodium-sulfate': {
    molarMass: 142.043,
    rows: [
      [1, 0.32],
      [2, 0.61],
      [5, 1.36],
    ],
  },
};
