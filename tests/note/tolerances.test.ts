/** Quantities with a tolerance leave results a range, and a claim is held against it. */
import { describe, expect, it } from 'vitest';
import { DEFAULT_REFERENCE, findObservable, unit } from '../../src/engine/index.ts';
import { rangeOf } from '../../src/note/index.ts';
import { fenced, findings, found, mixturesOf } from '../annotated.ts';

function range(block: string, observable: string, symbol: string, name?: string): readonly number[] {
  const mixtures = mixturesOf(block);
  const mixture = name ? mixtures.get(name) : [...mixtures.values()][0];
  if (!mixture?.contents) throw new Error('no results');
  const { contents, extremes } = mixture;
  const ends = rangeOf({ contents, extremes }, findObservable(observable)!, unit(symbol), DEFAULT_REFERENCE);
  return ends?.map((end) => Math.round(end.toNumber() * 100) / 100) ?? [];
}

const BAG = 'mixture gastric\n  1 L ± 5 % sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL';

describe('a volume with a tolerance', () => {
  it('leaves every concentration a range, worked out by hand', () => {
    // 20 mmol in 960 to 1060 mL.
    expect(range(BAG, 'potassium', 'mmol/L')).toEqual([18.87, 20.83]);
    expect(range(BAG, 'volume', 'mL')).toEqual([960, 1060]);
  });

  it('is carried into what is made from it', () => {
    expect(range(`${BAG}\nmixture half\n  500 mL gastric\n  water to 1 L`, 'potassium', 'mmol/L', 'half')).toEqual([
      9.43, 10.42,
    ]);
  });

  it('may be in the quantity’s own kind of unit', () => {
    expect(range('mixture bag\n  1 L ± 50 mL sodium chloride 0.9%', 'volume', 'mL')).toEqual([950, 1050]);
  });
});

describe('a strength with a tolerance', () => {
  it('of 5 %, as the USP allows the sodium chloride of its injection (from memory), is 146 to 162 mmol/L', () => {
    expect(range('mixture bag\n  1 L sodium chloride 0.9 % ± 5 %', 'sodium', 'mmol/L')).toEqual([146.3, 161.7]);
  });
});

describe('a claim', () => {
  it('holds anywhere in the range, and half a unit beyond', () => {
    expect(found(fenced(`${BAG}\n  claim potassium 20.8 mmol/L\n  claim potassium 18.9 mmol/L`))).toEqual([]);
    const [finding] = findings(fenced(`${BAG}\n  claim potassium 25 mmol/L`));
    expect(finding?.code).toBe('claim-mismatch');
    expect(finding?.message).toContain('19.8 mmol/L (18.9 to 20.8 mmol/L)');
  });
});

describe('many tolerances', () => {
  it('are followed to a bound, and that is said', () => {
    const lines = Array.from({ length: 9 }, (_, index) => `  ${index + 1} mL ± 1 % water`).join('\n');
    expect(found(fenced(`mixture many\n  120 mL sodium chloride 0.45%\n${lines}`))).toEqual(['over-limit: many']);
  });

  it('of another kind than the quantity are refused', () => {
    expect(found(fenced('mixture bag\n  1 L ± 5 g sodium chloride 0.45%'))).toEqual(['wrong-dimension: ± 5 g']);
  });
});
