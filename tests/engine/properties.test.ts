/** What must hold of any mixture: conservation, electroneutrality, linearity, exactness. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Contents,
  DEFAULT_REFERENCE,
  type Decimal,
  decimal,
  dryVolume,
  EMPTY,
  fixedObservables,
  formatDecimal,
  type MixStep,
  measure,
  mix,
  nearlyEqual,
  ONE,
  ofSolute,
  overload,
  particleById,
  plus,
  results,
  stockFluids,
  substanceById,
  substances,
  times,
  UNIT_SYMBOLS,
  unit,
  water,
  ZERO,
} from '../../src/engine/index.ts';

const SOLUTES = substances().filter(({ gives }) => gives.length > 0);

const positive = fc.integer({ min: 1, max: 10_000_000 }).map((number) => decimal(number).div(1000));
const dryAddition = fc
  .tuple(fc.constantFrom(...SOLUTES), positive)
  .map(([substance, mmol]) => ofSolute(substance, mmol, dryVolume(substance, mmol)));
const perMl: fc.Arbitrary<Contents> = fc.oneof(
  fc.constantFrom(...stockFluids()).map(({ perLitre }) => times(perLitre, decimal('0.001'))),
  fc.tuple(fc.constantFrom(...SOLUTES), positive).map(([substance, mmol]) => ofSolute(substance, mmol.div(1000), ONE)),
  fc.constant(water(ONE)),
);
const liquid = fc.tuple(perMl, positive).map(([fluid, volume]) => times(fluid, volume));
const addition = fc.oneof(dryAddition, liquid);

/** Steps that can always be done: what is withdrawn is a share of what is there. */
const steps: fc.Arbitrary<readonly MixStep[]> = fc
  .tuple(
    liquid,
    fc.array(
      fc.tuple(
        fc.constantFrom('add', 'make-up', 'withdraw', 'exchange'),
        addition,
        perMl,
        fc.integer({ min: 0, max: 100 }),
      ),
      { maxLength: 8 },
    ),
  )
  .map(([first, rest]) => {
    const made: MixStep[] = [{ kind: 'add', contents: first }];
    for (const [kind, contents, fluid, percent] of rest) {
      const held = mix(made).contents.volume;
      const share = held.times(percent).div(100);
      if (kind === 'add') made.push({ kind, contents });
      else if (kind === 'make-up') made.push({ kind, perMl: fluid, to: held.plus(share) });
      else if (kind === 'withdraw') made.push({ kind, volume: share });
      else made.push({ kind: 'exchange', volume: share, perMl: fluid });
    }
    return made;
  });

/** Nearly equal, counted against the largest number that went into it. */
const same = (a: Decimal, b: Decimal, scale: Decimal = ONE) => a.minus(b).abs().lte(scale.abs().plus(1).times('1e-28'));

const grams = (contents: Contents): Decimal =>
  [...contents.solutes].reduce((sum, [id, mmol]) => sum.plus(mmol.times(substanceById(id)!.molarMass)), ZERO);

/** mEq of positive less negative charges. */
const netCharge = (contents: Contents): Decimal =>
  [...contents.particles].reduce((sum, [id, mmol]) => sum.plus(mmol.times(particleById(id)!.charge)), ZERO);

const concentrations = (contents: Contents) =>
  new Map(results(contents, DEFAULT_REFERENCE).map(({ observable, value }) => [observable.id, value]));

