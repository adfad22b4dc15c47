/** What must hold of any mixture: conservation, electroneutrality, linearity, exactness. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Contents,
  DEFAULT_REFERENCE,
  type Decimal,
  decimal,
  defineSubstance,
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
  type Particle,
  particleById,
  plus,
  results,
  type Substance,
  type SubstanceDefinition,
  stockFluids,
  substances,
  times,
  UNIT_SYMBOLS,
  unit,
  water,
  ZERO,
} from '../../src/engine/index.ts';
import { mmol } from './helpers.ts';

const OWN_SALT = defined({
  name: 'sodium thiosulfate',
  molarMass: decimal('158.1'),
  gives: [
    { particle: particleById('sodium')!, count: 2 },
    { particle: { name: 'thiosulfate', charge: null, molarMass: null }, count: 1 },
  ],
});
const DRUG = defined({ name: 'norepinephrine', molarMass: null, gives: [] });
const SOLUTES = [...substances().filter(({ gives }) => gives.length > 0), OWN_SALT];

const positive = fc.integer({ min: 1, max: 10_000_000 }).map((number) => decimal(number).div(1000));
const dryAddition = fc
  .tuple(fc.constantFrom(...SOLUTES), positive)
  .map(([substance, amount]) => ofSolute(substance, mmol(amount), dryVolume(substance, mmol(amount))));
const drug = fc
  .tuple(fc.constantFrom('g', 'units'), positive)
  .map(([measure, amount]) => ofSolute(DRUG, { in: measure, value: amount }, decimal('0.001')));
const bySalts: fc.Arbitrary<Contents> = fc.oneof(
  fc
    .constantFrom(...stockFluids().filter(({ by }) => by === 'salts'))
    .map(({ perLitre }) => times(perLitre, decimal('0.001'))),
  fc
    .tuple(fc.constantFrom(...SOLUTES), positive)
    .map(([substance, amount]) => ofSolute(substance, mmol(amount.div(1000)), ONE)),
  fc.constant(water(ONE)),
);
const perMl: fc.Arbitrary<Contents> = fc.oneof(
  bySalts,
  fc
    .constantFrom(...stockFluids().filter(({ by }) => by === 'label'))
    .map(({ perLitre }) => times(perLitre, decimal('0.001'))),
);
const volumeOf = (fluid: fc.Arbitrary<Contents>) =>
  fc.tuple(fluid, positive).map(([contents, volume]) => times(contents, volume));
const liquid = volumeOf(perMl);
const addition = fc.oneof(dryAddition, drug, liquid);

/** Steps that can always be done: what is withdrawn is a share of what is there. */
const stepsOf = (fluid: fc.Arbitrary<Contents>): fc.Arbitrary<readonly MixStep[]> =>
  fc
    .tuple(
      volumeOf(fluid),
      fc.array(
        fc.tuple(
          fc.constantFrom('add', 'make-up', 'withdraw', 'exchange'),
          fc.oneof(dryAddition, drug, volumeOf(fluid)),
          fluid,
          fc.integer({ min: 0, max: 100 }),
        ),
        { maxLength: 8 },
      ),
    )
    .map(([first, rest]) => {
      const made: MixStep[] = [{ kind: 'add', contents: first }];
      for (const [kind, contents, of, percent] of rest) {
        const held = mix(made).contents.volume;
        const share = held.times(percent).div(100);
        if (kind === 'add') made.push({ kind, contents });
        else if (kind === 'make-up') made.push({ kind, perMl: of, to: held.plus(share) });
        else if (kind === 'withdraw') made.push({ kind, volume: share });
        else made.push({ kind: 'exchange', volume: share, perMl: of });
      }
      return made;
    });
const steps = stepsOf(perMl);

function defined(definition: SubstanceDefinition): Substance {
  const made = defineSubstance(definition);
  if (!made.ok) throw new Error(made.fault.problem);
  return made.substance;
}

