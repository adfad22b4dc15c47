import { describe, expect, it } from 'vitest';
import { defaultLimits, limitIds, type Region } from '../../src/engine/index.ts';

const shown = (id: string, region: Region | null) => {
  const { value, unit, ...rest } = defaultLimits(region).get(id)!;
  return { ...rest, limit: `${value} ${unit.symbol}` };
};

describe('limits of orders', () => {
  it('come with their sources, and where sources disagree', () => {
    // ASPEN clinical guidelines on parenteral nutrition, 2014: 900 mOsm/L by a peripheral vein.
    expect(shown('peripheral-osmolarity', null)).toEqual({
      id: 'peripheral-osmolarity',
      title: 'osmolarity by a peripheral vein',
      limit: '900 mOsm/L',
      source: expect.stringMatching(/^\S.* .*, 2014$/),
      date: '2014',
      disagree: 'Stricter limits are 850, 600 and 500 mOsm/L, by other guidance.',
      local: false,
    });
  });

  it('say so where there is no source, no date and no dispute', () => {
    expect(shown('undiluted-magnesium-sulfate', null)).toMatchObject({
      limit: '20 %',
      source: 'from memory',
      date: null,
      disagree: null,
    });
  });

  it('follow a region where practice differs, and nowhere else', () => {
    // 40 mmol/L of potassium by guidance in the United Kingdom; bags of 10 mmol in 100 mL are common practice in the United
    // States.
    const id = 'potassium-concentration-peripheral';
    expect([null, 'UK', 'US'].map((region) => shown(id, region as Region | null).limit)).toEqual([
      '40 mmol/L',
      '40 mmol/L',
      '100 mmol/L',
    ]);
    expect(shown(id, 'US')).toMatchObject({ source: 'common practice, no source', title: shown(id, null).title });
    expect(shown(id, 'UK').source).toBe(shown(id, null).source);
    expect(shown('peripheral-osmolarity', 'US')).toEqual(shown('peripheral-osmolarity', null));
  });

  it('are found by their ids, in the order of the data', () => {
    const limits = defaultLimits(null);
    expect([...limits.keys()]).toEqual(limitIds());
    expect([...limits.values()].map(({ id }) => id)).toEqual(limitIds());
    expect(limitIds()).toContain('potassium-rate-adult');
  });
});
