import { describe, expect, it } from 'vitest';
import {
  DEFAULT_REFERENCE,
  decimal,
  defineSubstance,
  EMPTY,
  findIon,
  findObservable,
  measure,
  ONE,
  ofSolute,
  type Substance,
  strengthOf,
  times,
  unit,
  workingText,
} from '../../src/engine/index.ts';
import { litreOf, mmol, quantity, solute } from './helpers.ts';
import { DENSITIES } from './osmolality/handbook.ts';

const byWeight = (percent: number | string, substance: Substance, ion: string | null = null) =>
  strengthOf({ value: decimal(percent), unit: unit('% w/w') }, substance, ion === null ? null : findIon(ion), false);

/** g/L that so many per cent of the weight make. */
function gramsPerLitre(percent: number | string, substance: Substance): number {
  const reading = byWeight(percent, substance);
  if (!reading.ok) throw new Error(reading.fault.problem);
  const { in: measure, value } = reading.perMl;
  const grams = measure === 'g' ? value : value.times(substance.molarMass!).div(1000);
  return grams.times(1000).toNumber();
}

function own(apparentVolume: string, molarMass: string | null): Substance {
  const defined = defineSubstance({
    name: 'abc',
    molarMass: molarMass === null ? null : decimal(molarMass),
    gives: [],
    apparentVolume: decimal(apparentVolume),
  });
  if (!defined.ok) throw new Error(defined.fault.problem);
  return defined.substance;
}

describe('strengths by weight', () => {
  // Mass per cent times density, CRC Handbook of Chemistry and Physics, 102nd edition, 20 °C.
  it.each([
    ['sodium chloride', 'sodium-chloride'],
    ['glucose anhydrous', 'dextrose'],
    ['mannitol', 'mannitol'],
    ['glycerol', 'glycerol'],
    ['magnesium sulfate anhydrous', 'magnesium-sulfate'],
  ])('%s: grams in a litre to 0.2 % of the handbook', (name, family) => {
    for (const [massPercent, density] of DENSITIES[family]!) {
      const expected = massPercent * density * 10;
      expect(Math.abs(gramsPerLitre(massPercent, solute(name)) / expected - 1), `${massPercent} %`).toBeLessThan(0.002);
    }
  });

  it('weigh the water of the crystal with the salt', () => {
    // 24 g of the anhydrous salt weigh 24 × 246.466 ÷ 120.361 = 49.145 g with their water; handbook, 1.2701 g/mL.
    const found = gramsPerLitre('49.145', solute('magnesium sulfate heptahydrate'));
    expect(Math.abs(found / (491.45 * 1.2701) - 1)).toBeLessThan(0.002);
  });

  it('are worked out for what has no molar mass, and for what has', () => {
    // 0.7 mL/g beside water of 0.9982 g/mL: c = 0.1 × (c + 0.9982 × (1 − 0.7 c)), so c = 0.09982 ÷ (1 − 0.1 × 0.30126).
    for (const molarMass of [null, '500']) {
      expect(gramsPerLitre(10, own('0.7', molarMass))).toBeCloseTo(102.92, 1);
    }
  });

  it('come to no more digits than the model has', () => {
    const digits = [7, 20, 33].map((percent) => {
      const reading = byWeight(percent, own('0.7', null));
      return reading.ok ? reading.perMl.value.precision() : null;
    });
    expect(Math.max(...digits.map(Number))).toBe(6);
  });

  it('may be none, and less than the whole', () => {
    expect(gramsPerLitre(0, solute('sodium chloride'))).toBe(0);
    for (const percent of [-1, 100, 101]) {
      expect(byWeight(percent, solute('sodium chloride')), `${percent} %`).toMatchObject({
        ok: false,
        fault: { problem: 'wrong-dimension', fits: ['%', 'g/L'], got: unit('% w/w').dimension },
      });
    }
  });

  it('are none where the answer lies beyond the model', () => {
    // Without a volume of its own, 80 % by weight is 0.8 × 0.9982 ÷ 0.2 = 3.99 g/mL: no solution is so heavy.
    expect(byWeight(80, own('0', null))).toMatchObject({ ok: false, fault: { problem: 'wrong-dimension' } });
    // 60 %: 0.6 × 0.9982 ÷ 0.4 = 1.4973 g/mL, which is within it.
    expect(gramsPerLitre(60, own('0', null))).toBeCloseTo(1497.3, 0);
    expect(byWeight(99, solute('calcium chloride anhydrous'))).toMatchObject({ ok: false });
  });

  it('are told with the mass in a litre first', () => {
    // Handbook: 20 % weighs 1.1478 g/mL, 229.56 g/L.
    const reading = byWeight(20, solute('sodium chloride'));
    expect(reading.ok && reading.working.map(workingText)).toEqual([
      '20 % w/w = 229.6 g/L',
      '229.56 g/L ÷ 58.44 g/mol = 3928 mmol/L',
    ]);
    expect(reading.ok && reading.working[0]!.of).toBe('sodium chloride');
  });

  it('are refused as the mass in a litre would be', () => {
    expect(byWeight(5, solute('albumin'))).toMatchObject({ fault: { problem: 'no-such-solution' } });
    expect(byWeight(5, solute('calcium chloride'), 'calcium')).toMatchObject({
      fault: { problem: 'elemental-or-salt' },
    });
  });
});

