import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  amountOfParticle,
  anionSum,
  cationSum,
  DEFAULT_REFERENCE,
  decimal,
  findObservable,
  findStockFluid,
  findUnit,
  measure,
  measureRatio,
  particles,
  plus,
  stockFluids,
  times,
} from '../../src/engine/index.ts';
import { expectNear, expectPrinted, litreOf, madeUp, solute, value } from './helpers.ts';

const litre = (name: string) => findStockFluid(name)!.perLitre;
const ratio = (name: string) => {
  const measured = measureRatio(litre(name), findObservable('sodium to chloride ratio')!);
  return measured.ok ? measured.value.toFixed(2) : measured.problem;
};

describe('the strong ion difference once precursors are metabolised', () => {
  it.each([
    // Strong cations less strong anions by definition; the lactate, acetate and gluconate of the labels (28, 50, 27 mEq/L) are
    // what is left of the anions. NICE CG174: 29 for Hartmann's, 27 for Ringer's acetate.
    ['sodium chloride 0.9 %', '0', '0'],
    ['dextrose 5 %', '0', '0'],
    ["lactated Ringer's", '28', '0.5'],
    ['compound sodium lactate', '29', '1'],
    ["Ringer's acetate", '27', '0'],
    ['multiple electrolytes type 1', '50', '0.5'],
    ['balanced maintenance solution', '16', '0'],
    ['sodium bicarbonate 8.4 %', '1000', '0.5'],
    ['oral rehydration salts', '30', '0.5'],
    ['magnesium sulfate 50 %', '0', '0'],
    // An acid load: the ammonium becomes urea, the chloride stays.
    ['ammonium chloride 5 mEq/mL', '-5000', '1.5'],
  ])('%s: %s mEq/L', (name, mEq, within) => {
    expectNear(litre(name), 'strong ion difference', `${mEq} mEq/L`, within);
    expectNear(litre(name), 'bicarbonate precursors', `${mEq} mmol/L`, within);
  });

  it('counts no base for an acid, and three for a trisodium citrate', () => {
    expectPrinted(madeUp('10 mmol', 'sodium citrate dihydrate'), 'bicarbonate precursors', '30 mmol/L');
    const acid = madeUp('10 mmol', 'citric acid anhydrous');
    expectPrinted(acid, 'bicarbonate precursors', '0 mmol/L');
    expectPrinted(acid, 'citrate', '10 mmol/L');
    expectPrinted(acid, 'citrate', '0 mEq/L');
    expectPrinted(madeUp('10 mmol', 'acetic acid'), 'acetate', '10 mmol/L');
  });

  it('differs from the precursors by phosphate and by what a label does not name', () => {
    // Charges balance: what the strong ions leave is carried by the others.
    const weak = particles().filter(({ ion, strong, base }) => ion && !strong && base === 0);
    expect(weak.map(({ name }) => name)).toEqual(['dihydrogen phosphate', 'hydrogen phosphate', 'other anions']);
    const fluids = stockFluids().filter(({ perLitre }) => perLitre.notStated.length === 0);
    const share = fc.tuple(fc.constantFrom(...fluids), fc.integer({ min: 1, max: 1000 }));
    fc.assert(
      fc.property(fc.array(share, { minLength: 1, maxLength: 6 }), (parts) => {
        const mixed = parts.map(([{ perLitre }, percent]) => times(perLitre, decimal(percent).div(100))).reduce(plus);
        const difference = value(mixed, 'strong ion difference', 'mEq');
        const base = value(mixed, 'bicarbonate precursors', 'mEq');
        const others = weak.reduce(
          (sum, particle) => sum.plus(amountOfParticle(mixed, particle).times(0 - particle.charge)),
          decimal(0),
        );
        expect(difference.minus(base).minus(others).abs().lt('1e-20')).toBe(true);
      }),
    );
  });
});

