import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { terminalSafe, terminalText } from '../../src/render/index.ts';
import { type Column, plain, type Tree } from '../../src/text/tree.ts';
import { HOSTILE_TEXTS } from './hostile-texts.ts';

const PLAIN = { colour: false, width: 40 };

function lines(tree: readonly Tree[], options = PLAIN): string[] {
  return terminalText(tree, options).split('\n').slice(0, -1);
}

const COLUMNS: Column[] = [
  { title: '', align: 'text' },
  { title: 'per litre', align: 'number' },
  { title: 'whole bag', align: 'number' },
];

describe('a table in a terminal', () => {
  it('has its decimal points below one another', () => {
    const rows = [
      ['electrolyte-free water', '-119 mL', '-120 mL'],
      ['sodium', '152 mmol', '154 mmol'],
      ['potassium', '19.8 mmol', '20 mmol'],
      ['tonicity', 'isotonic', '–'],
    ];
    expect(lines([{ kind: 'table', columns: COLUMNS, rows }])).toEqual([
      '                        per litre    whole bag',
      'electrolyte-free water  -119 mL      -120 mL',
      'sodium                   152 mmol     154 mmol',
      'potassium                 19.8 mmol    20 mmol',
      'tonicity                isotonic     –',
    ]);
  });

  it('keeps every decimal point of a column in one place', () => {
    const number = fc.tuple(fc.integer({ min: -99_999, max: 99_999 }), fc.constantFrom('', '.5', '.25', '.125'));
    const cell = number.map(([whole, part]) => `${whole}${part} mmol`);
    fc.assert(
      fc.property(fc.array(cell, { minLength: 1, maxLength: 6 }), (cells) => {
        const rows = cells.map((each) => ['x', each, each]);
        const points = lines([{ kind: 'table', columns: COLUMNS, rows }])
          .slice(1)
          .map((line) => /\d(?=\.| )/.exec(line)!.index);
        expect(new Set(points).size).toBe(1);
      }),
    );
  });

  it('counts wide characters as two columns and combined ones as one', () => {
    const rows = [
      ['水 💧', '1 mL', ''],
      ['e\u0301', '1 mL', ''],
    ];
    expect(lines([{ kind: 'table', columns: COLUMNS.slice(0, 2), rows }]).slice(1)).toEqual([
      '水 💧  1 mL',
      'e\u0301      1 mL',
    ]);
  });

  it('has no first line when no column has a title', () => {
    const columns: Column[] = [{ title: '', align: 'text' }];
    expect(lines([{ kind: 'table', columns, rows: [['a'], []] }])).toEqual(['a', '']);
  });
});

describe('text in a terminal', () => {
  it('has its heading left and the aside right', () => {
    expect(lines([{ kind: 'heading', text: 'Gastric replacement', aside: '1010 mL' }])).toEqual([
      'Gastric replacement              1010 mL',
    ]);
    expect(lines([{ kind: 'heading', text: 'A heading that takes all of the line', aside: '1010 mL' }])).toEqual([
      'A heading that takes all of the line  1010 mL',
    ]);
    expect(lines([{ kind: 'heading', text: 'Alone' }])).toEqual(['Alone']);
  });

  it('is wrapped between words, and list items hang', () => {
    const inline = plain('Sixteen letters, then more, and then some_very_long_word_that_is_longer_than_a_line.');
    expect(lines([{ kind: 'list', items: [inline] }])).toEqual([
      '- Sixteen letters, then more, and then',
      '  some_very_long_word_that_is_longer_than_a_line.',
    ]);
  });

  it('sets blocks apart by an empty line, figures as their sentence, links with their address', () => {
    const tree: Tree[] = [
      { kind: 'paragraph', inline: [{ text: 'See ' }, { text: 'source', href: 'https://example.org' }, { text: '.' }] },
      { kind: 'rule' },
      {
        kind: 'figure',
        figure: {
          kind: 'bag-and-body',
          name: 'Water and tonicity',
          sentence: 'Isotonic.',
          freeWater: 0,
          bag: 308,
          body: 308,
          isotonic: [250, 375],
        },
      },
    ];
    expect(lines(tree)).toEqual(['See source (https://example.org).', '', '─'.repeat(40), '', 'Isotonic.']);
  });

  it('has weight only where colour is wanted', () => {
    const tree: Tree[] = [
      {
        kind: 'paragraph',
        inline: [{ text: 'a' }, { text: ' b c', weight: 'strong' }, { text: ' d', weight: 'quiet' }],
      },
    ];
    expect(lines(tree)).toEqual(['a b c d']);
    // ECMA-48, SGR: 1 bold, 2 faint, 22 neither.
    expect(lines(tree, { colour: true, width: 40 })).toEqual(['a\x1b[1m b c\x1b[22m\x1b[2m d\x1b[22m']);
  });

  it('wraps the same with and without colour', () => {
    const inline = fc.array(
      fc.record({ text: fc.string({ maxLength: 12 }), weight: fc.constantFrom('strong' as const, 'quiet' as const) }),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(inline, fc.integer({ min: 0, max: 30 }), (runs, width) => {
        const tree: Tree[] = [{ kind: 'paragraph', inline: runs }];
        const coloured = terminalText(tree, { colour: true, width }).replace(/\x1b\[\d+m/g, '');
        expect(coloured).toBe(terminalText(tree, { colour: false, width }));
      }),
    );
  });
});

describe('control characters', () => {
  it('reach no terminal', () => {
    for (const text of HOSTILE_TEXTS) {
      const shown = terminalText(
        [
          { kind: 'heading', text, aside: text },
          { kind: 'paragraph', inline: [{ text, href: text }] },
          { kind: 'list', items: [plain(text)] },
          { kind: 'table', columns: [{ title: text, align: 'number' }], rows: [[text]] },
        ],
        PLAIN,
      );
      expect(shown).not.toMatch(/[\x00-\x09\x0B-\x1F\x7F-\x9F\u200E\u200F\u202A-\u202E\u2066-\u2069]/);
    }
  });

  it('are shown by their pictures, in as many characters as before', () => {
    expect(terminalSafe('\x1b[31m\x00\x7F\x9B\t\r\n')).toBe('␛[31m␀␡\uFFFD   ');
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(terminalSafe(text)).toHaveLength(text.length);
        expect(terminalSafe(terminalSafe(text))).toBe(terminalSafe(text));
      }),
    );
  });
});
