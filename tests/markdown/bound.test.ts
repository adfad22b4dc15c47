/** Links to results and marks of kept tables, against the whole note parsed at once by remark. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NoteReader, readNote } from '../../src/markdown/index.ts';
import { runs } from '../runs.ts';
import { notesWithLinks } from './arbitrary-notes.ts';
import { wholeBound } from './whole-note.ts';

/** See chunks.test.ts. */
const LIST_BEHIND_INDENTED_CODE = /^(?: {4}| {0,3}\t).*\S.*$\s*^(?:(?:[02-9]|1\d)\d*[.)]|(?:[-+*]|\d+[.)])[ \t]*$)/m;

function inShort(source: string, reader = new NoteReader()) {
  const { links, tables, slips } = reader.read(source).bound();
  const marks = slips.filter(({ problem }) => problem.startsWith('mark'));
  return {
    links: links.map(({ span, target, text }) => ({ ...span, url: `infusion:${target}`, text: text.text })),
    tables: tables.map(({ opening, closing }) => [opening.start, closing.start]),
    strayMarks: marks.map(({ at }) => at.start).sort((a, b) => a - b),
  };
}

describe('links and marks', () => {
  it('are those of a whole parse, in any note', () => {
    fc.assert(
      fc.property(notesWithLinks, (source) => {
        fc.pre(!LIST_BEHIND_INDENTED_CODE.test(source));
        expect(inShort(source)).toEqual(wholeBound(source));
      }),
      runs(1500),
    );
  });

  it('are the same to a reader that has read another version', () => {
    fc.assert(
      fc.property(notesWithLinks, notesWithLinks, (first, second) => {
        const reader = new NoteReader();
        inShort(first, reader);
        const both = `${first}\n\n${second}`;
        expect(inShort(both, reader)).toEqual(inShort(both));
      }),
      runs(300),
    );
  });

  it('lead from the text of a link to the same characters of the note', () => {
    fc.assert(
      fc.property(notesWithLinks, (source) => {
        for (const { text } of readNote(source).bound().links) {
          [...text.text].forEach((character, index) => {
            if (text.text.length !== [...text.text].length || /[\s&]/.test(character)) return;
            const { start, end } = text.toSource({ start: index, end: index + 1 });
            expect(source.slice(start, end).replace(/^\\/, '')).toBe(character);
          });
        }
      }),
      runs(200),
    );
  });

  it('are read in time, whatever stands around them', () => {
    for (const mark of ['[', ']', '[a](', '[a][', '![', '`', '<!--', '<a', '*a ', '[na] ', '\\[']) {
      const source = `[na]: infusion:bag/sodium\n\n[1](infusion:bag) ${mark.repeat(30_000)}\n`;
      expect(readNote(source).bound().tables).toEqual([]);
    }
  });
});

describe('a link', () => {
  const link = (source: string) =>
    readNote(source)
      .bound()
      .links.map(({ target, text, targetSpan }) => ({
        target,
        text: text.text,
        written: source.slice(targetSpan.start, targetSpan.end),
      }));

  it.each([
    ['[77 mmol/L](infusion:a/b)', 'a/b', '77 mmol/L', 'infusion:a/b'],
    ['[77 mmol/L](<infusion:a/free water>)', 'a/free water', '77 mmol/L', 'infusion:a/free water'],
    ['[77 mmol/L](infusion:a/free%20water "of the bag")', 'a/free%20water', '77 mmol/L', 'infusion:a/free%20water'],
    ['[77 mmol/L][x]\n\n[x]: infusion:a/b', 'a/b', '77 mmol/L', 'infusion:a/b'],
    ['> - [77\n>   mmol/L](Infusion:a/b)', 'a/b', '77\nmmol/L', 'Infusion:a/b'],
    ['[77&nbsp;**mmol/L**](infusion:a/b)', 'a/b', '77\u00a0mmol/L', 'infusion:a/b'],
    ['<infusion:a>', 'a', 'infusion:a', 'infusion:a'],
  ])('%s', (source, target, text, written) => {
    expect(link(source)).toEqual([{ target, text, written }]);
  });

  it.each(['`[77](infusion:a/b)`', '\\[77](infusion:a/b)', '    [77](infusion:a/b)', '<!-- [77](infusion:a/b) -->'])(
    'is none: %s',
    (source) => {
      expect(link(source)).toEqual([]);
    },
  );

  it('with a space in its target is told apart', () => {
    const source = '[77](infusion:a/free water)';
    const { slips } = readNote(source).bound();
    expect(slips.map(({ at, problem }) => [problem, source.slice(at.start, at.end)])).toEqual([
      ['not-a-link', 'infusion:a/free water'],
    ]);
  });
});

describe('a kept table', () => {
  it.each([
    ['at the top', '', '\n'],
    ['in a quotation', '> ', '\n'],
    ['in a list', '  ', '\r\n'],
    ['in a quotation in a list', '  > ', '\n'],
    ['behind a tab', '\t', '\r'],
  ])('is written with the prefix of its container: %s', (_, prefix, lineEnd) => {
    const lead =
      prefix.trim() === '' && prefix !== ''
        ? `- Item${lineEnd}${lineEnd}`
        : prefix === '  > '
          ? `- Item${lineEnd}${lineEnd}`
          : '';
    const source = `${lead}${['<!-- infusion:compare a by b -->', '| old |', '<!-- /infusion -->'].map((line) => prefix + line + lineEnd).join('')}`;
    const [table] = readNote(source).bound().tables;
    expect(table?.lines).toEqual(['| old |']);
    const after =
      source.slice(0, table!.between.start) + table!.written(['| new |']) + source.slice(table!.between.end);
    const bare = prefix.trimEnd() + lineEnd;
    expect(after).toBe(source.replace(`${prefix}| old |${lineEnd}`, `${bare}${prefix}| new |${lineEnd}${bare}`));
    expect(readNote(after).bound().tables[0]?.lines).toEqual(['| new |']);
  });
});
