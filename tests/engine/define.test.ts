import { describe, expect, it } from 'vitest';
import {
  amountOf,
  DEFAULT_REFERENCE,
  type Decimal,
  decimal,
  defineParticle,
  defineSubstance,
  dryVolume,
  effectiveOsmolarity,
  findIon,
  held,
  ionObservable,
  ionOf,
  measure,
  mix,
  ofParticles,
  ofSolute,
  osmolarity,
  overload,
  type Particle,
  particleById,
  plus,
  results,
  type Substance,
  type SubstanceDefinition,
  soluteObservable,
  strengthOf,
  times,
  unit,
  water,
} from '../../src/engine/index.ts';
import { mmol, quantity } from './helpers.ts';

const particle = (id: string) => particleById(id)!;
const SODIUM = particle('sodium');

function made(definition: SubstanceDefinition): Substance {
  const defined = defineSubstance(definition);
  if (!defined.ok) throw new Error(defined.fault.problem);
  return defined.substance;
}

// Sodium thiosulfate, Na2S2O3, 158.1 g/mol: from memory.
const THIOSULFATE = { name: 'thiosulfate', charge: null, molarMass: decimal('112.1') };
const SALT = made({
  name: 'sodium thiosulfate',
  molarMass: decimal('158.1'),
  gives: [
    { particle: SODIUM, count: 2 },
    { particle: THIOSULFATE, count: 1 },
  ],
});
const DRUG = made({ name: 'norepinephrine', molarMass: null, gives: [] });

