/** Every figure: what it says, that its geometry is in proportion, and that it is a picture and nothing more. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figureSvg } from '../../src/render/index.ts';
import type {
  Comparison,
  Figure,
  IonColumns,
  Litres,
  SodiumCourse,
  TwoLabels,
  Vessels,
  WhereItGoes,
} from '../../src/text/figures.ts';
import { runs } from '../runs.ts';
import { HOSTILE_TEXTS } from './hostile-texts.ts';
import { type Element, everyElement, wellFormed } from './well-formed.ts';

const named = { name: 'What it is', sentence: 'What it shows.' };

/** Classic drawing of plasma beside 0.9 % saline with 20 mmol of potassium chloride in 1010 mL: 152.48 + 19.8 = 172.28. */
const ions: IonColumns = {
  ...named,
  kind: 'ion-columns',
  liquid: {
    name: 'Gastric replacement',
    cations: [
      { name: 'sodium', mEq: 152.48 },
      { name: 'potassium', mEq: 19.8 },
    ],
    anions: [{ name: 'chloride', mEq: 172.28 }],
  },
  plasma: {
    name: 'plasma',
    cations: [
      { name: 'sodium', mEq: 142 },
      { name: 'potassium', mEq: 5 },
      { name: 'calcium', mEq: 5 },
      { name: 'magnesium', mEq: 3 },
    ],
    anions: [
      { name: 'chloride', mEq: 103 },
      { name: 'bicarbonate', mEq: 27 },
      { name: 'proteins', mEq: 16 },
      { name: 'organic acids', mEq: 6 },
      { name: 'phosphate', mEq: 2 },
      { name: 'sulfate', mEq: 1 },
    ],
  },
};

const vessels: Vessels = {
  ...named,
  kind: 'vessels',
  steps: [
    { volume: 1000, osmolarity: 154, added: { volume: 1000, name: 'sodium chloride 0.45%' }, withdrawn: 0 },
    { volume: 900, osmolarity: 154, added: null, withdrawn: 100 },
    { volume: 450, osmolarity: 0, added: null, withdrawn: 450 },
  ],
};

/** 1 L of dextrose 5 %: 667, 250 and 83 mL (the simple rule of textbooks). */
const basins: WhereItGoes = {
  ...named,
  kind: 'where-it-goes',
  water: { cells: 666.7, interstitium: 250, plasma: 83.3 },
  arrives: { cells: 666.7, interstitium: 250, plasma: 83.3 },
  before: null,
};

const course: SodiumCourse = {
  ...named,
  kind: 'sodium-course',
  points: [
    { hour: 0, sodium: 112, regression: 112 },
    { hour: 24, sodium: 116.7, regression: 117.4 },
    { hour: 48, sodium: 120, regression: 121 },
  ],
  error: 6.37,
  limit: [
    { until: 24, sodium: 122 },
    { until: 48, sodium: 130 },
  ],
  orders: [
    {
      name: 'pushes',
      runs: [
        [0, 12],
        [24, 36],
      ],
    },
    { name: 'drip', runs: [[0, 48]] },
  ],
};

const compared: Comparison = {
  ...named,
  kind: 'comparison',
  rows: [
    { name: 'dextrose 5%', freeWater: 1000, bag: 252, body: 0 },
    { name: 'half-saline', freeWater: 500, bag: 154, body: 154 },
    { name: 'brine', freeWater: -2331, bag: 1026, body: 1026 },
  ],
  isotonic: [250, 375],
};

/** By the simple rule: 667, 250 and 83 mL of dextrose 5 %, 0, 750 and 250 mL of 0.9 % saline; 3 % takes water out of cells. */
const litres: Litres = {
  ...named,
  kind: 'litres',
  rows: [
    { name: 'dextrose 5%', goes: { cells: 666.7, interstitium: 250, plasma: 83.3 } },
    { name: 'sodium chloride 0.9%', goes: { cells: 0, interstitium: 750, plasma: 250 } },
    { name: 'sodium chloride 3%', goes: { cells: -1555.6, interstitium: 1916.7, plasma: 638.9 } },
  ],
};

const labels: TwoLabels = {
  ...named,
  kind: 'two-labels',
  same: 'the same 75.7 mmol/L in solution',
  labels: [
    { text: 'dextrose 1.5 %', form: 'dextrose monohydrate' },
    { text: 'glucose 1.36 %', form: 'glucose anhydrous' },
  ],
};

const FIGURES: readonly Figure[] = [ions, vessels, basins, course, compared, litres, labels];

const drawn = (figure: Figure): Element[] => everyElement(wellFormed(figureSvg(figure)));
const texts = (elements: readonly Element[]) => elements.filter(({ name }) => name === 'text').map(({ text }) => text);
const ofClass = (elements: readonly Element[], name: string) =>
  elements.filter(({ attributes }) => attributes.class === name);

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

