/** What holds of every figure: it is told in words, can be read, and is a picture and nothing more. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figureSvg } from '../../src/render/index.ts';
import type { Figure } from '../../src/text/figures.ts';
import { runs } from '../runs.ts';
import { HOSTILE_TEXTS } from './hostile-texts.ts';
import { basins, compared, course, drawn, FIGURES, ions, named, vessels } from './sample-figures.ts';
import { wellFormed } from './well-formed.ts';

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
