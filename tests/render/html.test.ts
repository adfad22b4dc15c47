/** Trees as HTML: well formed, headings at the level asked for, decimal points below one another, nothing of a text obeyed. */
import { describe, expect, it } from 'vitest';
import { html } from '../../src/render/index.ts';
import { plain, type Tree } from '../../src/text/tree.ts';
import { HOSTILE_TEXTS } from './hostile-texts.ts';
import { type Element, everyElement, wellFormed } from './well-formed.ts';

const place = { level: 3, id: 'x' };

/** `hr` is the one element that HTML leaves open. */
function drawn(tree: readonly Tree[], level = 3): Element[] {
  const text = html(tree, { ...place, level }).replaceAll('<hr>', '<hr/>');
  return everyElement(wellFormed(`<root>${text}</root>`)).slice(1);
}

/** All kinds of block, each with the text in every place that a text can take. */
function everywhere(text: string): Tree[] {
  return [
    { kind: 'heading', text, aside: text },
    { kind: 'paragraph', inline: [{ text }, { text, weight: 'strong' }, { text, weight: 'quiet' }] },
    { kind: 'list', items: [plain(text)] },
    {
      kind: 'table',
      columns: [
        { title: text, align: 'text' },
        { title: text, align: 'number' },
      ],
      rows: [[text, text]],
    },
    { kind: 'written', text },
    { kind: 'finding', weight: 'error', inline: plain(text) },
    { kind: 'folded', title: text, body: [{ kind: 'paragraph', inline: plain(text) }] },
    {
      kind: 'figure',
      figure: {
        kind: 'bag-and-body',
        name: text,
        sentence: text,
        freeWater: 500,
        bag: 154,
        body: 154,
        isotonic: [250, 375],
      },
    },
    { kind: 'rule' },
  ];
}

describe('HTML', () => {
  it.each(HOSTILE_TEXTS)('shows a text and does nothing else: %j', (text) => {
    const harmless = drawn(everywhere('harmless')).map(({ name }) => name);
    const elements = drawn(everywhere(text));
    // A column without a title has no heading cell.
    const shape = elements.map(({ name }) => (name === 'th' ? 'td' : name));
    expect(shape).toEqual(harmless.map((name) => (name === 'th' ? 'td' : name)));
    for (const { attributes } of elements) {
      expect(Object.keys(attributes).filter((name) => /^on|href|src|style/.test(name))).toEqual([]);
    }
  });

  it('has headings at the level asked for, within what HTML has', () => {
    const heading: Tree = { kind: 'heading', text: 'Bag', aside: '1 L' };
    expect(drawn([heading], 4)[0]!.name).toBe('h4');
    expect(drawn([heading], 9)[0]!.name).toBe('h6');
    expect(drawn([heading], 0)[0]!.name).toBe('h1');
  });

  it('puts the decimal points of a column below one another, a sign as wide as a digit', () => {
    const cells = drawn([
      {
        kind: 'table',
        columns: [
          { title: '', align: 'text' },
          { title: 'per litre', align: 'number' },
        ],
        rows: [
          ['free water', '-119 mL'],
          ['sodium', '152 mmol'],
          ['potassium', '19.8 mmol'],
        ],
      },
    ]).filter(({ attributes }) => attributes.class === 'meniscus-number');
    expect(cells.map(({ text, children }) => [children[0]?.text ?? '', text])).toEqual([
      ['-', '119\u00A0mL'],
      ['', '\u2007152\u00A0mmol'],
      ['', '\u2007\u200719.8\u00A0mmol'],
    ]);
  });

  it('names rows and columns for those who hear the table', () => {
    const elements = drawn([{ kind: 'table', columns: [{ title: 'a', align: 'text' }], rows: [['b']] }]);
    expect(elements.filter(({ name }) => name === 'th').map(({ attributes }) => attributes.scope)).toEqual([
      'col',
      'row',
    ]);
  });

  it('keeps a number and its unit on one line, but for what may be copied back into a note', () => {
    const [paragraph, written] = drawn([
      { kind: 'paragraph', inline: plain('Write 2 g, 0.9 %.') },
      { kind: 'written', text: '1 L water' },
    ]);
    expect(paragraph!.text).toBe('Write 2\u00A0g, 0.9\u00A0%.');
    expect(written!.children[0]!.text).toBe('1 L water');
  });

  it('folds away, and links to whole web addresses only', () => {
    const folded = drawn([{ kind: 'folded', title: 'Working', body: [{ kind: 'paragraph', inline: plain('a') }] }]);
    expect(folded.map(({ name }) => name)).toEqual(['details', 'summary', 'p']);
    const link = (href: string) => drawn([{ kind: 'paragraph', inline: [{ text: 'a', href }] }])[1]?.attributes.href;
    expect(link('https://example.org/a')).toBe('https://example.org/a');
    expect(link('javascript:alert(1)')).toBeUndefined();
  });

  it('gives every figure of a page ids of its own', () => {
    const figures = everywhere('a').filter(({ kind }) => kind === 'figure');
    const ids = drawn([...figures, { kind: 'rule' }, ...figures]).flatMap(({ attributes }) => attributes.id ?? []);
    expect(ids).toHaveLength(4);
    expect(new Set(ids).size).toBe(4);
  });
});
