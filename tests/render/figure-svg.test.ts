/** The figure of bag and body: what it says, whether it can be read, and that it is a picture and nothing more. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figureSvg } from '../../src/render/index.ts';
import type { BagAndBody } from '../../src/text/figures.ts';
import { runs } from '../runs.ts';
import { HOSTILE_TEXTS } from './hostile-texts.ts';
import { type Element, everyElement, wellFormed } from './well-formed.ts';

function drawn(figure: Partial<BagAndBody>): Element[] {
  const whole: BagAndBody = {
    kind: 'bag-and-body',
    name: 'Water and tonicity',
    sentence: 'Isotonic.',
    freeWater: 0,
    bag: 308,
    body: 308,
    isotonic: [250, 375],
    ...figure,
  };
  return everyElement(wellFormed(figureSvg(whole)));
}

function texts(elements: readonly Element[]): string[] {
  return elements.filter(({ name }) => name === 'text').map(({ text }) => text);
}

/** The labels that are not numbers of the scale. */
function labels(elements: readonly Element[]): string[] {
  return texts(elements).filter((text) => /[a-z]/.test(text) && text !== 'isotonic' && !text.endsWith('mOsm/L'));
}

const circles = (elements: readonly Element[]) => elements.filter(({ name }) => name === 'circle');
const isOpen = ({ attributes }: Element) => attributes.fill !== attributes.stroke && attributes.stroke !== undefined;
const bagMark = (elements: readonly Element[]) => circles(elements).find((circle) => !isOpen(circle))!;
const bodyMark = (elements: readonly Element[]) => circles(elements).find(isOpen)!;
const at = (mark: Element) => Number(mark.attributes.cx);

/** Numbers any mixture can have: from water to a saturated salt, and isotonic ranges a policy may set. */
const figures = fc
  .record({
    freeWater: fc.oneof(fc.double({ min: -40_000, max: 1000, noNaN: true }), fc.integer({ min: -400, max: 1000 })),
    body: fc.oneof(fc.double({ min: 0, max: 14_000, noNaN: true }), fc.integer({ min: 0, max: 700 })),
    dextrose: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 4000, noNaN: true }), fc.integer({ min: 0, max: 20 })),
    low: fc.integer({ min: 200, max: 300 }),
    range: fc.integer({ min: 10, max: 150 }),
  })
  .map(({ freeWater, body, dextrose, low, range }) => ({
    freeWater,
    body,
    bag: body + dextrose,
    isotonic: [low, low + range] as const,
  }));

describe('the words of the figure', () => {
  // The values are those of the worked examples: free water 1 - (Na + K)/154, osmolarity by full dissociation.
  it.each([
    ['sodium chloride 0.9 %', 0, 308, 308, ['1000 mL as 0.9 % saline', 'bag and body 308']],
    [
      'sodium chloride 0.45 %',
      500,
      154,
      154,
      ['500 mL free of electrolytes', '500 mL as 0.9 % saline', 'bag and body 154'],
    ],
    [
      'dextrose 5 % in it',
      500,
      406.3,
      154,
      ['500 mL free of electrolytes', '500 mL as 0.9 % saline', 'body 154', 'bag 406'],
    ],
    [
      'sodium chloride 3 %',
      -2333.3,
      1026.7,
      1026.7,
      ['draws 2333 mL of water', 'as 3333 mL of 0.9 % saline', 'bag and body 1027'],
    ],
    [
      'sodium chloride 23.4 %',
      -25_000,
      8008,
      8008,
      ['draws 25 L of water', 'as 26 L of 0.9 % saline', 'bag and body 8008'],
    ],
    ['water', 1000, 0, 0, ['1000 mL free of electrolytes', 'bag and body 0']],
    ['dextrose 50 %', 1000, 2522.9, 0, ['1000 mL free of electrolytes', 'body 0', 'bag 2523']],
    ['hardly any free water', 0.4, 308, 308, ['1000 mL as 0.9 % saline', 'bag and body 308']],
  ])('for %s', (_, freeWater, bag, body, expected) => {
    expect(labels(drawn({ freeWater, bag, body }))).toEqual(expected);
  });

  it('give the isotonic range and the unit', () => {
    const shown = texts(drawn({ isotonic: [250, 375] }));
    expect(shown).toEqual(expect.arrayContaining(['0 mOsm/L', '250', 'isotonic', '375', '600', '2000', '10000']));
    const narrow = texts(drawn({ isotonic: [280, 296] }));
    expect(narrow).toEqual(expect.arrayContaining(['280', '296']));
    for (const all of [shown, narrow]) expect(all.filter((text) => text.endsWith('mOsm/L'))).toHaveLength(1);
  });

  it('have the sentence as their alternative', () => {
    const [svg, title, desc] = drawn({ sentence: 'Isotonic in the bag & in the body.' });
    expect(svg!.attributes.role).toBe('img');
    expect([title!.name, title!.text]).toEqual(['title', 'Water and tonicity']);
    expect([desc!.name, desc!.text]).toEqual(['desc', 'Isotonic in the bag & in the body.']);
    expect(svg!.attributes['aria-describedby']).toBe(desc!.attributes.id);
    expect(svg!.attributes['aria-labelledby']).toBe(title!.attributes.id);
  });
});

