/** What each figure says, and that its geometry is in proportion. */
import { describe, expect, it } from 'vitest';
import type { Figure, WhereItGoes } from '../../src/text/figures.ts';
import { basins, compared, course, drawn, ions, labels, litres, ofClass, texts, vessels } from './sample-figures.ts';
import type { Element } from './well-formed.ts';

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The extent of a closed path of `M`, `H`, `V` and `Z`. */
function extent({ attributes }: Element): Box {
  const xs = [...attributes.d!.matchAll(/[MH]([-\d.]+)/g)].map(([, x]) => Number(x));
  const ys = [...attributes.d!.matchAll(/(?:M[-\d.]+ |V)([-\d.]+)/g)].map(([, y]) => Number(y));
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}
const width = ({ left, right }: Box) => right - left;
const height = ({ top, bottom }: Box) => bottom - top;

/** Filled shapes of water, in the order drawn. */
const waters = (figure: Figure) => ofClass(drawn(figure), 'fill-water').map(extent);

describe('ion columns', () => {
  it('are in proportion to mEq/L, plasma on the same scale', () => {
    const [sodium, potassium, chloride, plasmaSodium] = waters(ions).map(height);
    expect(sodium! / potassium!).toBeCloseTo(152.48 / 19.8, 1);
    expect(chloride!).toBeCloseTo(sodium! + potassium!, 1);
    expect(plasmaSodium! / sodium!).toBeCloseTo(142 / 152.48, 2);
  });

  it('name each ion and how much of it, the smallest together where there are many', () => {
    const shown = texts(drawn(ions));
    expect(shown).toEqual(expect.arrayContaining(['sodium', '152', 'potassium', '19.8', 'chloride', '172']));
    expect(shown).toEqual(expect.arrayContaining(['bicarbonate', '27', 'proteins', '16', '3 others', '9']));
    expect(shown).toEqual(expect.arrayContaining(['172', '172 mEq/L', '155', '155 mEq/L']));
  });

  it('are hatched where they are anions', () => {
    const hatches = drawn({ ...ions, plasma: { name: 'plasma', cations: [], anions: [] } }).filter(({ attributes }) =>
      /^(M[\d.]+ [\d.]+l[\d.]+ -[\d.]+)+$/.test(attributes.d ?? ''),
    );
    expect(hatches).toHaveLength(1);
  });
});

describe('a litre of each', () => {
  it('is drawn on one scale, and what leaves the cells to the left of it', () => {
    const [dextrose, saline, brine] = waters(litres).map(width);
    expect(saline! / dextrose!).toBeCloseTo(1, 2);
    expect(brine! / saline!).toBeCloseTo(2.556, 2);
    const dashed = drawn(litres).filter(({ attributes }) => attributes['stroke-dasharray']);
    expect(dashed.map((shape) => width(extent(shape)) / saline!)).toEqual([expect.closeTo(1.556, 2)]);
  });

  it('says in each row how much goes where', () => {
    expect(texts(drawn(litres))).toEqual([
      'dextrose 5%',
      'cells 667 mL, interstitium 250 mL, plasma 83 mL',
      'sodium chloride 0.9%',
      'cells 0 mL, interstitium 750 mL, plasma 250 mL',
      'sodium chloride 3%',
      '1556 mL out of cells, interstitium 1917 mL, plasma 639 mL',
      'into cells',
      'interstitium',
      'plasma',
    ]);
  });
});

describe('one bag with two labels', () => {
  it('has each label, what it counts, and what is the same', () => {
    expect(texts(drawn(labels))).toEqual([
      'dextrose 1.5 %',
      'dextrose monohydrate',
      'glucose 1.36 %',
      'glucose anhydrous',
      'the same 75.7 mmol/L in solution',
    ]);
  });
});

describe('vessels', () => {
  it('are named where they are no steps', () => {
    const step = { label: 'nothing withdrawn', volume: 1150, osmolarity: 480, added: null, withdrawn: 0 };
    expect(texts(drawn({ ...vessels, steps: [step] }))).toEqual(['nothing withdrawn', '1150 mL', '480 mOsm/L']);
  });

  it('have levels in proportion to their volumes', () => {
    const [first, second, third] = waters(vessels).map(height);
    expect(second! / first!).toBeCloseTo(0.9, 2);
    expect(third! / first!).toBeCloseTo(0.45, 2);
  });

  it('have as many more dots on the same area as they have osmoles', () => {
    const dots = (osmolarity: number) => {
      const step = { volume: 1000, osmolarity, added: null, withdrawn: 0 };
      const path = drawn({ ...vessels, steps: [step] }).find(({ attributes }) => attributes['stroke-linecap']);
      return path ? path.attributes.d!.split('M').length - 1 : 0;
    };
    expect(dots(0)).toBe(0);
    // Rows and columns are whole, so the numbers are near the proportion and not at it.
    expect(dots(616) / dots(154)).toBeGreaterThan(3);
    expect(dots(616) / dots(154)).toBeLessThan(5.5);
    expect(dots(100_000)).toBeLessThan(1500);
  });

  it('say what is added above, what is withdrawn below, and the numbers under each', () => {
    expect(texts(drawn(vessels))).toEqual([
      '+ 1000 mL',
      'sodium chloride',
      '0.45%',
      '1000 mL',
      '154 mOsm/L',
      '− 100 mL',
      '900 mL',
      '154 mOsm/L',
      '− 450 mL',
      '450 mL',
      '0 mOsm/L',
    ]);
  });

  it('break into rows, and stop where nobody would look further', () => {
    const step = { volume: 100, osmolarity: 300, added: { volume: 10, name: 'water' }, withdrawn: 0 };
    const of = (count: number) => drawn({ ...vessels, steps: Array.from({ length: count }, () => step) });
    expect(Number(of(8)[0]!.attributes.height)).toBe(2 * Number(of(4)[0]!.attributes.height));
    expect(texts(of(500)).filter((text) => text === '100 mL')).toHaveLength(24);
  });
});

