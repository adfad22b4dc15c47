/** What is an infusion block and what is not; the rules are those of CommonMark 0.31.2, sections 4.4 to 4.6 and 5. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NoteReader, readNote } from '../../src/markdown/index.ts';
import { runs } from '../runs.ts';
import { notes } from './arbitrary-notes.ts';

function texts(source: string): string[] {
  return readNote(source).blocks.map(({ text }) => text);
}

function block(source: string) {
  const { blocks } = readNote(source);
  expect(blocks).toHaveLength(1);
  return blocks[0]!;
}

describe('the first word of a fence', () => {
  it.each(['infusion', 'Infusion', 'INFUSION'])('makes a block: %s', (word) => {
    expect(texts(`\`\`\`${word}\na\n\`\`\`\n`)).toEqual(['a']);
    expect(texts(`~~~~ \t${word} \na\n~~~~\n`)).toEqual(['a']);
  });

  it.each(['', 'js', 'infusions', 'infusion-notes', 'an infusion', 'infusion`'])('makes none: %s', (info) => {
    expect(texts(`\`\`\`${info}\na\n\`\`\`\n`)).toEqual([]);
  });

  it.each([
    ['infusion', 'shared', []],
    ['infusion alone', 'alone', []],
    ['infusion Skip', 'skip', []],
    ['infusion alone skip', 'skip', []],
    ['infusion alone lesson 2', 'alone', ['lesson', '2']],
    ['infusion  {.wide}\t', 'shared', ['{.wide}']],
  ])('is followed by how the block takes part: %s', (info, mode, stray) => {
    const source = `> \`\`\` ${info}\r\n> a\r\n> \`\`\`\r\n`;
    const read = block(source);
    expect(read.mode).toBe(mode);
    expect(source.slice(read.info.start, read.info.end)).toBe(info.trimEnd());
    expect(read.strayInfo.map(({ text }) => text)).toEqual(stray);
    expect(read.strayInfo.map(({ span }) => source.slice(span.start, span.end))).toEqual(stray);
  });
});

describe('what looks like a block and is none', () => {
  it.each([
    ['in a comment', '<!--\n```infusion\na\n```\n-->\n'],
    ['in a comment with blank lines', '<!--\n\n```infusion\na\n\n```\n\n-->\n'],
    ['in raw HTML', '<pre>\n\n```infusion\na\n```\n\n</pre>\n'],
    ['in indented code', '    ```infusion\n    a\n    ```\n'],
    ['in indented code of a list', '- x\n\n      ```infusion\n      a\n      ```\n'],
    ['in a longer fence', '````markdown\n```infusion\na\n```\n````\n'],
    ['in a longer fence with blank lines', '````markdown\n\n```infusion\na\n\n```\n\n````\n'],
    ['in a fence of tildes', '~~~\n```infusion\na\n```\n~~~\n'],
    ['in front matter', '---\n```infusion\na\n```\n---\n'],
    ['in a line of prose', 'Write ```infusion to begin.\n'],
    ['behind a backslash', '\\```infusion\na\n'],
  ])('%s', (_, source) => {
    expect(texts(source)).toEqual([]);
  });

  it('does not keep the block behind it from being read', () => {
    const before = '<!--\n\n-- >\n\n```infusion\nno\n```\n\n-->\n````markdown\n\n```infusion\nno\n```\n\n`````\n';
    expect(texts(`${before}\`\`\`infusion\nyes\n\`\`\`\n`)).toEqual(['yes']);
  });
});

describe('front matter', () => {
  it.each(['---\na: 1\n---\n', '---\n---\n', '--- \r\na: 1\r\n\r\nb: 2\r\n---\t\r\n', '\uFEFF---\na: 1\n---\n'])(
    'comes before the note: %j',
    (head) => {
      const source = `${head}\`\`\`infusion\na\n\`\`\`\n`;
      expect(block(source).span).toEqual({ start: head.length, end: source.length - 1 });
    },
  );

  it('that is never closed is a line and prose', () => {
    expect(texts('---\na: 1\n\n```infusion\na\n```\n')).toEqual(['a']);
  });
});

describe('a fence that nothing closes', () => {
  it('ends its block at the first blank line, and the prose below is not read', () => {
    const source = '```infusion\nmixture a\n  1 L water\n\nThen prose about an infusion.\n\nMore.\n';
    const read = block(source);
    expect(read.closed).toBe(false);
    expect(read.text).toBe('mixture a\n  1 L water');
    expect(source.slice(read.span.start, read.span.end)).toBe('```infusion\nmixture a\n  1 L water');
  });

  it.each([
    ['before a bullet', '```infusion\na\n- b\nc\n\nprose\n- d\n', 'a\n- b\nc'],
    ['at the end of the note', '```infusion\na', 'a'],
    ['with nothing in it', '```infusion\n\nprose\n', ''],
    ['in a quotation', '> ```infusion\n> a\n\nprose\n', 'a'],
    ['in a list', '- ```infusion\n  a\n\n  b\n- c\n', 'a'],
    ['with shorter marks below', '````infusion\na\n```\n\nb\n', 'a\n```'],
    ['of very many marks', `${'`'.repeat(50_000)}infusion\na\n\nb\n`, 'a'],
    ['with other marks below', '```infusion\na\n~~~\n\nb\n', 'a\n~~~'],
  ])('%s', (_, source, text) => {
    const read = block(source);
    expect([read.closed, read.text]).toEqual([false, text]);
  });

  it('is not closed by the marks of the block below, which it swallows', () => {
    const source = '```infusion\na\n\nprose\n\n```infusion\nb\n```\n\n```infusion\nc\n```\n';
    expect(readNote(source).blocks.map(({ text, closed }) => [text, closed])).toEqual([
      ['a', false],
      ['c', true],
    ]);
  });
});

describe('any text', () => {
  const scraps = fc.constantFrom(
    '```infusion\n',
    '```',
    '\n',
    '\r',
    '> ',
    '- ',
    '\t',
    '<!--',
    '-->',
    '\0',
    '\uFEFF',
    '\uD800',
    '---\n',
  );
  const anyText = fc
    .array(fc.oneof(scraps, fc.string({ unit: 'binary' })), { maxLength: 30 })
    .map((all) => all.join(''));

  it('is a note, and every place in it has an answer within bounds', () => {
    fc.assert(
      fc.property(anyText, fc.integer(), fc.integer(), (source, start, end) => {
        for (const read of readNote(source).blocks) {
          const place = read.toSource({ start, end });
          for (const offset of [place.start, place.end]) {
            expect(offset).toBeGreaterThanOrEqual(read.span.start);
            expect(offset).toBeLessThanOrEqual(read.span.end);
          }
          const back = read.toText(start);
          if (back !== null) expect(back).toBeLessThanOrEqual(read.text.length);
        }
      }),
      runs(1000),
    );
  });

  it('is read in time when lists or quotations are opened beyond reason', () => {
    // Without a bound on the depth the parser takes minutes for the first of these.
    for (const mark of ['- ', '> ', '1. ', '> - ']) {
      const source = `${mark.repeat(20_000)}a\n\n\`\`\`infusion\nb\n\`\`\`\n`;
      expect(texts(`\`\`\`infusion\na\n\`\`\`\n${source}`)).toEqual(['a', 'b']);
    }
  });
});

describe('a reader that has read the note before', () => {
  it('finds what a fresh one finds, whatever was edited', () => {
    const edit = fc.record({
      at: fc.nat(),
      remove: fc.integer({ min: 0, max: 6 }),
      insert: fc.oneof(
        fc.constantFrom('', ' ', '`', '```', '~', '\n', '\n\n', '> ', '- ', '<!--', '\t'),
        fc.string({ maxLength: 3 }),
      ),
    });
    const places = (source: string, reader: NoteReader) =>
      reader.read(source).blocks.map((read) => ({
        ...read,
        places: Array.from({ length: read.text.length + 1 }, (_, start) => read.toSource({ start, end: start }).start),
      }));
    fc.assert(
      fc.property(notes, fc.array(edit, { minLength: 1, maxLength: 6 }), (first, edits) => {
        const reader = new NoteReader();
        let source = `${first}\n\n\`\`\`infusion\nmixture a\n  1 L water\n\`\`\`\n`;
        reader.read(source);
        for (const { at, remove, insert } of edits) {
          const place = at % (source.length + 1);
          source = source.slice(0, place) + insert + source.slice(place + remove);
          expect(places(source, reader)).toEqual(places(source, new NoteReader()));
        }
      }),
      runs(400),
    );
  });

  it('gives the same answer to the same note', () => {
    const source = '- ```infusion\n  a\n  ```\n';
    const reader = new NoteReader();
    expect(reader.read(source)).toEqual(reader.read(source));
  });
});
