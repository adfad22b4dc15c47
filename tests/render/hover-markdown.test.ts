/** Cards in the hands of two Markdown renderers: marked, of which the editor's hover is made, and remark. */
import fc from 'fast-check';
import { marked, type Token, type Tokens } from 'marked';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { describe, expect, it } from 'vitest';
import { figureSvg, hoverMarkdown } from '../../src/render/index.ts';
import type { Figure } from '../../src/text/figures.ts';
import { type Column, plain, type Run, type Tree } from '../../src/text/tree.ts';
import { runs } from '../runs.ts';
import { HOSTILE_TEXTS } from './hostile-texts.ts';

/** One text in every place that takes text, figures aside. */
function everywhere(text: string): Tree[] {
  return [
    { kind: 'heading', text, aside: text },
    { kind: 'heading', text },
    { kind: 'paragraph', inline: [{ text, weight: 'strong' }, { text }, { text, weight: 'quiet' }] },
    { kind: 'paragraph', inline: [{ text: 'before ' }, { text, weight: 'strong' }, { text: ' after' }] },
    { kind: 'list', items: [plain(text), plain(text)] },
    {
      kind: 'table',
      columns: [
        { title: text, align: 'text' },
        { title: text, align: 'number' },
      ],
      rows: [
        [text, text],
        [text, '1.5 mL'],
      ],
    },
    { kind: 'rule' },
  ];
}

/** The kinds of token a renderer made of a text, and what a reader would see. */
function seen(markdown: string): { readonly kinds: Set<string>; readonly text: string } {
  const kinds = new Set<string>();
  const texts: string[] = [];
  marked.walkTokens(marked.lexer(markdown, { gfm: true }), (token: Token) => {
    kinds.add(token.type);
    const isLeaf = (token.type === 'text' && !('tokens' in token)) || token.type === 'escape';
    if (isLeaf) texts.push((token as Tokens.Text).text);
  });
  return { kinds, text: entitiesDecoded(texts.join('')) };
}