describe('what the figure shows', () => {
  it('puts the bag inside the bracket exactly when it is in the isotonic range', () => {
    fc.assert(
      fc.property(figures, ({ isotonic, ...rest }) => {
        const elements = drawn({ isotonic, ...rest });
        const bracket = elements
          .map(({ attributes }) => /^M([\d.]+) [\d.]+v4H([\d.]+)v-4$/.exec(attributes.d ?? ''))
          .find(Boolean)!;
        const [from, to] = [Number(bracket[1]), Number(bracket[2])];
        const rounded = Math.round(rest.bag);
        const isInside = at(bagMark(elements)) >= from && at(bagMark(elements)) <= to;
        expect(isInside).toBe(rounded >= isotonic[0] && rounded <= isotonic[1]);
      }),
    );
  });

  it('rises with the osmolarity: evenly to 600 mOsm/L, by equal factors above', () => {
    const place = (bag: number) => at(bagMark(drawn({ bag, body: 0 })));
    expect(place(600) - place(300)).toBeCloseTo(place(300) - place(0), 1);
    expect(place(2400) - place(1200)).toBeCloseTo(place(1200) - place(600), 1);
    expect(place(601)).toBeGreaterThan(place(600));
    expect(place(50_000)).toBe(place(10_000));
  });

  it('draws the border of the free water in proportion', () => {
    const divider = (freeWater: number) => {
      const upright = drawn({ freeWater }).find(
        ({ name, attributes }) => name === 'line' && attributes.x1 === attributes.x2,
      );
      return Number(upright!.attributes.x1);
    };
    expect(divider(500) - divider(250)).toBeCloseTo(divider(750) - divider(500), 1);
    expect(divider(750)).toBeGreaterThan(divider(250));
  });

  it('joins the marks when bag and body differ', () => {
    const joined = (bag: number, body: number) =>
      drawn({ bag, body }).some(({ name, attributes }) => {
        const ends = [Number(attributes.x1), Number(attributes.x2)].sort((a, b) => a - b);
        const marks = circles(drawn({ bag, body }))
          .map(at)
          .sort((a, b) => a - b);
        return name === 'line' && ends[0] === marks[0] && ends[1] === marks[1];
      });
    expect(joined(406, 154)).toBe(true);
    expect(joined(308, 308)).toBe(false);
  });
});

interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Where a label lies if its letters are on average 0.56 of its size wide, as in the usual sans-serif faces. */
function boxOf({ text, attributes }: Element): Box {
  const size = Number(attributes['font-size']);
  const width = text.length * 0.56 * size;
  const x = Number(attributes.x);
  const left = x - { start: 0, middle: 0.5, end: 1 }[attributes['text-anchor'] as 'start']! * width;
  const baseline = Number(attributes.y);
  return { text, left, right: left + width, top: baseline - 0.75 * size, bottom: baseline + 0.22 * size };
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

describe('whatever the numbers', () => {
  it('labels do not overlap, and everything lies on the sheet', () => {
    fc.assert(
      fc.property(figures, (figure) => {
        const elements = drawn(figure);
        const boxes = elements.filter(({ name }) => name === 'text').map(boxOf);
        const touching = boxes.flatMap((a, index) =>
          boxes.slice(index + 1).flatMap((b) => (overlap(a, b) ? [`${a.text} / ${b.text}`] : [])),
        );
        expect(touching).toEqual([]);
        for (const { left, right, top, bottom } of boxes) {
          expect(Math.min(left, top)).toBeGreaterThan(4);
          expect(right).toBeLessThan(356);
          expect(bottom).toBeLessThan(112);
        }
        for (const { attributes } of circles(elements)) {
          const [x, y, r] = [Number(attributes.cx), Number(attributes.cy), Number(attributes.r)];
          expect([x - r > 2, x + r < 358, y - r > 2, y + r < 112]).toEqual([true, true, true, true]);
          for (const box of boxes)
            expect(y - r > box.bottom || y + r < box.top || x + r < box.left || x - r > box.right).toBe(true);
        }
        for (const { attributes } of elements) {
          for (const value of Object.values(attributes)) expect(value).not.toMatch(/NaN|Infinity|undefined|\de[+-]/);
          for (const [, x] of (attributes.d ?? '').matchAll(/[MH](-?[\d.]+)/g)) {
            expect(Number(x)).toBeGreaterThanOrEqual(11);
            expect(Number(x)).toBeLessThanOrEqual(349);
          }
        }
      }),
      runs(400),
    );
  });

  it('holds at the ends of what a number can be', () => {
    for (const extreme of [Number.MAX_VALUE, -Number.MAX_VALUE, Number.MIN_VALUE, Infinity]) {
      const [svg] = drawn({ freeWater: -extreme, bag: extreme, body: extreme });
      const places = everyElement(svg!).flatMap(({ attributes }) => Object.values(attributes));
      expect(places.filter((value) => /NaN|Infinity/.test(value))).toEqual([]);
    }
  });
});

/** WCAG 2.2, relative luminance and contrast ratio. */
function contrast(a: string, b: string): number {
  const luminance = (colour: string) => {
    const [r, g, blue] = [1, 3, 5].map((from) => {
      const channel = Number.parseInt(colour.slice(from, from + 2), 16) / 255;
      return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * blue!;
  };
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light! + 0.05) / (dark! + 0.05);
}

describe('the picture', () => {
  const elements = drawn({ freeWater: 500, bag: 406, body: 154 });
  const [, , , sheet] = elements;

  it('brings its own light sheet, as large as itself', () => {
    expect(sheet!.name).toBe('rect');
    expect(Number(sheet!.attributes.width)).toBeGreaterThanOrEqual(358);
    expect(contrast(sheet!.attributes.fill!, '#ffffff')).toBeLessThan(1.2);
  });

  it('is written and drawn in ink with a contrast of at least 4.5 to 1', () => {
    const inks = elements
      .slice(4)
      .flatMap(({ name, attributes }) =>
        name === 'text' ? [attributes.fill!] : attributes.stroke ? [attributes.stroke] : [],
      );
    const water = elements.find(({ name, attributes }) => name === 'path' && attributes.fill !== 'none')!.attributes
      .fill!;
    expect(inks.length).toBeGreaterThan(10);
    for (const ink of new Set(inks)) {
      expect(contrast(ink, sheet!.attributes.fill!)).toBeGreaterThanOrEqual(4.5);
      expect(contrast(ink, water)).toBeGreaterThanOrEqual(4.5);
    }
  });

  it('tells bag from body and free from isotonic without colour', () => {
    expect(bagMark(elements).attributes.r).not.toBe(bodyMark(elements).attributes.r);
    const strokes = (freeWater: number) =>
      drawn({ freeWater }).flatMap(({ attributes }) => attributes.d?.match(/M[\d.]+ [\d.]+l[\d.]+ -[\d.]+/g) ?? [])
        .length;
    expect(strokes(1000)).toBe(0);
    expect(strokes(0)).toBeGreaterThan(strokes(500));
  });

  it('still has letters of eight pixels in 320 pixels of width', () => {
    const sizes = elements
      .filter(({ name }) => name === 'text')
      .map(({ attributes }) => Number(attributes['font-size']));
    expect((Math.min(...sizes) * 320) / 360).toBeGreaterThan(8);
  });

  it.each(HOSTILE_TEXTS)('is a picture and nothing more when its sentence is %j', (sentence) => {
    const all = drawn({ sentence });
    expect(new Set(all.map(({ name }) => name))).toEqual(
      new Set(['svg', 'title', 'desc', 'rect', 'path', 'text', 'line', 'circle']),
    );
    for (const { attributes } of all) {
      expect(Object.keys(attributes).filter((name) => /^on|href|style|src/.test(name))).toEqual([]);
    }
    expect(all[2]!.text.replaceAll('\uFFFD', '')).toBe(sentence.replace(/[\x00-\x08\v\f\x0E-\x1F]/g, ''));
  });
});