describe('results by weight', () => {
  const share = (contents: Parameters<typeof measure>[0], observable: string) =>
    measure(contents, findObservable(observable)!, unit('% w/w'), DEFAULT_REFERENCE);

  it('are the mass in the mass of the solution', () => {
    // Handbook: 18 % weighs 1.1319 g/mL.
    const fluid = litreOf(['203.742 g/L', 'sodium chloride']);
    const measured = share(fluid, 'sodium chloride');
    expect(measured.ok && measured.value.toNumber()).toBeCloseTo(18, 1);
    expect(measured.ok && measured.unit.symbol).toBe('% w/w');
    // As a share of itself it may be off by as much as the density may.
    const density = measure(fluid, findObservable('density')!, unit('g/mL'), DEFAULT_REFERENCE);
    if (!measured.ok || !density.ok) throw new Error('not estimated');
    const [off, expected] = [measured, density].map(({ within, value }) => within!.div(value).toNumber());
    expect(off! / expected!).toBeCloseTo(1, 3);
  });

  it('do not depend on how much there is', () => {
    const litre = litreOf(['5 %', 'dextrose']);
    expect(share(times(litre, decimal('0.1')), 'dextrose')).toEqual(share(litre, 'dextrose'));
  });

  it('are none of what has no mass, and where there is no density', () => {
    const litre = litreOf(['0.9 %', 'sodium chloride']);
    expect(share(litre, 'osmolarity')).toMatchObject({ ok: false, problem: 'wrong-dimension' });
    expect(share(litre, 'sodium')).toMatchObject({ ok: false, problem: 'elemental-or-salt' });
    expect(share(litre, 'rate')).toEqual({ ok: false, problem: 'no-such-result' });
    expect(share(EMPTY, 'sodium chloride')).toEqual({ ok: false, problem: 'no-estimate', why: 'no-volume' });
    const dryHeap = ofSolute(solute('sodium chloride'), mmol(60), ONE);
    expect(share(dryHeap, 'sodium chloride')).toEqual({ ok: false, problem: 'no-estimate', why: 'no-water' });
  });

  it('give back the strength by weight that was asked for', () => {
    for (const percent of [1, 10, 25]) {
      const strength = `${gramsPerLitre(percent, solute('sodium chloride'))} g/L`;
      expect(quantity(strength).unit.symbol).toBe('g/L');
      const measured = share(litreOf([strength, 'sodium chloride']), 'sodium chloride');
      expect(measured.ok && measured.value.toNumber()).toBeCloseTo(percent, 3);
    }
  });
});