describe('sums of charges, and the ratio of sodium to chloride', () => {
  it('counts positive and negative charges', () => {
    // Ringer's acetate, NICE CG174: 130 + 5 + 2 × 1 + 2 × 1 and 112 + 27.
    expectPrinted(litre("Ringer's acetate"), 'cation sum', '139 mEq/L');
    expectPrinted(litre("Ringer's acetate"), 'anion sum', '139 mEq/L');
    expectPrinted(litreOf(['2 mmol/L', 'dibasic potassium phosphate']), 'sum of anions', '4 mEq/L');
    const half = times(litre("Ringer's acetate"), decimal('0.5'));
    expect([cationSum(half).toFixed(1), anionSum(half).toFixed(1)]).toEqual(['69.5', '69.5']);
  });

  it.each([
    // NICE CG174 prints 1:1, 1.19:1, 1.18:1, 1.16:1, 1.43:1 and 1:1.
    ['sodium chloride 0.9 %', '1.00'],
    ["lactated Ringer's", '1.19'],
    ["Ringer's acetate", '1.16'],
    ['multiple electrolytes type 1', '1.43'],
    ['balanced maintenance solution', '1.00'],
    ['dextrose 5 %', 'no-chloride'],
  ])('%s: %s', (name, expected) => {
    expect(ratio(name)).toBe(expected);
  });

  it('rounds for Hartmann’s to 1.17, where the rounded ions of the guideline give 1.18', () => {
    expect(ratio('compound sodium lactate')).toBe('1.17');
  });

  it('has no unit, and is no answer to anything else', () => {
    const asked = findObservable('sodium to chloride ratio')!;
    expect(measure(litre('dextrose 5 %'), asked, findUnit('mmol/L')!, DEFAULT_REFERENCE)).toMatchObject({
      problem: 'wrong-dimension',
      fits: ['a number without a unit'],
    });
    expect(measureRatio(litre("lactated Ringer's"), findObservable('sodium')!)).toMatchObject({
      problem: 'no-such-result',
    });
  });
});

describe('energy', () => {
  it.each([
    // Product labels: 170 kcal/L for dextrose 5 %, 340 for 10 %; authorised texts of glucose 5 and 10 %: 200 and 400 kcal/L, 835
    // and 1675 kJ/L.
    ['dextrose 5 %', '170 kcal/L'],
    ['dextrose 10 % in sodium chloride 0.9 %', '340 kcal/L'],
    ['glucose 5 %', '200 kcal/L'],
    ['glucose 10 %', '400 kcal/L'],
    ['multiple electrolytes and dextrose type 1', '170 kcal/L'],
    ['sodium chloride 0.9 %', '0 kcal/L'],
    ["lactated Ringer's", '0 kcal/L'],
  ])('%s: %s', (name, energy) => {
    expectPrinted(litre(name), 'energy', energy);
  });

  it('is told in kJ and in all', () => {
    expectNear(litre('glucose 5 %'), 'energy', '835 kJ/L', '2');
    expectPrinted(times(litre('dextrose 5 %'), decimal('0.5')), 'energy', '85 kcal');
    // 25 g of glycerol: 4.32 kcal/g, from memory.
    expectPrinted(madeUp('25 g', 'glycerol'), 'energy', '108 kcal/L');
  });
});

describe('sodium chloride equivalents', () => {
  it('0.9 % of sodium chloride, or what does as much', () => {
    expectPrinted(litreOf(['0.9 %', 'sodium chloride']), 'sodium chloride equivalent', '0.9 %');
    // Boric acid 1.73 % at 0.52 (lecture notes in pharmaceutical calculation), dextrose 5 % and urea 1.63 % at handbook values
    // from memory: isotonic within a tenth.
    for (const [strength, name] of [
      ['1.73 %', 'boric acid'],
      ['5.5 %', 'dextrose'],
      ['5 %', 'glucose'],
      ['1.63 %', 'urea'],
      ['2.6 %', 'glycerol'],
      ['1.19 %', 'potassium chloride'],
    ] as const) {
      expectNear(litreOf([strength, name]), 'sodium chloride equivalent', '0.9 %', '0.09');
    }
  });

  it('adds them up, in g of the whole too', () => {
    // Lecture notes: phenacaine 0.6 g at 0.20 and chlorobutanol 0.3 g at 0.24 leave 0.348 g to 0.54 g in 60 mL, that is 0.669 g
    // of boric acid at 0.52.
    expectPrinted(madeUp('0.669 g', 'boric acid', 60), 'sodium chloride equivalent', '0.348 g');
  });

  it('says which solute has none', () => {
    const asked = findObservable('sodium chloride equivalent')!;
    const fluid = litreOf(['1 %', 'sodium gluconate'], ['0.45 %', 'sodium chloride']);
    expect(measure(fluid, asked, findUnit('%')!, DEFAULT_REFERENCE)).toEqual({
      ok: false,
      problem: 'not-stated',
      of: solute('sodium gluconate').name,
    });
    // Known by its label: no masses to weigh.
    expect(measure(litre("Ringer's acetate"), asked, findUnit('%')!, DEFAULT_REFERENCE)).toMatchObject({
      of: 'sodium',
    });
    expect(measure(litre('sodium chloride 0.9 %'), asked, findUnit('%')!, DEFAULT_REFERENCE).ok).toBe(true);
  });
});
