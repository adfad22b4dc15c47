/** Where prose stands, against the whole note parsed at once by remark with everything that a paragraph may hold. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NoteReader, readNote } from '../../src/markdown/index.ts';
import type { NoteText, SourceSpan } from '../../src/markdown/note-text.ts';
import { runs } from '../runs.ts';
import { notes } from './arbitrary-notes.ts';
import { notProse } from './whole-note.ts';

const BLOCK = '\n\n```infusion\nmixture a\n```\n';

function texts(source: string, reader = new NoteReader()): string[] {
  return linesOf(reader.read(source)).map(({ start, end }) => source.slice(start, end));
}

function linesOf(note: NoteText): readonly SourceSpan[] {
  return note
    .prose()
    .flatMap(({ start: from, lines }) => lines.map(({ start, end }) => ({ start: from + start, end: from + end })));
}

describe('prose', () => {
  it.each([
    ['a paragraph, line by line', 'One\ntwo', ['One', 'two']],
    ['behind the marks of containers', '> - One\n>   two\n> three', ['One', 'two', 'three']],
    ['a heading', '# One #\n\nTwo\n===', ['One', 'Two']],
    ['around code', 'a `b` c ``d`e`` f \\`g', ['a ', ' c ', ' f \\`g']],
    ['code over two lines', 'a `b\nc` d', ['a ', ' d']],
    ['a backtick without its other', 'a ` b', ['a ` b']],
    ['around addresses', '[a](b c) <d> https://e f', ['[a', ' ', ' ', ' f']],
  ])('%s', (_, source, expected) => {
    expect(texts(source + BLOCK)).toEqual(expected);
  });

  const words = (all: readonly string[]) => all.flatMap((text) => text.match(/\p{L}+/gu) ?? []);

  it('is what a whole parse says, in any note', () => {
    fc.assert(
      fc.property(notes, (first) => {
        const source = `${first.replaceAll('`` ```infusion', '')}${BLOCK}`;
        const note = readNote(source);
        if (note.blocks.length === 0) return;
        const code = notProse(source);
        for (const { start, end } of linesOf(note)) {
          expect(code.some((span) => span.start < end && span.end > start)).toBe(false);
        }
      }),
      runs(500),
    );
  });

  it('is the same to a reader that has read the note before', () => {
    const reader = new NoteReader();
    const source = `One\n\n- two\n${BLOCK}`;
    expect(texts(source, reader)).toEqual(['One', 'two']);
    expect(words(texts(`Before\n\n${source}`, reader))).toEqual(['Before', 'One', 'two']);
  });

  it('is read in time, whatever it is made of', () => {
    for (const mark of ['`', '` ', '[a](', '](', '<a', '][', '\\`', '\\', '``` ', '1:1', '10 m']) {
      expect(texts(`${mark.repeat(50_000)}${BLOCK}`).length).toBeGreaterThanOrEqual(0);
    }
  });
});
