/** Places in a document as each encoding counts them, against Node's own encoders. RFC 3629, RFC 2781. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { OpenDocument } from '../../src/server/open-document.ts';

const length: Record<string, (text: string) => number> = {
  'utf-8': (text) => Buffer.byteLength(text, 'utf8'),
  'utf-16': (text) => Buffer.byteLength(text, 'utf16le') / 2,
  'utf-32': (text) => [...text].length,
};
const encodings = Object.keys(length);

const letter = fc.constantFrom('a', 'ö', '€', '😀', ' ', '\n', '\r\n', '\r', '\t', '\u2028');
const text = fc.array(letter, { maxLength: 40 }).map((letters) => letters.join(''));
const documentOf = (source: string, encoding: string) =>
  new OpenDocument('file:///n.md', 'markdown', 1, source, encoding);

/** The offset, or the one before where it would part a letter. */
function beforeLetter(source: string, offset: number): number {
  return /[\uDC00-\uDFFF]/.test(source[offset] ?? '') ? offset - 1 : offset;
}

describe.each(encodings)('%s', (encoding) => {
  test('a place is the length of what stands before it in its line, and leads back', () => {
    fc.assert(
      fc.property(text, (source) => {
        const document = documentOf(source, encoding);
        const plain = TextDocument.create('file:///n.md', 'markdown', 1, source);
        let offset = 0;
        for (const one of [...source, '']) {
          const { line, character } = document.positionAt(offset);
          const start = plain.offsetAt({ line, character: 0 });
          const end = plain.offsetAt(plain.positionAt(offset));
          expect(line).toBe(plain.positionAt(offset).line);
          expect(character).toBe(length[encoding]!(source.slice(start, end)));
          expect(document.offsetAt({ line, character })).toBe(end);
          offset += one.length;
        }
      }),
    );
  });

  test('changes come to the text that they say, wherever they reach', () => {
    const place = fc.nat(60);
    fc.assert(
      fc.property(text, fc.array(fc.tuple(place, place, text), { maxLength: 6 }), place, (source, edits, beyond) => {
        const document = documentOf(source, encoding);
        let expected = source;
        for (const [from, to, insert] of edits) {
          const plain = TextDocument.create('', '', 0, expected);
          const at = (offset: number) => plain.offsetAt(plain.positionAt(beforeLetter(expected, offset)));
          const [start, end] = [at(Math.min(from, to)), at(Math.max(from, to))];
          const last = document.lineCount + beyond;
          const reach = end === expected.length ? { line: last, character: beyond } : document.positionAt(end);
          const range = { start: document.positionAt(start), end: reach };
          document.update([{ range, text: insert }], document.version + 1);
          expected = expected.slice(0, start) + insert + expected.slice(end);
          expect(document.getText()).toBe(expected);
          expect(document.lineCount).toBe(TextDocument.create('', '', 0, expected).lineCount);
        }
      }),
    );
  });
});

test('a place within a letter is the place before it, one behind its line the end of the line', () => {
  const document = documentOf('ö😀\r\nb', 'utf-8');
  expect([0, 1, 2, 3, 5, 6, 900].map((character) => document.offsetAt({ line: 0, character }))).toEqual([
    0, 0, 1, 1, 1, 3, 3,
  ]);
  expect(document.offsetAt({ line: 9, character: 0 })).toBe(6);
});

test.each([[[{}]], [[{ text: 1 }]], [[{ text: '', range: {} }]], [[{ text: '', range: { start: -1 } }]], [7]])(
  'what is no change changes nothing: %j',
  (changes) => {
    const document = documentOf('a', 'utf-16');
    expect(() => document.update([{ text: 'b' }, ...(changes as never)], 2)).toThrow(TypeError);
    expect([document.getText(), document.version]).toEqual(['a', 1]);
  },
);