function entitiesDecoded(html: string): string {
  const named: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"' };
  return html.replace(/&(?:#(\d+)|(\w+));/g, (_, code, name) =>
    code ? String.fromCodePoint(Number(code)) : named[name]!,
  );
}

const visible = (text: string) =>
  text.replace(/[\p{Cc}\u200E\u200F\u202A-\u202E\u2066-\u2069\u2028\u2029]/gu, ' ').replace(/\s+/gu, '');

/** What a reader should see of a tree, white space aside. */
function words(block: Tree): string {
  switch (block.kind) {
    case 'heading':
      return block.text + (block.aside === undefined ? '' : `·${block.aside}`);
    case 'paragraph':
      return block.inline.map(({ text }) => text).join('');
    case 'list':
      return block.items.flatMap((item) => item.map(({ text }) => text)).join('');
    case 'table':
      return [block.columns.map(({ title }) => title), ...block.rows].flat().join('');
    default:
      return '';
  }
}

const OURS = ['paragraph', 'text', 'strong', 'em', 'escape', 'list', 'list_item', 'table', 'space', 'hr'];
const OURS_IN_REMARK = ['root', 'paragraph', 'text', 'strong', 'emphasis', 'list', 'listItem', 'thematicBreak'];

function kindsInRemark(markdown: string): Set<string> {
  const kinds = new Set<string>();
  const visit = (node: { type: string; children?: readonly { type: string }[] }) => {
    kinds.add(node.type);
    node.children?.forEach(visit);
  };
  visit(unified().use(remarkParse).parse(markdown));
  return kinds;
}

function expectInert(text: string): void {
  const markdown = hoverMarkdown(everywhere(text));
  expect([...seen(markdown).kinds].filter((kind) => !OURS.includes(kind))).toEqual([]);
  expect([...kindsInRemark(markdown)].filter((kind) => !OURS_IN_REMARK.includes(kind))).toEqual([]);
  for (const block of everywhere(text)) {
    expect(visible(seen(hoverMarkdown([block])).text)).toBe(visible(words(block)));
  }
}

describe('text from a note', () => {
  it.each(HOSTILE_TEXTS.map((text) => [JSON.stringify(text), text] as const))(
    'is shown and does nothing: %s',
    (_, text) => {
      expectInert(text);
    },
  );

  it('is shown and does nothing, whatever it is', () => {
    const scrap = fc.constantFrom(
      ...'`*_[](){}<>!|~&$:@#+-.=\\/\'" \t\n019ab',
      '://',
      'www.',
      'http',
      '&amp;',
      '\u00a0',
      'é',
    );
    const text = fc.array(fc.oneof(scrap, fc.string({ maxLength: 2 })), { maxLength: 14 }).map((all) => all.join(''));
    fc.assert(fc.property(text, expectInert), runs(600));
  });
});

describe('a card', () => {
  it('has a bold heading with its aside', () => {
    expect(hoverMarkdown([{ kind: 'heading', text: 'Gastric replacement', aside: '1010 mL' }])).toBe(
      '**Gastric replacement** · 1010 mL',
    );
  });

  it('sets decimal points below one another with figure spaces', () => {
    const rows = [
      ['electrolyte-free water', '-119 mL'],
      ['sodium', '152 mmol'],
      ['potassium', '19.8 mmol'],
      ['calcium', '1.36 mmol'],
      ['tonicity', 'isotonic'],
    ];
    const columns: Column[] = [
      { title: '', align: 'text' },
      { title: 'per litre', align: 'number' },
    ];
    const table = marked.lexer(hoverMarkdown([{ kind: 'table', columns, rows }]))[0] as Tokens.Table;
    const cells = table.rows.map((row) => entitiesDecoded(row[1]!.text).replaceAll('\\', ''));
    expect(cells).toEqual([
      '-119 mL',
      '\u2007152 mmol',
      '\u2007\u200719.8 mmol',
      '\u2007\u2007\u20071.36 mmol',
      'isotonic',
    ]);
  });

  it('fills rows that are too short', () => {
    const columns: Column[] = ['a', 'b', 'c'].map((title) => ({ title, align: 'text' }));
    const table = marked.lexer(hoverMarkdown([{ kind: 'table', columns, rows: [['1'], []] }]))[0] as Tokens.Table;
    expect(table.rows.map((row) => row.map(({ text }) => text))).toEqual([
      ['1', '', ''],
      ['', '', ''],
    ]);
  });

  it('leaves out what is empty', () => {
    expect(
      hoverMarkdown([
        { kind: 'paragraph', inline: [] },
        { kind: 'list', items: [] },
      ]),
    ).toBe('');
  });

  it.each([
    [[{ text: 'a ' }, { text: ' b ', weight: 'strong' }, { text: 'c' }], 'a  **b** c'],
    [[{ text: 'a' }, { text: 'b', weight: 'strong' }, { text: 'c', weight: 'quiet' }], 'abc'],
    [[{ text: 'a' }, { text: '(b)', weight: 'strong' }], 'a\\(b\\)'],
    [[{ text: 'a' }, { text: 'b', weight: 'quiet' }], 'a*b*'],
  ] as [Run[], string][])('weighs only words that a renderer would weigh: %j', (inline, markdown) => {
    expect(hoverMarkdown([{ kind: 'paragraph', inline }])).toBe(markdown);
  });

  it.each([
    ['https://example.org/a_b?c=1#d', true],
    ['http://example.org', false],
    ['command:run', false],
    ['javascript:alert(1)', false],
    ['https://example.org/a b', false],
    ['https://example.org/) [x](command:run', false],
  ])('links to whole web addresses alone: %s', (href, isLinked) => {
    const markdown = hoverMarkdown([{ kind: 'paragraph', inline: [{ text: 'Source', href }] }]);
    const links: string[] = [];
    marked.walkTokens(marked.lexer(markdown), (token) => {
      if (token.type === 'link') links.push(token.href);
    });
    expect(links).toEqual(isLinked ? [href] : []);
  });
});

describe('a figure in a card', () => {
  const figure: Figure = {
    kind: 'bag-and-body',
    name: 'Water and tonicity',
    sentence: 'Half of “lactated” [Ringer’s] is water, 154 mOsm/L.',
    freeWater: 500,
    bag: 406.3,
    body: 154,
    isotonic: [250, 375],
  };

  it('is an image with its sentence, the picture inside its address', () => {
    const [paragraph] = marked.lexer(hoverMarkdown([{ kind: 'figure', figure }]));
    const image = (paragraph as Tokens.Paragraph).tokens[0] as Tokens.Image;
    expect(image.type).toBe('image');
    expect(image.text).toBe('Half of “lactated” Ringer’s is water, 154 mOsm/L.');
    const [head, data] = image.href.split(',');
    expect(head).toBe('data:image/svg+xml;base64');
    expect(Buffer.from(data!, 'base64').toString('utf8')).toBe(figureSvg(figure));
  });

  it.each(HOSTILE_TEXTS)('stays one image whatever it shows: %j', (sentence) => {
    const [paragraph, ...rest] = marked.lexer(hoverMarkdown([{ kind: 'figure', figure: { ...figure, sentence } }]));
    expect(rest).toEqual([]);
    expect((paragraph as Tokens.Paragraph).tokens.map(({ type }) => type)).toEqual(['image']);
  });
});