describe('a substance of a note’s own', () => {
  it('finds the one charge that is missing', () => {
    expect(SALT.gives.map(({ particle: { name, charge } }) => [name, charge])).toEqual([
      ['sodium', 1],
      ['thiosulfate', -2],
    ]);
    expect(SALT.gives[0]!.particle).toBe(SODIUM);
  });

  it.each([
    [
      [
        { particle: SODIUM, count: 1 },
        { particle: { ...THIOSULFATE, charge: -2 }, count: 1 },
      ],
      { problem: 'charge-imbalance', sum: -1 },
    ],
    [[{ particle: SODIUM, count: 2 }], { problem: 'charge-imbalance', sum: 2 }],
    [
      [
        { particle: SODIUM, count: 1 },
        { particle: THIOSULFATE, count: 2 },
      ],
      { problem: 'charge-impossible', particle: 'thiosulfate', sum: 1 },
    ],
    [
      [
        { particle: THIOSULFATE, count: 1 },
        { particle: { ...THIOSULFATE, name: 'x' }, count: 1 },
      ],
      { problem: 'charges-missing', particles: ['thiosulfate', 'x'] },
    ],
  ])('refuses charges that do not balance: %#', (gives, fault) => {
    expect(defineSubstance({ name: 'salt', molarMass: null, gives })).toEqual({ ok: false, fault });
  });

  it('counts its ions and its mass like any other', () => {
    // 12.5 g ÷ 158.1 g/mol = 79.06 mmol.
    const read = amountOf(quantity('12.5 g'), SALT, null, false);
    if (!read.ok) throw new Error(read.fault.problem);
    expect(read.amount.value.toFixed(2)).toBe('79.06');
    const contents = plus(ofSolute(SALT, read.amount, dryVolume(SALT, read.amount)), water(decimal(50)));
    const told = results(contents, DEFAULT_REFERENCE).map(({ observable, value, unit: of }) => [
      observable.name,
      value.toFixed(0),
      of,
    ]);
    expect(told).toContainEqual(['sodium', '3163', 'mmol/L']);
    expect(told).toContainEqual(['thiosulfate', '1581', 'mmol/L']);
    expect(told).toContainEqual(['sodium thiosulfate', '1581', 'mmol/L']);
    // An ion of a note's own keeps its charge: 2 × 1581 less 2 × 1581 mEq/L.
    expect(told.find(([name]) => name === 'strong ion difference')).toBeUndefined();
  });

  it('reads an amount of its own ion, in mmol and in mEq', () => {
    const ion = ionOf(SALT.gives[1]!.particle)!;
    const amount = (text: string, elemental = false) => amountOf(quantity(text), SALT, ion, elemental);
    expect(amount('10 mmol')).toMatchObject({ ok: true, amount: mmol(10) });
    expect(amount('10 mEq')).toMatchObject({ ok: true, amount: mmol(5) });
    expect(amount('112.1 mg', true)).toMatchObject({ ok: true, amount: mmol(1) });
    expect(amount('1 g')).toMatchObject({ fault: { problem: 'elemental-or-salt' } });
    expect(ionObservable(ion)).toMatchObject({ id: 'thiosulfate', unit: 'mmol/L', total: 'mmol' });
  });

  it('is one whole molecule where it gives no ions', () => {
    // Trehalose, 342.3 g/mol: from memory.
    const sugar = (body?: 'becomes water') =>
      made({ name: 'trehalose', molarMass: decimal('342.3'), gives: [], ...(body && { body }) });
    const litre = (substance: Substance) => ofSolute(substance, mmol(100), decimal(1000));
    expect(osmolarity(litre(sugar())).toString()).toBe('100');
    expect(effectiveOsmolarity(litre(sugar())).toString()).toBe('100');
    expect(effectiveOsmolarity(litre(sugar('becomes water'))).toString()).toBe('0');
  });

  it('finds a charge by that of the others, whichever its sign', () => {
    const chargeOf = (known: { particle: Particle; count: number }, count: number) =>
      made({ name: 'x', molarMass: null, gives: [known, { particle: { ...THIOSULFATE, name: 'x' }, count }] }).gives[1]!
        .particle.charge;
    expect(chargeOf({ particle: SODIUM, count: 2 }, 1)).toBe(-2);
    expect(chargeOf({ particle: SODIUM, count: 2 }, 2)).toBe(-1);
    expect(chargeOf({ particle: particle('chloride'), count: 3 }, 1)).toBe(3);
  });

  it('is known by an id, from the note, and by nothing that was not said', () => {
    const { id, sources, solubility, listedStrengths } = made({
      name: 'Sodium  thiosulfate',
      molarMass: null,
      gives: [],
    });
    expect({ id, sources, solubility, listedStrengths }).toEqual({
      id: 'sodium-thiosulfate',
      sources: ['the note'],
      solubility: [],
      listedStrengths: [],
    });
    const molecule = defineParticle({ name: 'inulin', charge: 0, molarMass: null });
    expect([molecule.ion, molecule.strong]).toEqual([false, false]);
  });

  it('takes what the note says of it', () => {
    const drug = made({
      name: 'pilocarpine nitrate',
      molarMass: null,
      gives: [],
      apparentVolume: decimal('0.7'),
      freezing: { by: 'equivalent', grams: decimal('0.23') },
      solubility: { celsius: decimal(20), gramsPer100gWater: decimal(25) },
      energy: decimal(0),
    });
    // Lecture notes in pharmaceutical calculation: 0.3 g in 30 mL (E 0.23) wants 0.201 g of sodium chloride to 0.9 %.
    const contents = ofSolute(drug, { in: 'g', value: decimal('0.3') }, decimal(30));
    const equivalent = measure(contents, SODIUM_CHLORIDE_EQUIVALENT, unit('g'), DEFAULT_REFERENCE);
    expect(equivalent.ok && decimal('0.27').minus(equivalent.value).toString()).toBe('0.201');
    expect(dryVolume(drug, { in: 'g', value: decimal(2) }).toString()).toBe('1.4');
    const solution = (grams: number) => ofSolute(drug, { in: 'g', value: decimal(grams) }, decimal(100));
    expect(overload(solution(15))).toBeNull();
    expect(overload(solution(40))).toMatchObject({ substance: drug, reason: 'solubility', source: 'the note' });
    expect(overload(solution(150))).toMatchObject({ reason: 'more-solute-than-volume' });
  });
});

const SODIUM_CHLORIDE_EQUIVALENT = {
  ...soluteObservable(SALT),
  kind: 'sodium-chloride-equivalent',
  substance: null,
} as const;

