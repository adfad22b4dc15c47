import { describe, expect, it } from 'vitest';
import {
  anionSum,
  cationSum,
  DEFAULT_REFERENCE,
  type Decimal,
  decimal,
  findObservable,
  findSolute,
  findStockFluid,
  findUnit,
  freeWaterHolds,
  measure,
  measureRatio,
  overload,
  type Stated,
  type StockFluid,
  stockFluids,
  stockSolution,
  strengthOf,
} from '../../src/engine/index.ts';
import { expectNear, expectPrinted, quantity, solute, value } from './helpers.ts';

const FLUIDS = stockFluids().map((fluid) => [fluid.name, fluid] as const);

/** The figure that is worked out beside a stated one; the data write the unit of a ratio as 1. */
function workedOut({ perLitre }: StockFluid, { observable, unit }: Stated): Decimal {
  const asked = findObservable(observable)!;
  if (unit !== '1') return value(perLitre, observable, unit);
  const ratio = measureRatio(perLitre, asked);
  if (!ratio.ok) throw new Error(ratio.problem);
  return ratio.value;
}

const litre = (name: string) => findStockFluid(name)!.perLitre;

describe('every stock fluid', () => {
  it.each(FLUIDS)('%s agrees with what is stated of it, or says why not', (_, fluid) => {
    // What labels, pharmacopoeias and guidelines print; the source stands beside each figure in shared/stock-fluids.
    for (const figure of fluid.stated) {
      const off = workedOut(fluid, figure).minus(figure.value).abs();
      const halfUnit = decimal(10).pow(-figure.value.decimalPlaces()).div(2);
      if (off.lte(halfUnit)) continue;
      expect(fluid.difference, `${figure.observable}: off by ${off.toFixed(3)}`).not.toBe('');
      const share = off.div(figure.value);
      // A measured osmolarity of amino acids, and a label that counts the energy of lactate.
      const explained = ['amino acids 10 %', "lactated Ringer's and dextrose"].includes(fluid.name);
      expect(share.lte(explained ? '0.09' : '0.05'), `${figure.observable}: off by ${share.toFixed(3)}`).toBe(true);
    }
  });

  it.each(FLUIDS)('%s is electrically neutral', (_, { perLitre }) => {
    expect(cationSum(perLitre).minus(anionSum(perLitre)).abs().lt('1e-25')).toBe(true);
  });

  it.each(FLUIDS)('%s can be dissolved', (_, { perLitre }) => {
    expect(overload(perLitre)).toBeNull();
  });

  it.each(FLUIDS)('%s fills a litre and has something to show for itself', (_, fluid) => {
    expect(fluid.perLitre.volume.toString()).toBe('1000');
    expect([fluid.note, fluid.group, ...fluid.sources].every((text) => text !== '')).toBe(true);
    expect(findStockFluid(fluid.name)).toBe(fluid);
  });
});

describe('fluids by name', () => {
  it.each([
    ['lactated ringer’s and dextrose', 'lactated-ringers-dextrose'],
    ["half strength lactated ringer's and dextrose", 'half-strength-lactated-ringers-dextrose'],
    ["ringer's acetate", 'ringers-acetate'],
    ['balanced maintenance', 'balanced-maintenance-glucose'],
    ['multiple electrolytes and dextrose injection type 1', 'multiple-electrolytes-dextrose-type-1'],
    ['potassium phosphates', 'potassium-phosphates'],
    ['sodium phosphates injection', 'sodium-phosphates'],
    ['trometamol injection', 'tromethamine'],
    ['anticoagulant citrate dextrose solution a', 'anticoagulant-citrate-dextrose-a'],
    ['who oral rehydration salts', 'oral-rehydration-salts'],
    ['reduced osmolarity oral rehydration solution', 'oral-rehydration-salts'],
    ['sodium lactate M/6', 'sodium-lactate-sixth-molar'],
  ])('reads %s', (key, id) => {
    expect(findStockFluid(key)!.id).toBe(id);
  });
});

describe('names of fluids', () => {
  it('hold no word that joins parts of a fluid in a note', () => {
    // `in` and `with` dissolve one fluid in another, `as` says what carries an ion, `to` makes up: the name would be cut there. The
    // mixtures and strengths are written out in those words.
    const cut = stockFluids().filter(({ name }) => / (with|as|to) /.test(name));
    expect(cut.map(({ name }) => name)).toEqual([]);
    for (const { name, group } of stockFluids()) {
      if (/ in /.test(name)) expect(group).toContain('Mixtures');
    }
  });
});

