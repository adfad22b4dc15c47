import { describe, expect, it } from 'vitest';
import {
  decimal,
  defineSubstance,
  dissociationFactor,
  type FreezingFigure,
  particleById,
} from '../../src/engine/index.ts';

const ION = { particle: particleById('sodium')!, count: 1 };
const MALEATE = { name: 'maleate', charge: -1, molarMass: null };

/** What is declared of the freezing point of a salt of so many g/mol that gives sodium and another ion. */
function declared(freezing: FreezingFigure, molarMass: string | null) {
  const defined = defineSubstance({
    name: 'abc maleate',
    molarMass: molarMass === null ? null : decimal(molarMass),
    gives: [ION, { particle: MALEATE, count: 1 }],
    freezing,
  });
  if (!defined.ok) throw new Error(defined.fault.problem);
  const { sodiumChlorideEquivalent, dissociation } = defined.substance;
  return { equivalent: sodiumChlorideEquivalent?.toFixed(3) ?? null, dissociation: dissociation?.toString() ?? null };
}

describe('dissociation', () => {
  it.each([
    // Lectures on isotonicity: at 80 %, two ions make 1.8 particles, three 2.6, four 3.4; none make one.
    ['0.8', 1, '1'],
    ['0.8', 2, '1.8'],
    ['0.8', 3, '2.6'],
    ['0.8', 4, '3.4'],
    ['0', 3, '1'],
    ['1', 3, '3'],
  ])('of %s into %d ions makes %s particles', (share, ions, particles) => {
    expect(dissociationFactor(decimal(share), ions).toString()).toBe(particles);
  });
});

describe('the sodium chloride equivalent of a substance of a note', () => {
  it('is what a table lists', () => {
    expect(declared({ by: 'equivalent', grams: decimal('0.23') }, null)).toEqual({
      equivalent: '0.230',
      dissociation: null,
    });
  });

  it('follows from the freezing point of a solution', () => {
    // Boric acid 1 % freezes at -0.288 °C, equivalent 0.50 (tables, from memory): 0.288 ÷ 0.52 × 0.009 ÷ 0.01 = 0.498.
    const figure = { by: 'depression', celsius: decimal('0.288'), strength: decimal('0.01') } as const;
    expect(declared(figure, '61.83')).toEqual({ equivalent: '0.498', dissociation: null });
    // As strong again and as cold comes to half.
    expect(declared({ ...figure, strength: decimal('0.02') }, null).equivalent).toBe('0.249');
  });

  it('follows from the dissociation, by the simple rule', () => {
    // Two ions at 80 % as sodium chloride: 58.44 ÷ 432.5 = 0.135, as tables have 0.14 for a salt of that mass (from memory).
    expect(declared({ by: 'dissociation', share: decimal('0.8') }, '432.5')).toEqual({
      equivalent: '0.135',
      dissociation: '0.8',
    });
    // 1.5 ÷ 1.8 × 58.44 ÷ 200 = 0.2435.
    expect(declared({ by: 'dissociation', share: decimal('0.5') }, '200').equivalent).toBe('0.244');
  });

  it('does not follow from the dissociation without a molar mass', () => {
    expect(declared({ by: 'dissociation', share: decimal('0.8') }, null)).toEqual({
      equivalent: null,
      dissociation: '0.8',
    });
  });
});
