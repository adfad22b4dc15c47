/** Hostile texts in every place of a note, in every medium that shows it. No source: the corpus is our own. */

import MarkdownIt from 'markdown-it';
import { marked, type Token, type Tokens } from 'marked';
import { describe, expect, it } from 'vitest';
import { FORMATS } from '../../src/cli/arguments/check.ts';
import { NO_NOTES } from '../../src/note/index.ts';
import { pageOf } from '../../src/preview/page.ts';
import { meniscusPreview } from '../../src/preview/plugin.ts';
import { figureSvg, worksheetHtml, worksheetMarkdown } from '../../src/render/index.ts';
import {
  createNoteService,
  figuresOf,
  policyReportOf,
  readPolicyFile,
  reportOf,
  updateOf,
} from '../../src/service/index.ts';
import { written } from '../cli/written.ts';
import { strangers } from './allowed.ts';
import { HOSTILE, hostileNote, hostilePolicy } from './hostile-notes.ts';

/** Characters that a terminal or an editor obeys instead of showing. */
const OBEYED = /[\x00-\x09\x0B-\x1F\x7F-\x9F\u061C\u200E\u200F\u2028-\u202E\u2066-\u2069]/;
const inBody = (html: string) => `<!DOCTYPE html><html><body>${html}</body></html>`;
const CARD = new Set('paragraph text strong em escape list list_item table space hr link image'.split(' '));

/** What a hover makes of a card; anything else than words, and where its links and pictures lead. */
function strangersInCard(markdown: string): readonly string[] {
  const wrong: string[] = [];
  marked.walkTokens(marked.lexer(markdown, { gfm: true }), (token: Token) => {
    if (!CARD.has(token.type)) wrong.push(`${token.type}: ${token.raw}`);
    const { href } = token as Tokens.Link;
    if (token.type === 'link' && !/^https:\/\//.test(href)) wrong.push(href);
    if (token.type !== 'image') return;
    const picture = /^data:image\/svg\+xml;base64,([\w+/=]+)$/.exec(href)?.[1];
    if (picture === undefined) wrong.push(href);
    else wrong.push(...strangers(Buffer.from(picture, 'base64').toString('utf8'), 'svg'));
  });
  if (OBEYED.test(markdown)) wrong.push('control characters');
  return wrong;
}

describe.each(HOSTILE.map((text) => [JSON.stringify(text).slice(0, 70), text] as const))('%s', (_, text) => {
  const source = hostileNote(text);
  const { policy, diagnostics } = readPolicyFile(hostilePolicy(text));
  const note = createNoteService().work('file:///a.md', source, policy);

  it('is words in a card of the editor', () => {
    const cards = new Set<string>();
    for (let offset = 0; offset <= source.length; offset += 7) cards.add(note.hover(offset)?.markdown ?? '');
    expect(cards.size).toBeGreaterThan(5);
    for (const card of cards) expect(strangersInCard(card)).toEqual([]);
  });

  it('is words in results, findings, fixes and the outline', () => {
    const span = { start: 0, end: source.length };
    const results = note.results(span);
    expect(results.length).toBeGreaterThan(0);
    const said = [
      ...results.flatMap(({ text: words, tooltip }) => [words, tooltip ?? '']),
      ...[...note.diagnostics(), ...diagnostics].flatMap(({ message, related }) => [
        message,
        ...related.map((other) => other.message),
      ]),
      ...note.fixes(span).map(({ title }) => title),
    ];
    for (const words of said) expect(words).not.toMatch(OBEYED);
  });

  it('is words in the preview, and on a page', () => {
    const under = { policy, used: NO_NOTES };
    const preview = new MarkdownIt().use(meniscusPreview, { workedUnder: () => under }).render(source);
    const page = pageOf(source, { ...under, title: null, untitled: text });
    const titled = pageOf('', { ...under, title: text, untitled: 'note' });
    for (const html of [page, titled]) expect(strangers(html, 'html')).toEqual([]);
    // What stands round the blocks is the preview's own.
    const before = strangers(inBody(new MarkdownIt().render(source)), 'html');
    expect(strangers(inBody(preview), 'html').filter((stranger) => !before.includes(stranger))).toEqual([]);
    expect(page).toContain('meniscus-card');
  });

  it('is words in a figure', () => {
    const figures = figuresOf(source, policy, NO_NOTES);
    expect(figures.length).toBeGreaterThan(0);
    for (const { name, figure } of figures) {
      expect(strangers(figureSvg(figure), 'svg')).toEqual([]);
      expect(name).toMatch(/^[\p{L}\p{N}-]{1,120}$/u);
    }
  });

  it('is words on a worksheet', () => {
    const made = note.worksheet({ name: 'bag' }, { path: text, policy: text, bags: null, to: null });
    // A line that is too long is not read, and its mixture has no results.
    expect(made.ok).toBe(text.length < 1000);
    if (!made.ok) return;
    expect(strangers(worksheetHtml(made.sheet), 'html')).toEqual([]);
    const markdown = worksheetMarkdown(made.sheet);
    const kinds = new Set<string>();
    marked.walkTokens(marked.lexer(markdown, { gfm: true }), ({ type }) => void kinds.add(type));
    expect([...kinds].filter((kind) => kind !== 'heading' && (!CARD.has(kind) || kind === 'link'))).toEqual([]);
    expect(markdown).not.toMatch(OBEYED);
  });

  it('is words in a terminal, and in every report', () => {
    const path = `${text}.md`;
    for (const report of [reportOf(source, policy), policyReportOf(hostilePolicy(text), diagnostics)]) {
      for (const format of FORMATS) expect(written(format, path, report), format).not.toMatch(OBEYED);
      expect(JSON.parse(written('json', path, report)).files[0].path).toBe(path);
    }
  });

  it('is words in a table that is written into the note', () => {
    const before = new Set<string>();
    const after = new Set<string>();
    const kindsIn = (markdown: string, kinds: Set<string>) =>
      marked.walkTokens(marked.lexer(markdown, { gfm: true }), ({ type }) => void kinds.add(type));
    kindsIn(source, before);
    kindsIn(updateOf(source, policy, NO_NOTES).text, after);
    expect([...after].filter((kind) => !before.has(kind) && kind !== 'table')).toEqual([]);
  });
});