describe('fluids by their salts', () => {
  it('WHO oral rehydration salts, reduced osmolarity: 75/20/65/10/75 mmol/L, 245 mOsm/L', () => {
    // World Health Organization, 2006: the salts in grams, and the rounded mmol/L. To one digit more by hand: sodium
    // 2.6 ÷ 58.44 + 3 × 2.9 ÷ 294.099 = 74.07 mmol/L.
    const solution = litre('oral rehydration salts');
    expectNear(solution, 'sodium', '75 mmol/L', '1');
    expectPrinted(solution, 'sodium', '74.07 mmol/L');
    expectPrinted(solution, 'potassium', '20 mmol/L');
    expectPrinted(solution, 'chloride', '65 mmol/L');
    expectPrinted(solution, 'glucose', '75 mmol/L');
    expectPrinted(solution, 'citrate', '10 mmol/L');
    expectNear(solution, 'osmolarity', '245 mOsm/L', '1.5');
  });

  it('anticoagulant citrate dextrose solution A: 224 mEq/L of base, not three for each citrate', () => {
    // United States Pharmacopeia 29: 7.3 g of citric acid, 22 g of sodium citrate dihydrate in 1 L; limits of total citrate
    // as anhydrous citric acid 20.59 to 22.75 g, of sodium 4.90 to 5.42 g. By hand 3 × 22 ÷ 294.099 = 224.4 mmol.
    const solution = litre('anticoagulant citrate dextrose solution A');
    expectPrinted(solution, 'strong ion difference', '224 mEq/L');
    expectPrinted(solution, 'bicarbonate precursors', '224 mmol/L');
    const citrate = value(solution, 'citrate', 'mmol/L');
    const asAcid = citrate.times(solute('citric acid anhydrous').molarMass!).div(1000);
    expect(asAcid.gt('20.59') && asAcid.lt('22.75')).toBe(true);
    expect(citrate.times(3).gt(330)).toBe(true);
    const sodium = value(solution, 'elemental sodium', 'g/L');
    expect(sodium.gt('4.90') && sodium.lt('5.42')).toBe(true);
  });

  it('potassium phosphates: 3 mmol of phosphorus and 4.4 or 4.7 mEq of potassium per mL', () => {
    // Product labels; 7.4 mOsm/mL for the older one.
    const older = litre('potassium phosphates');
    expectPrinted(older, 'phosphate', '3 mmol/mL');
    expectPrinted(older, 'elemental phosphorus', '93 mg/mL');
    expectPrinted(older, 'potassium', '4.4 mEq/mL');
    expectPrinted(older, 'osmolarity', '7.4 mOsm/mL');
    const newer = litre('potassium phosphates newer label');
    expectPrinted(newer, 'phosphate', '3 mmol/mL');
    expectPrinted(newer, 'potassium', '4.7 mEq/mL');
    expectNear(newer, 'potassium', '4.7333 mEq/mL', '0.003');
  });

  it('sodium phosphates: 3 mmol of phosphorus and 4 mEq of sodium per mL', () => {
    // Product label: 93 mg of phosphorus, 92 mg of sodium, 7 mOsm/mL.
    const fluid = litre('sodium phosphates');
    expectPrinted(fluid, 'phosphorus', '3 mmol/mL');
    expectPrinted(fluid, 'sodium', '4 mEq/mL');
    expectPrinted(fluid, 'elemental phosphate', '93 mg/mL');
    expectPrinted(fluid, 'elemental sodium', '92 mg/mL');
    expectPrinted(fluid, 'osmolarity', '7 mOsm/mL');
  });

  it('calcium gluconate injection: 0.465 mEq of calcium per mL, from both its salts', () => {
    // Product label: 98 mg of calcium gluconate monohydrate, 4.6 mg of calcium saccharate tetrahydrate, 9.3 mg of calcium.
    expectNear(litre('calcium gluconate injection'), 'calcium', '0.465 mEq/mL', '0.001');
    expectPrinted(litre('calcium gluconate injection'), 'elemental calcium', '9.3 mg/mL');
  });
});

