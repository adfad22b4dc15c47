import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Compartments,
  compartments,
  compartmentsBeforeUse,
  DEFAULT_REFERENCE,
  decimal,
  nearlyEqual,
  stockFluids,
  times,
} from '../../../src/engine/index.ts';
import { litreWith, near, stock } from './helpers.ts';

const outside = ({ interstitium, plasma }: Compartments) => interstitium.plus(plasma);

describe('where a litre goes', () => {
  it.each([
    // Teaching convention: sodium stays outside cells, the rest spreads two to one; a quarter of what is outside is plasma.
    ['dextrose 5 %', stock('dextrose 5 %'), '667', '333', '83'],
    ['0.45 %', stock('sodium chloride 0.45 %'), '333', '667', '167'],
    ['0.9 %', stock('sodium chloride 0.9 %'), '0', '1000', '250'],
    ['0.225 %', litreWith('38.5'), '500', '500', '125'],
  ])('%s', (_, contents, cells, beyond, plasma) => {
    const spread = compartments(contents, DEFAULT_REFERENCE)!;
    near(spread.cells, cells, '1');
    near(outside(spread), beyond, '1');
    near(spread.plasma, plasma, '1');
  });

  it('draws water out of cells where it is hypertonic', () => {
    // 1 L of 3 % has -2331 mL of free water against 154 mmol/L; two thirds of it leave cells.
    const spread = compartments(litreWith('513'), DEFAULT_REFERENCE)!;
    near(spread.freeWater, '-2331', '2');
    near(spread.cells, '-1554', '2');
    near(outside(spread), '2554', '2');
  });

  it('holds dextrose outside cells until it is used', () => {
    // 252 mmol of dextrose fill 252 ÷ 308 of a litre; a third of the remaining 182 mL stays outside as well.
    const before = compartmentsBeforeUse(stock('dextrose 5 %'), DEFAULT_REFERENCE)!;
    near(before.isotonic, '819', '1');
    near(before.cells, '121', '1');
    const saline = stock('sodium chloride 0.45 %');
    expect(compartmentsBeforeUse(saline, DEFAULT_REFERENCE)).toEqual(compartments(saline, DEFAULT_REFERENCE));
  });

  it('is not told of what the rule does not describe', () => {
    for (const name of ['mannitol 20 %', 'albumin 5 %']) {
      expect(compartments(stock(name), DEFAULT_REFERENCE), name).toBeNull();
      expect(compartmentsBeforeUse(stock(name), DEFAULT_REFERENCE), name).toBeNull();
    }
  });

  it('adds up to the volume, twice', () => {
    const share = fc.integer({ min: -100, max: 100_000 }).map((value) => decimal(value).div(1000));
    const reference = fc
      .integer({ min: 0, max: 200 })
      .map((value) => ({ ...DEFAULT_REFERENCE, freeWater: decimal(value) }));
    fc.assert(
      fc.property(fc.constantFrom(...stockFluids()), share, reference, ({ perLitre }, factor, against) => {
        const contents = times(perLitre, factor);
        for (const spread of [compartments(contents, against), compartmentsBeforeUse(contents, against)]) {
          if (!spread) continue;
          expect(nearlyEqual(spread.isotonic.plus(spread.freeWater), contents.volume)).toBe(true);
          expect(nearlyEqual(spread.cells.plus(outside(spread)), contents.volume)).toBe(true);
        }
      }),
    );
  });
});
