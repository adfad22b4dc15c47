/** Every place of a block's text leads to the same characters in the note, and back, wherever the block stands. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Block, readNote } from '../../src/markdown/index.ts';
import { runs } from '../runs.ts';
import { wrappings } from './wrappings.ts';

const TEXTS = {
  'an ordinary recipe': 'mixture gastric "Gastric"\n  1 L sodium chloride 0.9%\n  claim sodium 154 mmol/L',
  'blank lines': '\nmixture a\n\n\n  1 L water\n',
  'lines of spaces': 'mixture a\n   \n  1 L water\n ',
  'tabs inside': 'mixture a\n\t1 L\twater\n\t\t# twice',
  'emoji and combining marks': 'mixture a "💧 e\u0301 ½"\n  1 L water # 👩🏽‍⚕️ done',
  'Markdown of its own': '- mixture\n> quotation\n# heading\n1. item\n<!-- comment\n    code',
  'one empty line': '',
};

/** [start, end) of every line of a text. */
function lineSpans(text: string): [number, number][] {
  let start = 0;
  return text.split('\n').map((line) => {
    const span: [number, number] = [start, start + line.length];
    start += line.length + 1;
    return span;
  });
}

function expectExactPlaces(source: string, text: string): void {
  const { blocks } = readNote(source);
  expect(blocks.map((block) => block.text)).toEqual([text]);
  const block = blocks[0]!;
  expect(block.closed).toBe(true);
  expect(source.slice(block.info.start, block.info.end)).toMatch(/^infusion$/i);
  expect(source.slice(block.span.start, block.span.end)).toMatch(/^(`{3,}|~{3,})[\s\S]*\1$/);
  expect(misplaced(source, block)).toEqual([]);
}

/** The spans within a line that lead to other characters in the note, and the offsets that do not come back. */
function misplaced(source: string, block: Block): string[] {
  const { text } = block;
  const wrong: string[] = [];
  for (const [lineStart, lineEnd] of lineSpans(text)) {
    for (let start = lineStart; start <= lineEnd; start++) {
      for (let end = start; end <= lineEnd; end++) {
        const place = block.toSource({ start, end });
        if (source.slice(place.start, place.end) !== text.slice(start, end)) wrong.push(`${start}-${end}`);
      }
      if (block.toText(block.toSource({ start, end: start }).start) !== start) wrong.push(`back to ${start}`);
    }
  }
  return wrong;
}

describe.each(wrappings.map(({ name, wrap }) => [name, wrap] as const))('a block in a note: %s', (_, wrap) => {
  it.each(Object.entries(TEXTS))('with %s', (_, text) => {
    expectExactPlaces(wrap(text), text);
  });

  it('with any text', () => {
    const line = fc.stringMatching(/^[ \ta-z0-9"#%>.\-🧂é]{0,12}$/u);
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 5 }), (lines) => {
        expectExactPlaces(wrap(lines.join('\n')), lines.join('\n'));
      }),
      runs(40),
    );
  });
});

describe('places at the edge', () => {
  it('are clamped on the way to the note', () => {
    const source = 'x\n\n```infusion\nab\ncd\n```\n';
    const block = readNote(source).blocks[0]!;
    expect(block.toSource({ start: -5, end: 99 })).toEqual({ start: 15, end: 20 });
  });

  it('are null on the way back when they lie in a prefix, a line end or outside', () => {
    const source = '> ```infusion\r\n> ab\r\n>\r\n> cd\r\n> ```\r\n';
    const block = readNote(source).blocks[0]!;
    expect(block.text).toBe('ab\n\ncd');
    const places = Array.from({ length: source.length + 1 }, (_, offset) => block.toText(offset));
    const inText = places.flatMap((place, offset) => (place === null ? [] : [[offset, place]]));
    expect(inText).toEqual([
      [17, 0],
      [18, 1],
      [19, 2],
      [22, 3],
      [26, 4],
      [27, 5],
      [28, 6],
    ]);
  });

  it('of content with less indentation than its fence are its own', () => {
    const source = '   ```infusion\n  a\nb\n      c\n   ```\n';
    const block = readNote(source).blocks[0]!;
    expect(block.text).toBe('a\nb\n   c');
    expect([0, 2, 4].map((start) => block.toSource({ start, end: start }).start)).toEqual([17, 19, 21 + 3]);
  });

  it('of the rest of a tab are the first character behind it', () => {
    // The tab is four columns wide: two belong to the list item, two to the content.
    const source = '- x\n\n  ```infusion\n\tab\n  ```\n';
    const block = readNote(source).blocks[0]!;
    expect(block.text).toBe('  ab');
    expect(block.toSource({ start: 0, end: 4 })).toEqual({ start: 20, end: 22 });
    expect(block.toSource({ start: 3, end: 4 })).toEqual({ start: 21, end: 22 });
    expect([19, 20, 21, 22].map((offset) => block.toText(offset))).toEqual([null, 2, 3, 4]);
  });

  it('of an empty block are the end of its first line', () => {
    const block = readNote('```infusion\n```\n').blocks[0]!;
    expect(block.text).toBe('');
    expect(block.toSource({ start: 0, end: 1 })).toEqual({ start: 11, end: 11 });
    expect(block.toText(11)).toBeNull();
  });
});