describe('fluids by their labels', () => {
  it('Ringer’s acetate: 130/5/1/1/112/27 mmol/L, 276 mOsm/L (NICE CG174)', () => {
    const fluid = findStockFluid("Ringer's acetate")!;
    expect([fluid.by, fluid.recipe]).toEqual(['label', []]);
    expectPrinted(fluid.perLitre, 'calcium', '2 mEq/L');
    expectPrinted(fluid.perLitre, 'osmolarity', '276 mOsm/L');
    expectPrinted(fluid.perLitre, 'free water', '123 mL/L');
  });

  it('albumin: grams that count no osmoles, sodium of the label, chloride not stated', () => {
    // United States Pharmacopeia 29 and Handbook on Injectable Drugs: 5, 20 or 25 g in 100 mL, sodium 130 to 160 mEq/L, 145
    // usual; about 300 mOsm/L.
    for (const [percent, grams] of [
      ['5 %', '50'],
      ['20 %', '200'],
      ['25 %', '250'],
    ] as const) {
      const { perLitre } = stockSolution(solute('human albumin'), quantity(percent))!;
      expectPrinted(perLitre, 'albumin', `${grams} g`);
      expectPrinted(perLitre, 'albumin', percent);
      expectPrinted(perLitre, 'sodium', '145 mEq/L');
      expectPrinted(perLitre, 'osmolarity', '290 mOsm/L');
      const asked = (name: string, unit: string) =>
        measure(perLitre, findObservable(name)!, findUnit(unit)!, DEFAULT_REFERENCE);
      expect(asked('chloride', 'mmol/L')).toEqual({ ok: false, problem: 'not-stated', of: 'chloride' });
      expect(asked('strong ion difference', 'mEq/L')).toMatchObject({ problem: 'not-stated' });
      expect(asked('albumin', 'mmol/L')).toMatchObject({ problem: 'wrong-dimension', fits: ['g/L', '%', 'g'] });
      expect(measureRatio(perLitre, findObservable('sodium to chloride ratio')!)).toMatchObject({ of: 'chloride' });
    }
  });

  it('albumin is to be had in no other strength, nor dry', () => {
    const { substance } = findSolute('albumin')!;
    expect(substance.solutionOnly).toBe(true);
    expect(stockSolution(substance, quantity('4 %'))).toBeNull();
    expect(stockSolution(substance, quantity('50 mmol/L'))).toBeNull();
    expect(stockSolution(solute('dextrose'), quantity('5 %'))).toBeNull();
    expect(strengthOf(quantity('4 %'), substance, null, false)).toMatchObject({
      fault: { problem: 'no-such-solution', strengths: ['5 %', '20 %', '25 %'] },
    });
  });

  it('amino acids 15 %: the particles of the label add up to its osmolarity', () => {
    // Product label: acetate 151 mEq/L, 1383 mOsm/L; and each amino acid in mg in 100 mL, over its molar mass (handbook values,
    // from memory).
    const mgPer100mL: readonly (readonly [number, number])[] = [
      [1180, 146.19],
      [1040, 131.17],
      [1040, 165.19],
      [960, 117.15],
      [749, 131.17],
      [749, 149.21],
      [749, 119.12],
      [250, 204.23],
      [2170, 89.09],
      [1470, 174.2],
      [1040, 75.07],
      [894, 155.16],
      [894, 115.13],
      [749, 147.13],
      [592, 105.09],
      [434, 133.1],
      [39, 181.19],
    ];
    const sum = mgPer100mL.reduce((total, [mg, mass]) => total + (mg * 10) / mass, 0);
    const { perLitre } = stockSolution(solute('amino acids'), quantity('15 %'))!;
    const held = value(perLitre, 'osmolarity', 'mOsm/L').minus(151).minus('6.4');
    expect(Math.abs(held.toNumber() - sum)).toBeLessThan(0.5);
    expectPrinted(perLitre, 'energy', '600 kcal/L');
  });

  it('says where the rule of free water does not hold', () => {
    for (const name of [
      'mannitol 20 %',
      'albumin 5 %',
      'amino acids 10 %',
      'glycine 1.5 %',
      'tromethamine injection',
    ]) {
      expect(freeWaterHolds(litre(name)), name).toBe(false);
    }
    for (const name of ['dextrose 5 %', "lactated Ringer's", 'anticoagulant citrate dextrose solution A']) {
      expect(freeWaterHolds(litre(name)), name).toBe(true);
    }
  });
});