describe('a drug without a molar mass', () => {
  const amount = (text: string, substance = DRUG) => amountOf(quantity(text), substance, null, false);

  it('is counted by mass and by activity, never one for the other', () => {
    expect(amount('4 mg')).toMatchObject({ ok: true, amount: { in: 'g', value: decimal('0.004') } });
    expect(amount('250 units')).toMatchObject({ ok: true, amount: { in: 'units', value: decimal(250) } });
    for (const text of ['4 mmol', '4 mEq', '4 mOsm', '4 mL', '4 h']) {
      expect(amount(text), text).toMatchObject({ fault: { problem: 'wrong-dimension', fits: ['mg', 'units'] } });
    }
    expect(amountOf(quantity('4 mg'), DRUG, null, true)).toMatchObject({ fault: { problem: 'no-molar-mass' } });
    expect(amountOf(quantity('4 mg'), DRUG, findIon('sodium'), false)).toMatchObject({
      fault: { problem: 'ion-not-in-substance' },
    });
    // Built-in substances have no activity.
    expect(amount('4 units', particleSalt())).toMatchObject({ fault: { problem: 'wrong-dimension' } });
  });

  it('reads strengths', () => {
    const strength = (text: string) => strengthOf(quantity(text), DRUG, null, false);
    expect(strength('16 mcg/mL')).toMatchObject({ ok: true, perMl: { in: 'g', value: decimal('0.000016') } });
    expect(strength('2 %')).toMatchObject({ ok: true, perMl: { in: 'g', value: decimal('0.02') } });
    expect(strength('100 units/mL')).toMatchObject({ ok: true, perMl: { in: 'units', value: decimal(100) } });
    expect(strength('1 mmol/L')).toMatchObject({ fault: { fits: ['%', 'mg/mL', 'units/mL'] } });
  });

  it('is told in mg/mL and units/mL, in all in mg and units', () => {
    const bag = plus(
      plus(ofSolute(DRUG, { in: 'g', value: decimal('0.004') }, decimal(4)), water(decimal(246))),
      ofSolute(DRUG, { in: 'units', value: decimal(500) }, decimal(0)),
    );
    const asked = (symbol: string) => measure(bag, soluteObservable(DRUG), unit(symbol), DEFAULT_REFERENCE);
    expect(asked('mcg/mL')).toMatchObject({ ok: true, value: decimal(16) });
    expect(asked('mg')).toMatchObject({ ok: true, value: decimal(4) });
    expect(asked('units/mL')).toMatchObject({ ok: true, value: decimal(2) });
    expect(asked('units')).toMatchObject({ ok: true, value: decimal(500) });
    expect(asked('mmol/L')).toMatchObject({ problem: 'wrong-dimension', fits: ['mg/mL', 'units/mL', 'mg', 'units'] });
    const told = results(bag, DEFAULT_REFERENCE).filter(({ observable }) => observable.kind === 'solute');
    expect(told.map(({ value, unit: of }) => `${value} ${of}`)).toEqual(['0.016 mg/mL', '2 units/mL']);
    expect(soluteObservable(DRUG)).toMatchObject({ unit: 'mg/mL', total: 'mg' });
    expect(osmolarity(bag).isZero()).toBe(true);
  });

  it('goes with the liquid that is withdrawn', () => {
    const contents = ofSolute(DRUG, { in: 'g', value: decimal(1) }, decimal(100));
    const left = mix([
      { kind: 'add', contents },
      { kind: 'withdraw', volume: decimal(25) },
    ]).contents;
    expect(held(left, DRUG, 'g').toString()).toBe('0.75');
    expect(held(times(left, decimal(2)), DRUG, 'g').toString()).toBe('1.5');
    expect(held(left, DRUG, 'units').isZero()).toBe(true);
    expect(held(left, DRUG, 'mmol').isZero()).toBe(true);
  });

  it('counts mmol of ions that are known, and no mass of them', () => {
    const salt = made({
      name: 'sodium x',
      molarMass: null,
      gives: [
        { particle: SODIUM, count: 1 },
        { particle: { name: 'x', charge: null, molarMass: null }, count: 1 },
      ],
    });
    expect(amount('3 mmol', salt)).toMatchObject({ ok: true, amount: mmol(3) });
    expect(amount('1 g', salt)).toMatchObject({ fault: { problem: 'no-molar-mass', of: 'sodium x' } });
    const x = ionOf(salt.gives[1]!.particle);
    expect(amountOf(quantity('1 g'), salt, x, true)).toMatchObject({
      fault: { problem: 'no-molar-mass', of: 'elemental x' },
    });
    const bag = ofSolute(salt, mmol(3), decimal(10));
    expect(measure(bag, soluteObservable(salt), unit('g/L'), DEFAULT_REFERENCE)).toMatchObject({
      problem: 'wrong-dimension',
      fits: ['mmol/L', 'mmol'],
    });
    expect(dryVolume(salt, mmol(3)).isZero()).toBe(true);
  });

  function particleSalt(): Substance {
    return { ...DRUG, own: false };
  }
});

describe('a fluid by its label', () => {
  it('holds the particles that are stated, for a volume', () => {
    const own = defineParticle({ name: 'malate', charge: -2, molarMass: null });
    const perLitre = new Map<Particle, Decimal>([
      [SODIUM, decimal(145)],
      [own, decimal(5)],
    ]);
    const contents = ofParticles(perLitre, decimal(500));
    expect([contents.volume, contents.particles.get(SODIUM), contents.particles.get(own)].map(String)).toEqual([
      '500',
      '72.5',
      '2.5',
    ]);
    expect(contents.solutes.size).toBe(0);
    expect(osmolarity(contents).toString()).toBe('150');
  });
});
