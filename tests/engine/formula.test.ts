import fc from 'fast-check';
import { MF } from 'mf-parser';
import { describe, expect, it } from 'vitest';
import { molarMass, parseFormula, particles, substances } from '../../src/engine/index.ts';

describe('formulas', () => {
  it('reads groups and water of crystallisation', () => {
    expect(Object.fromEntries(parseFormula('CaCl2·2H2O')!)).toEqual({ Ca: 1, Cl: 2, H: 4, O: 2 });
    expect(Object.fromEntries(parseFormula('C6H12O6·H2O')!)).toEqual({ C: 6, H: 14, O: 7 });
    expect(parseFormula('Ca(C6H11O7)2')).toEqual(
      new Map([
        ['Ca', 1],
        ['C', 12],
        ['H', 22],
        ['O', 14],
      ]),
    );
    expect(parseFormula('Mg(Al(OH)4)2')).toEqual(
      new Map([
        ['Mg', 1],
        ['Al', 2],
        ['O', 8],
        ['H', 8],
      ]),
    );
  });

  it.each(['', '·', 'NaCl·', 'Na(Cl', 'Na)Cl', 'nacl', 'Na Cl', '2', '0NaCl', 'Na0', '()', `C${'9'.repeat(99)}`])(
    'takes %j for no formula',
    (text) => {
      expect(parseFormula(text)).toBeNull();
      expect(molarMass(text)).toBeNull();
    },
  );

  it('has no molar mass for an element that is not in the table', () => {
    expect(parseFormula('XeF4')).not.toBeNull();
    expect(molarMass('XeF4')).toBeNull();
  });

  it('never fails on any text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom('Na', 'Cl', '2', '9', '(', ')', '·', '.') })),
        (text) => {
          const mass = molarMass(text);
          expect(mass === null || (mass.isFinite() && mass.gt(0))).toBe(true);
        },
      ),
    );
  });
});

describe('molar masses', () => {
  // Against the package mf-parser 3.9, which weighs by isotopes. It misreads a dot before a hydrate, so the water is written
  // as a group.
  const asGroup = (formula: string) => formula.replace(/·(\d*)H2O$/, '(H2O)$1');

  const weighed = substances().flatMap(({ name, formula, molarMass: mass }) =>
    formula && mass ? [[name, formula, mass] as const] : [],
  );

  it.each(weighed)('%s, %s, agrees with mf-parser to 0.01 g/mol', (_, formula, mass) => {
    expect(Math.abs(mass.toNumber() - new MF(asGroup(formula)).getInfo().mass)).toBeLessThan(0.01);
  });

  it.each([
    // Sodium chloride and magnesium sulfate: product labels; dextrose: United States Pharmacopeia 29; calcium chloride:
    // factor of the assay in United States Pharmacopeia 32 (there 147.02).
    ['sodium-chloride', 58.44],
    ['magnesium-sulfate-heptahydrate', 246.47],
    ['dextrose-monohydrate', 198.17],
    ['glucose-anhydrous', 180.16],
    ['sodium-bicarbonate', 84.01],
    ['calcium-chloride-dihydrate', 147.02],
    // United States Pharmacopeia 29 to 35: factors of assays (138.0, 268.1) and molar masses in the monographs.
    ['monobasic-sodium-phosphate-monohydrate', 138],
    ['dibasic-sodium-phosphate-heptahydrate', 268.06],
    ['tromethamine', 121.14],
    ['sodium-lactate', 112.06],
    ['glycine', 75.07],
    ['sodium-citrate-dihydrate', 294.09],
  ])('%s is printed as %d g/mol', (id, printed) => {
    const { molarMass: mass } = substances().find((substance) => substance.id === id)!;
    expect(Math.abs(mass!.toNumber() - printed)).toBeLessThan(0.013);
  });

  it('weighs an ion as its atoms', () => {
    const mass = (id: string) =>
      particles()
        .find((particle) => particle.id === id)!
        .molarMass!.toNumber();
    expect(Math.abs(mass('calcium') - new MF('Ca').getInfo().mass)).toBeLessThan(0.01);
    expect(Math.abs(mass('gluconate') - new MF('C6H11O7').getInfo().mass)).toBeLessThan(0.01);
  });
});
