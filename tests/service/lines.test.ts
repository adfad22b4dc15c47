/** Lines and columns against the protocol library's own text document. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Lines } from '../../src/service/lines.ts';

const text = fc.string({ unit: fc.constantFrom('a', 'é', '😀', '\n', '\r', '\r\n', '\t', '\u2028') });

it('counts lines and UTF-16 columns as the protocol library does', () => {
  fc.assert(
    fc.property(text, fc.nat(60), (source, offset) => {
      const expected = TextDocument.create('file:///a.md', 'markdown', 1, source).positionAt(offset);
      // That library moves a position between CR and LF to before the CR; here it stays where it was asked.
      fc.pre(!(source[offset - 1] === '\r' && source[offset] === '\n'));
      expect(new Lines(source).at(offset)).toEqual(expected);
    }),
  );
});

it('gives a line without its end, and nothing beyond the last', () => {
  const lines = new Lines('one\r\ntwo\rthree');
  expect([lines.text(0), lines.text(1), lines.text(2), lines.text(3)]).toEqual(['one', 'two', 'three', '']);
});