describe.each(FIGURES.map((figure) => [figure.kind, figure] as const))('every figure: %s', (_, figure) => {
  it('has its name and its sentence as alternatives, under ids that its own id begins', () => {
    const svg = wellFormed(figureSvg(figure, 'meniscus-1-2'));
    const [title, desc] = svg.children;
    expect(svg.attributes.role).toBe('img');
    expect([title!.name, title!.text, title!.attributes.id]).toEqual(['title', named.name, 'meniscus-1-2-title']);
    expect([desc!.name, desc!.text, desc!.attributes.id]).toEqual(['desc', named.sentence, 'meniscus-1-2-desc']);
    expect(svg.attributes['aria-labelledby']).toBe('meniscus-1-2-title');
    expect(svg.attributes['aria-describedby']).toBe('meniscus-1-2-desc');
  });

  it('keeps its words apart and on the sheet, at eight pixels or more in 320', () => {
    const elements = drawn(figure);
    const [svg] = elements;
    const [sheetWidth, sheetHeight] = [Number(svg!.attributes.width), Number(svg!.attributes.height)];
    const boxes = elements.flatMap(({ name, text, attributes }) => {
      if (name !== 'text') return [];
      const size = Number(attributes['font-size']);
      expect((size * 320) / sheetWidth).toBeGreaterThan(8);
      const long = text.length * 0.52 * size;
      const left =
        Number(attributes.x) - { start: 0, middle: 0.5, end: 1 }[attributes['text-anchor'] as 'start']! * long;
      const baseline = Number(attributes.y);
      return [{ text, left, right: left + long, top: baseline - 0.72 * size, bottom: baseline + 0.1 * size }];
    });
    const touching = boxes.flatMap((a, index) =>
      boxes
        .slice(index + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        .map((b) => `${a.text} / ${b.text}`),
    );
    expect(touching).toEqual([]);
    for (const { left, right, top, bottom, text } of boxes) {
      expect([left >= 0, right <= sheetWidth, top >= 0, bottom <= sheetHeight], text).toEqual([true, true, true, true]);
    }
  });

  it.each(HOSTILE_TEXTS)('is a picture and nothing more whatever the note says: %j', (text) => {
    const hostile = JSON.parse(JSON.stringify(figure), (key, value) =>
      key === 'name' || key === 'sentence' ? text : value,
    ) as Figure;
    for (const { name, attributes } of drawn(hostile)) {
      expect(['svg', 'title', 'desc', 'rect', 'path', 'text', 'line', 'circle']).toContain(name);
      expect(Object.keys(attributes).filter((key) => /^on|href|style|src/.test(key))).toEqual([]);
    }
  });
});

describe('whatever the numbers', () => {
  const volume = fc.double({ min: 0, max: 1e7, noNaN: true });
  const signed = fc.double({ min: -1e7, max: 1e7, noNaN: true });
  const mEq = fc.double({ min: 0, max: 2e4, noNaN: true });
  const shares = fc.array(fc.record({ name: fc.constant('sodium'), mEq }), { maxLength: 12 });
  const stacks = fc.record({ name: fc.constant('x'), cations: shares, anions: shares });
  const compartments = fc.record({ cells: signed, interstitium: signed, plasma: signed });
  const any: fc.Arbitrary<Figure> = fc.oneof(
    fc.record({ liquid: stacks, plasma: stacks }).map((of) => ({ ...ions, ...of })),
    fc
      .array(
        fc.record({
          volume,
          osmolarity: mEq,
          added: fc.option(fc.record({ volume, name: fc.constant('water') })),
          withdrawn: volume,
        }),
        { maxLength: 30 },
      )
      .map((steps) => ({ ...vessels, steps })),
    fc.record({ arrives: compartments, before: fc.option(compartments) }).map((of) => ({ ...basins, ...of })),
    fc
      .record({
        points: fc.array(
          fc.record({ hour: fc.double({ min: 0, max: 336, noNaN: true }), sodium: mEq, regression: signed }),
          { maxLength: 40 },
        ),
        limit: fc.array(fc.record({ until: fc.integer({ min: 1, max: 60 }), sodium: mEq }), { maxLength: 3 }),
      })
      .map(({ points, limit }) => ({ ...course, points: points.sort((a, b) => a.hour - b.hour), limit })),
    fc
      .array(fc.record({ name: fc.constant('x'), freeWater: signed, bag: mEq, body: mEq }), { maxLength: 20 })
      .map((rows) => ({ ...compared, rows })),
  );

  it('every place is a number on the sheet’s own scale', () => {
    fc.assert(
      fc.property(any, (figure) => {
        for (const { attributes } of drawn(figure)) {
          for (const value of Object.values(attributes)) expect(value).not.toMatch(/NaN|Infinity|undefined|\de[+-]/);
        }
      }),
      runs(200),
    );
  });
});
