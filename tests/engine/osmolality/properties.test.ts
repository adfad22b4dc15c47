import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Contents,
  decimal,
  defineParticle,
  ofSolute,
  osmolesPerMole,
  particles,
  plus,
  type Substance,
  substances,
  times,
  water,
} from '../../../src/engine/index.ts';
import { density } from '../../../src/engine/osmolality/density.ts';
import { osmolality } from '../../../src/engine/osmolality/osmolality.ts';
import { runs } from '../../runs.ts';

const DISSOLVING = substances().filter(({ gives }) => gives.length > 0);
/** An ion of a note's own, which no table knows. */
const NOWHERE = defineParticle({ name: 'nowhere', charge: -1, molarMass: null });

const amount = fc.double({ min: 0, max: 1e7, noNaN: true }).map((mmol) => decimal(mmol.toString()));
const volume = fc
  .oneof(fc.double({ min: 0, max: 5000, noNaN: true }), fc.constantFrom(0, 1e-200, 1e200))
  .map((millilitres) => decimal(millilitres.toString()));
const ofLabel = fc.array(fc.tuple(fc.constantFrom(...particles(), NOWHERE), amount), { maxLength: 4 });
const ofSubstances = fc.array(fc.tuple(fc.constantFrom(...DISSOLVING), amount), { maxLength: 5 });

/** Anything a mixture could come to hold, sensible or not. */
const contents: fc.Arbitrary<Contents> = fc
  .tuple(volume, ofSubstances, ofLabel)
  .map(([millilitres, solutes, label]) => {
    const known = solutes.map(([substance, mmol]) => ofSolute(substance, { in: 'mmol', value: mmol }, decimal(0)));
    const fromLabel: Contents = { ...water(millilitres), particles: new Map(label) };
    return known.reduce(plus, fromLabel);
  });

/** A litre of fluids such as are given. */
const sensible: fc.Arbitrary<Contents> = fc
  .array(fc.tuple(fc.constantFrom(...DISSOLVING), fc.double({ min: 0.01, max: 150, noNaN: true })), {
    minLength: 1,
    maxLength: 4,
  })
  .map((solutes) =>
    solutes
      .map(([substance, mmol]) => ofSolute(substance, { in: 'mmol', value: decimal(mmol.toString()) }, decimal(0)))
      .reduce(plus, water(decimal(1000))),
  );

const backwards = <K, T>(map: ReadonlyMap<K, T>) => new Map([...map].reverse());

function litre(substance: Substance, mmolPerL: number): Contents {
  return ofSolute(substance, { in: 'mmol', value: decimal(mmolPerL.toString()) }, decimal(1000));
}

describe('density and osmolality of anything', () => {
  it('are bounded numbers, or there is a reason', () => {
    fc.assert(
      fc.property(contents, (any) => {
        const [heavy, strong] = [density(any), osmolality(any)];
        if (heavy.ok) {
          for (const value of [heavy.gramsPerMl, heavy.waterGramsPerMl, heavy.within]) {
            expect(value).toBeGreaterThan(0);
            expect(value).toBeLessThan(5);
          }
        } else expect(['no-volume', 'no-water']).toContain(heavy.reason);
        if (strong.ok) {
          expect(strong.mOsmPerKg).toBeGreaterThanOrEqual(0);
          expect(strong.mOsmPerKg).toBeLessThanOrEqual(15_000);
          expect(strong.within).toBeGreaterThanOrEqual(3);
          expect(Number.isFinite(strong.within)).toBe(true);
        } else expect(['no-volume', 'no-water', 'charge-imbalance', 'too-strong']).toContain(strong.reason);
      }),
      runs(500),
    );
  });

  it('do not depend on the order of additions', () => {
    fc.assert(
      fc.property(contents, (any) => {
        const turned = { ...any, solutes: backwards(any.solutes), particles: backwards(any.particles) };
        expect(osmolality(turned)).toEqual(osmolality(any));
        expect(density(turned)).toEqual(density(any));
      }),
    );
  });

  it('do not depend on how much there is of a fluid', () => {
    fc.assert(
      fc.property(sensible, fc.double({ min: 0.01, max: 100, noNaN: true }), (fluid, factor) => {
        const [some, more] = [osmolality(fluid), osmolality(times(fluid, decimal(factor.toString())))];
        expect(more.ok).toBe(some.ok);
        if (some.ok && more.ok) expect(more.mOsmPerKg / some.mOsmPerKg).toBeCloseTo(1, 9);
      }),
    );
  });

  it('rise when any solute is added to a dilute fluid', () => {
    fc.assert(
      fc.property(sensible, fc.constantFrom(...DISSOLVING), (fluid, substance) => {
        const [before, after] = [
          osmolality(fluid),
          osmolality(plus(fluid, ofSolute(substance, { in: 'mmol', value: decimal(20) }, decimal(0)))),
        ];
        if (before.ok && after.ok) expect(after.mOsmPerKg).toBeGreaterThan(before.mOsmPerKg);
      }),
    );
  });
});

describe.each(DISSOLVING.map((substance) => [substance.id, substance] as const))('%s', (_, substance) => {
  it('makes a fluid heavier and stronger the more of it there is, until there is a reason to stop', () => {
    let [heavier, stronger] = [0.9982, 0];
    for (let mmolPerL = 0.5; mmolPerL < 20_000; mmolPerL *= 1.1) {
      const [heavy, strong] = [density(litre(substance, mmolPerL)), osmolality(litre(substance, mmolPerL))];
      if (!heavy.ok || !strong.ok) break;
      expect(heavy.gramsPerMl).toBeGreaterThan(heavier);
      expect(strong.mOsmPerKg).toBeGreaterThan(stronger);
      [heavier, stronger] = [heavy.gramsPerMl, strong.mOsmPerKg];
    }
    expect(stronger).toBeGreaterThan(0);
  });

  it('counts each of its particles once when it is very thin', () => {
    const thin = osmolality(litre(substance, 1e-4));
    expect(thin.ok && thin.mOsmPerKg / ((1e-4 * osmolesPerMole(substance)) / 0.9982)).toBeCloseTo(1, 2);
  });
});