describe('any mixture', () => {
  it('keeps what goes in and what goes out in balance, step by step', () => {
    fc.assert(
      fc.property(steps, (made) => {
        const { stages, fault, contents } = mix(made);
        expect(fault).toBeNull();
        for (const { before, added, removed, after } of stages) {
          const whole = plus(before, added ?? EMPTY);
          const parts = plus(after, removed ?? EMPTY);
          expect(same(whole.volume, parts.volume, whole.volume)).toBe(true);
          expect(same(grams(whole), grams(parts), grams(whole))).toBe(true);
          for (const [id, mmol] of whole.particles) expect(same(mmol, parts.particles.get(id)!, mmol)).toBe(true);
        }
        expect(contents).toBe(stages.at(-1)!.after);
      }),
    );
  });

  it('stays electrically neutral, and its particles stay those of its solutes', () => {
    fc.assert(
      fc.property(steps, (made) => {
        for (const { after } of mix(made).stages) {
          const scale = [...after.particles.values()].reduce((sum, mmol) => sum.plus(mmol), ZERO);
          expect(same(netCharge(after), ZERO, scale)).toBe(true);
          const expected = new Map<string, Decimal>();
          for (const [id, mmol] of after.solutes) {
            for (const { particle, count } of substanceById(id)!.gives) {
              expected.set(particle.id, mmol.times(count).plus(expected.get(particle.id) ?? ZERO));
            }
          }
          for (const [id, mmol] of after.particles) expect(same(mmol, expected.get(id)!, scale)).toBe(true);
        }
      }),
    );
  });

  it('never holds less than nothing', () => {
    fc.assert(
      fc.property(steps, (made) => {
        const { volume, solutes } = mix(made).contents;
        expect(volume.gte('-1e-25')).toBe(true);
        for (const mmol of solutes.values()) expect(mmol.gte('-1e-25')).toBe(true);
      }),
    );
  });

  it('does not mind the order of additions', () => {
    const orders = fc
      .array(addition, { minLength: 2, maxLength: 8 })
      .chain((list) => fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })));
    fc.assert(
      fc.property(orders, ([one, other]) => {
        const [a, b] = [one, other].map(
          (list) => mix(list.map((contents) => ({ kind: 'add', contents }) as const)).contents,
        );
        expect(same(a!.volume, b!.volume, a!.volume)).toBe(true);
        for (const [id, mmol] of a!.solutes) expect(same(mmol, b!.solutes.get(id)!, mmol)).toBe(true);
        for (const [id, mmol] of a!.particles) expect(same(mmol, b!.particles.get(id)!, mmol)).toBe(true);
      }),
    );
  });

  it('scales: totals with the recipe, concentrations not at all', () => {
    fc.assert(
      fc.property(fc.array(liquid, { minLength: 1, maxLength: 5 }), positive, (parts, factor) => {
        const once = parts.reduce(plus);
        const scaled = times(once, factor);
        expect(same(scaled.volume, once.volume.times(factor), scaled.volume)).toBe(true);
        const before = concentrations(once);
        for (const [id, value] of concentrations(scaled)) {
          const expected = id === 'volume' ? before.get(id)!.times(factor) : before.get(id)!;
          expect(same(value, expected, expected.abs().plus(1000)), id).toBe(true);
        }
      }),
    );
  });

  it('lies between its parts', () => {
    fc.assert(
      fc.property(liquid, liquid, (one, other) => {
        const [a, b] = [concentrations(one), concentrations(other)];
        for (const [id, value] of concentrations(plus(one, other))) {
          if (id === 'volume') continue;
          const ends = [a.get(id) ?? ZERO, b.get(id) ?? ZERO].sort((x, y) => x.cmp(y));
          const slack = ends[1]!.abs().plus(1000).times('1e-28');
          expect(value.gte(ends[0]!.minus(slack)) && value.lte(ends[1]!.plus(slack)), id).toBe(true);
        }
      }),
    );
  });

  it('comes to the same by exchange as by withdrawing and adding', () => {
    fc.assert(
      fc.property(liquid, perMl, fc.integer({ min: 1, max: 100 }), (first, fluid, percent) => {
        const volume = first.volume.times(percent).div(100);
        const start: MixStep = { kind: 'add', contents: first };
        const exchanged = mix([start, { kind: 'exchange', volume, perMl: fluid }]).contents;
        const apart = mix([
          start,
          { kind: 'withdraw', volume },
          { kind: 'make-up', perMl: fluid, to: first.volume },
        ]).contents;
        expect(same(exchanged.volume, first.volume, first.volume)).toBe(true);
        for (const [id, mmol] of exchanged.particles) expect(same(mmol, apart.particles.get(id)!, mmol)).toBe(true);
      }),
    );
  });

  it('is measured in any unit without failing, and always by a number', () => {
    const units = fc.tuple(fc.constantFrom(...UNIT_SYMBOLS), fc.constantFrom('', '/L', '/mL', '/kg')).map(([a, b]) => {
      const of = a.startsWith('%') || (b && a === 'L') ? a : a + b;
      return unit(of);
    });
    fc.assert(
      fc.property(steps, fc.constantFrom(...fixedObservables()), units, (made, observable, to) => {
        const { contents } = mix(made);
        const measured = measure(contents, observable, to, DEFAULT_REFERENCE);
        if (measured.ok) {
          expect(measured.value.isFinite()).toBe(true);
          expect(formatDecimal(measured.value)).toMatch(/^-?\d+(\.\d+)?$/);
        }
        const over = overload(contents);
        if (over) expect(over.gramsPer100gWater.isFinite() && over.limit.isFinite()).toBe(true);
      }),
    );
  });

  it('is exact: thirds add up', () => {
    const third = times(stockFluids()[0]!.perLitre, ONE.div(3));
    const sum = plus(plus(third, third), third);
    expect(nearlyEqual(sum.volume, decimal(1000))).toBe(true);
    expect(
      mix([
        { kind: 'add', contents: sum },
        { kind: 'withdraw', volume: decimal(1000) },
      ]).fault,
    ).toBeNull();
  });
});
