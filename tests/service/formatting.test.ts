/** The blocks of a note in the one form, wherever they stand; nothing around them changes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readNote } from '../../src/markdown/index.ts';
import { formatBlock } from '../../src/notation/index.ts';
import { applied, createNoteService, formattingOf } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { notes } from '../markdown/arbitrary-notes.ts';
import { wrappings } from '../markdown/wrappings.ts';
import { anyText } from '../notation/arbitrary-blocks.ts';
import { runs } from '../runs.ts';

function formatted(source: string): string {
  return applied(source, formattingOf(readNote(source)));
}

const untidy = [
  '',
  ' Mixture bag "A  bag"',
  '1 litre sodium chloride 0.9 % # slowly',
  '\t10ml potassium chloride 2 mmol/ml',
  '    # as the ward does it',
  'accept volume-added because "so"',
  '',
  '   ',
  '1,000 mL  water',
  '      claim sodium 150 mmol/l',
  '',
].join('\n');

describe('formatting of a note', () => {
  it.each(['', '\uFEFF', 'Text.\n\n', '> '])('leaves a block without lines as it is, behind %j', (before) => {
    const note = `${before}\`\`\`infusion\n${before === '> ' ? '> ' : ''}\`\`\`\n`;
    expect(formattingOf(readNote(note))).toEqual([]);
  });

  it.each(wrappings)('is that of its block: $name', ({ wrap }) => {
    expect(formatted(wrap(untidy))).toBe(wrap(formatBlock(untidy)));
  });

  it.each(wrappings)('leaves a block in that form alone: $name', ({ wrap }) => {
    expect(formattingOf(readNote(wrap(formatBlock(untidy))))).toEqual([]);
  });

  it('is an edit for each line that changes, behind the prefix of its containers', () => {
    const source = '> - ```infusion\r\n>   mixture bag\r\n>\r\n>   \r\n>   1 l  water\r\n>   ```\r\n';
    const edits = formattingOf(readNote(source));
    expect(edits.map(({ span, text }) => [source.slice(span.start, span.end), text])).toEqual([
      ['\r\n>   ', ''],
      ['1 l  water', '  1 L water'],
    ]);
    expect(createNoteService().work('file:///a.md', source).formatting()).toEqual(edits);
  });

  it('makes spaces of a tab that a container takes in part', () => {
    const list = (first: string, second: string) => `- Item\n\n  \`\`\`infusion\n${first}\n${second}\n  \`\`\`\n`;
    expect(formatted(list('\tmixture bag', '\t\t1 L water'))).toBe(list('  mixture bag', '    1 L water'));
    expect(formatted(list('  mixture bag', '\t1 l water'))).toBe(list('  mixture bag', '    1 L water'));
    expect(formatted(list('  mixture bag\n\t\n  1 L water', '  claim volume 1 L'))).toBe(
      list('  mixture bag\n  \n    1 L water', '    claim volume 1 L'),
    );
  });

  it('counts the columns of a line from its fence', () => {
    expect(formatted('   ```infusion\nmixture bag\n 1 L water\n   ```\n')).toBe(
      '   ```infusion\nmixture bag\n     1 L water\n   ```\n',
    );
    expect(formatted('> ```infusion\n>mixture bag\n>1 L water\n> ```\n')).toBe(
      '> ```infusion\n>mixture bag\n>   1 L water\n> ```\n',
    );
  });

  it('goes into blocks with names of their own, not into skipped ones, open ones and other code', () => {
    const block = 'mixture bag\n1 L water';
    expect(formatted(fenced(block, { info: 'alone' }))).toBe(fenced('mixture bag\n  1 L water', { info: 'alone' }));
    for (const source of [
      fenced(block, { info: 'skip' }),
      fenced(block, { open: true }),
      `\`\`\`text\n${block}\n\`\`\`\n${fenced('stock a')}`,
    ]) {
      expect(formatted(source)).toBe(source);
    }
  });

  it('of a span is that of the blocks that it touches', () => {
    const block = fenced('mixture bag\n1 L water');
    const source = `${block}\n${block}`;
    const note = createNoteService().work('file:///a.md', source);
    const starts = (start: number, end: number) => note.formatting({ start, end }).map(({ span }) => span.start);
    const first = source.indexOf('1 L');
    const second = source.lastIndexOf('1 L');
    expect(starts(0, source.length)).toEqual([first, second]);
    expect(starts(first, first)).toEqual([first]);
    expect(starts(second + 2, source.length + 100)).toEqual([second]);
    expect(starts(-5, -1)).toEqual([]);
  });

  it('of any block anywhere is that of its text, or none', () => {
    fc.assert(
      fc.property(anyText, fc.constantFrom(...wrappings), (text, { wrap }) => {
        const source = wrap(text);
        const before = readNote(source).blocks;
        const after = readNote(formatted(source)).blocks;
        expect(after.length).toBe(before.length);
        for (const [index, block] of after.entries()) {
          const { text: written, mode, closed } = before[index]!;
          expect(block.text).toBe(closed && mode !== 'skip' ? formatBlock(written) : written);
        }
      }),
      runs(300),
    );
  });

  it('of any note leaves what it says, and is done at once', () => {
    fc.assert(
      fc.property(notes, (source) => {
        const once = formatted(source);
        expect(formatted(once)).toBe(once);
        const outside = (note: string) => {
          const { blocks } = readNote(note);
          return blocks.map(({ span }, index) => note.slice(blocks[index - 1]?.span.end ?? 0, span.start));
        };
        expect(outside(once)).toEqual(outside(source));
      }),
      runs(300),
    );
  });
});
