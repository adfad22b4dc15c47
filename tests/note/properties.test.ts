/** What must hold of any recipe, from the text to its results. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Contents, decimal, nearlyEqual } from '../../src/engine/index.ts';
import { fenced, found, mixturesOf } from '../annotated.ts';
import { runs } from '../runs.ts';

const fluid = fc.constantFrom(
  'sodium chloride 0.9%',
  'dextrose 5%',
  'potassium chloride 2 mmol/mL',
  'sodium bicarbonate 8.4%',
  "lactated Ringer's",
  'water',
);
const addition = fc.tuple(fc.integer({ min: 1, max: 900 }), fluid).map(([volume, of]) => `  ${volume} mL ${of}`);
const recipe = fc.array(addition, { minLength: 1, maxLength: 6 });

function contentsOf(lines: readonly string[], name = 'bag'): Contents {
  const contents = mixturesOf(`mixture bag\n${lines.join('\n')}`).get(name)?.contents;
  if (!contents) throw new Error(lines.join('\n'));
  return contents;
}

function expectSame(a: Contents, b: Contents, factor = 1): void {
  expect(nearlyEqual(a.volume.times(factor), b.volume)).toBe(true);
  expect(b.particles.size).toBe(a.particles.size);
  for (const [particle, amount] of a.particles) {
    expect(nearlyEqual(amount.times(factor), b.particles.get(particle) ?? decimal(-1)), particle.name).toBe(true);
  }
}

describe('any recipe', () => {
  it('comes to the same in any order of additions', () => {
    fc.assert(
      fc.property(recipe, (lines) => expectSame(contentsOf(lines), contentsOf([...lines].reverse()))),
      runs(60),
    );
  });

  it('taken twice doubles its totals and leaves its concentrations', () => {
    fc.assert(
      fc.property(recipe, (lines) => {
        const twice = contentsOf([...lines, 'mixture twice', '  2 x bag'], 'twice');
        expectSame(contentsOf(lines), twice, 2);
      }),
      runs(60),
    );
  });

  it('with an amount solved for meets its target when that amount is written', () => {
    fc.assert(
      fc.property(fc.integer({ min: 50, max: 1000 }), fc.integer({ min: 1, max: 190 }), (volume, tenths) => {
        const percent = tenths / 10;
        const lines = [
          '  ? mL sodium chloride 23.4%',
          `  water to ${volume} mL`,
          `  target sodium chloride ${percent} %`,
        ];
        const solved = mixturesOf(`mixture bag\n${lines.join('\n')}`).get('bag')?.solved[0]?.value;
        const written = `mixture bag\n  ${solved?.toDecimalPlaces(20).toFixed()} mL sodium chloride 23.4%\n${lines[1]}\n  claim sodium chloride ${percent.toFixed(1)} %`;
        expect(found(fenced(written))).toEqual([]);
      }),
      runs(60),
    );
  });
});