describe('where it goes', () => {
  const arriving = (arrives: WhereItGoes['arrives']) => waters({ ...basins, arrives });

  it('has basins as wide as their water', () => {
    const [cells, , interstitium, , plasma] = waters(basins).map(width);
    expect(cells! / plasma!).toBeCloseTo(8, 0);
    expect(interstitium! / plasma!).toBeCloseTo(3, 1);
  });

  it('fills areas in proportion to what arrives: water rises alike in all', () => {
    const [, cells, , interstitium, , plasma] = waters(basins);
    expect(height(cells!)).toBeCloseTo(height(plasma!), 1);
    expect((width(cells!) * height(cells!)) / (width(interstitium!) * height(interstitium!))).toBeCloseTo(
      666.7 / 250,
      1,
    );
  });

  it('draws what is taken away below the level that was there', () => {
    const before = ofClass(drawn(basins), 'stroke-ink').find(({ attributes }) => attributes['stroke-dasharray'])!;
    const level = Number(/ ([\d.]+)H/.exec(before.attributes.d!)![1]);
    expect(waters(basins)[1]!.bottom).toBeCloseTo(level, 1);
    // 300 mL of sodium chloride 3 %: 467 mL out of cells.
    const [cells, , interstitium] = arriving({ cells: -467, interstitium: 575, plasma: 192 });
    expect(cells!.top).toBeGreaterThan(interstitium!.bottom);
    expect(texts(drawn({ ...basins, arrives: { cells: -467, interstitium: 575, plasma: 192 } }))).toContain('-467 mL');
  });

  it('shows the state before the dextrose is used in dashes, and says so', () => {
    const before = { cells: 120, interstitium: 660, plasma: 220 };
    expect(texts(drawn({ ...basins, before }))).toContain('dashed: before the dextrose is used');
  });
});

describe('the course of the serum sodium', () => {
  const paths = ofClass(drawn(course), 'stroke-ink').map(({ attributes }) => attributes);
  const steps = paths.find(({ d }) => /^M[\d.]+ [\d.]+H[\d.]+V[\d.]+H[\d.]+$/.test(d ?? ''))!.d!;

  it('has the limit as steps that rise with the hours', () => {
    const [, , first, half, second, end] = /M([\d.]+) ([\d.]+)H([\d.]+)V([\d.]+)H([\d.]+)/.exec(steps)
      ? [
          null,
          null,
          ...steps
            .match(/[\d.]+/g)!
            .slice(1)
            .map(Number),
        ]
      : [];
    expect(second!).toBeLessThan(first!);
    expect(end! - half!).toBeCloseTo(half! - Number(steps.match(/[\d.]+/)![0]), 0);
  });

  it('has the error above and below as far from the prediction', () => {
    const band = drawn(course).find(({ attributes }) => attributes.class === 'fill-water')!;
    const ys = band.attributes
      .d!.slice(1, -1)
      .split('L')
      .map((point) => Number(point.split(' ')[1]));
    const line = paths.find((attributes) => attributes['stroke-width'] === '2.2' && /L.*L/.test(attributes.d ?? ''))!;
    const middle = line
      .d!.slice(1)
      .split('L')
      .map((point) => Number(point.split(' ')[1]));
    for (const [index, y] of middle.entries()) expect((ys[index]! + ys[5 - index]!) / 2).toBeCloseTo(y, 1);
  });

  it('has the orders as bars on the same axis', () => {
    const bars = ofClass(drawn(course), 'fill-ink')
      .filter(({ name }) => name === 'path')
      .map(extent);
    expect(bars.map((bar) => Math.round(width(bar)))).toHaveLength(3);
    expect(width(bars[0]!)).toBeCloseTo(width(bars[1]!), 1);
    expect(width(bars[2]!) / width(bars[0]!)).toBeCloseTo(4, 1);
    expect(bars[1]!.left - bars[0]!.left).toBeCloseTo(2 * width(bars[0]!), 1);
  });

  it('says what each line is', () => {
    expect(texts(drawn(course))).toEqual(
      expect.arrayContaining([
        'predicted by mass balance',
        'predicted by regression',
        'such predictions missed by up to 6.37 mmol/L',
        'limit of the change',
        'pushes',
        'drip',
      ]),
    );
    expect(texts(drawn({ ...course, limit: [] }))).not.toContain('limit of the change');
  });
});

describe('the comparison', () => {
  it('names each fluid with its numbers, in the order given', () => {
    expect(texts(drawn(compared)).slice(2, 11)).toEqual([
      'dextrose 5%',
      '1000 mL free of electrolytes',
      'bag 252, body 0',
      'half-saline',
      '500 mL free of electrolytes',
      'bag and body 154',
      'brine',
      'draws 2331 mL of water',
      'bag and body 1026',
    ]);
  });

  it('draws what a hypertonic fluid takes to the left of zero', () => {
    const zero = waters(compared)[0]!.left;
    const outlines = drawn({ ...compared, rows: [{ name: 'mild', freeWater: -200, bag: 370, body: 370 }] }).filter(
      ({ attributes }) => attributes['stroke-dasharray'],
    );
    expect(outlines).toHaveLength(1);
    const { left, right } = extent(outlines[0]!);
    expect(right).toBe(zero);
    expect(left).toBeLessThan(zero);
    expect(zero - left).toBeCloseTo(width(waters(compared)[0]!) / 5, 1);
  });
});