/** Nearly equal, counted against the largest number that went into it. */
const same = (a: Decimal, b: Decimal, scale: Decimal = ONE) => a.minus(b).abs().lte(scale.abs().plus(1).times('1e-28'));

const grams = (contents: Contents): Decimal =>
  [...contents.solutes].reduce((sum, [{ molarMass }, amount]) => sum.plus(amount.times(molarMass!)), ZERO);

/** mEq of positive less negative charges. */
const netCharge = (contents: Contents): Decimal =>
  [...contents.particles].reduce((sum, [{ charge }, amount]) => sum.plus(amount.times(charge)), ZERO);

/** Everything that is counted, by its measure and its name. */
const amountsIn = ({ particles, masses, activities }: Contents): ReadonlyMap<string, Decimal> =>
  new Map([
    ...[...particles].map(([{ name }, amount]) => [`mmol ${name}`, amount] as const),
    ...[...masses].map(([{ name }, amount]) => [`g ${name}`, amount] as const),
    ...[...activities].map(([{ name }, amount]) => [`units ${name}`, amount] as const),
  ]);

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
          const kept = amountsIn(parts);
          for (const [name, amount] of amountsIn(whole)) expect(same(amount, kept.get(name)!, amount), name).toBe(true);
        }
        expect(contents).toBe(stages.at(-1)!.after);
      }),
    );
  });

  it('stays electrically neutral', () => {
    fc.assert(
      fc.property(steps, (made) => {
        for (const { after } of mix(made).stages) {
          const scale = [...after.particles.values()].reduce((sum, amount) => sum.plus(amount), ZERO);
          expect(same(netCharge(after), ZERO, scale)).toBe(true);
        }
      }),
    );
  });

  it('holds the particles of its solutes, where no label adds others', () => {
    fc.assert(
      fc.property(stepsOf(bySalts), (made) => {
        for (const { after } of mix(made).stages) {
          const scale = [...after.particles.values()].reduce((sum, amount) => sum.plus(amount), ZERO);
          const expected = new Map<Particle, Decimal>();
          for (const [{ gives }, amount] of after.solutes) {
            for (const { particle, count } of gives) {
              expected.set(particle, amount.times(count).plus(expected.get(particle) ?? ZERO));
            }
          }
          for (const [particle, amount] of after.particles) {
            expect(same(amount, expected.get(particle)!, scale)).toBe(true);
          }
        }
      }),
    );
  });

  it('never holds less than nothing', () => {
    fc.assert(
      fc.property(steps, (made) => {
        const { contents } = mix(made);
        expect(contents.volume.gte('-1e-25')).toBe(true);
        for (const amount of [...contents.solutes.values(), ...amountsIn(contents).values()]) {
          expect(amount.gte('-1e-25')).toBe(true);
        }
      }),
    );
  });

  it('does not mind the order of additions', () => {
    const orders = fc
      .array(addition, { minLength: 2, maxLength: 8 })
      .chain((list) => fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })));
    fc.assert(
      fc.property(orders, ([one, shuffled]) => {
        const [a, b] = [one, shuffled].map(
          (list) => mix(list.map((contents) => ({ kind: 'add', contents }) as const)).contents,
        );
        expect(same(a!.volume, b!.volume, a!.volume)).toBe(true);
        for (const [of, amount] of a!.solutes) expect(same(amount, b!.solutes.get(of)!, amount)).toBe(true);
        const other = amountsIn(b!);
        for (const [name, amount] of amountsIn(a!)) expect(same(amount, other.get(name)!, amount), name).toBe(true);
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
          // Osmotic coefficients bend: what an osmometer reads of a mixture need not lie between its parts.
          if (id === 'volume' || id === 'osmolality' || id === 'density') continue;
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
        for (const [of, amount] of exchanged.particles) {
          expect(same(amount, apart.particles.get(of)!, amount)).toBe(true);
        }
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
