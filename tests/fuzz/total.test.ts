/** Any note and any policy: no exception, places within the text, no words that a program let slip. */
import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { expect, test } from 'vitest';
import { FORMATS } from '../../src/cli/arguments/check.ts';
import { DEFAULT_POLICY, NO_NOTES } from '../../src/note/index.ts';
import { pageOf } from '../../src/preview/page.ts';
import { meniscusPreview } from '../../src/preview/plugin.ts';
import { figureSvg, worksheetHtml, worksheetMarkdown } from '../../src/render/index.ts';
import { createNoteService, figuresOf, readPolicyFile, reportOf } from '../../src/service/index.ts';
import { written } from '../cli/written.ts';
import { runs } from '../runs.ts';
import { strangers } from '../security/allowed.ts';
import { anyNote, anyText, damaged, damages } from './arbitrary.ts';

const SLIPPED = /NaN|undefined|Infinity|\[object|function \w*\(/;

/** Words of ours in which none of the note's stand that would excuse them. */
function expectWords(words: string, source: string): void {
  if (!SLIPPED.test(source)) expect(words).not.toMatch(SLIPPED);
}

function within(span: { readonly start: number; readonly end: number }, source: string): boolean {
  return 0 <= span.start && span.start <= span.end && span.end <= source.length;
}

test('what the editor asks of any note', () => {
  const service = createNoteService();
  fc.assert(
    fc.property(anyNote, fc.nat(), (source, seed) => {
      const note = service.work('a', source);
      for (const { span, message, related } of note.diagnostics()) {
        expect([span, ...related.map((other) => other.span)].every((each) => within(each, source))).toBe(true);
        expectWords(message, source);
      }
      const whole = { start: 0, end: source.length };
      for (const { offset, text } of note.results(whole)) {
        expect(within({ start: offset, end: offset }, source)).toBe(true);
        expectWords(text, source);
      }
      for (const { edits } of note.fixes(whole)) for (const { span } of edits) expect(within(span, source)).toBe(true);
      note.navigation.symbols();
      for (let offset = seed % 5; offset <= source.length; offset += 5 + (source.length >> 5)) {
        const card = note.hover(offset);
        if (card) expectWords(card.markdown, source);
        for (const { span } of note.complete(offset, null).items) expect(within(span, source)).toBe(true);
        const made = note.worksheet({ offset }, { path: 'a.md', policy: null, bags: null, to: null });
        if (made.ok) expectWords(worksheetHtml(made.sheet) + worksheetMarkdown(made.sheet), source);
      }
    }),
    runs(250),
  );
});

test('the reports of any note', () => {
  fc.assert(
    fc.property(anyNote, (source) => {
      const report = reportOf(source);
      for (const format of FORMATS) expectWords(written(format, 'a.md', report), source);
      expect(JSON.parse(written('json', 'a.md', report)).files).toHaveLength(1);
    }),
    runs(250),
  );
});

test('the preview and the page of any note', () => {
  const preview = new MarkdownIt({ html: true }).use(meniscusPreview);
  fc.assert(
    fc.property(anyNote, (source) => {
      preview.render(source);
      const page = pageOf(source, { policy: DEFAULT_POLICY, used: NO_NOTES, title: null, untitled: 'a' });
      expect(strangers(page, 'html')).toEqual([]);
      for (const { figure } of figuresOf(source, DEFAULT_POLICY, NO_NOTES))
        expect(strangers(figureSvg(figure), 'svg')).toEqual([]);
    }),
    runs(150),
  );
});

test('any policy', () => {
  const GOOD = JSON.stringify({
    region: 'UK',
    terms: { sugar: 'glucose' },
    severities: { 'volume-added': 'warning' },
    limits: { 'peripheral-osmolarity': { limit: '800 mOsm/L', source: 'x' } },
    formulary: ['./a.md'],
    'claim-tolerance': '3 %',
  });
  fc.assert(
    fc.property(
      fc.oneof(
        anyText,
        damages.map((edits) => damaged(GOOD, edits)),
        fc.json(),
      ),
      (source) => {
        const { diagnostics, policy } = readPolicyFile(source);
        for (const { span, message } of diagnostics) {
          expect(within(span, source)).toBe(true);
          expectWords(message, source);
        }
        expect(policy.limits).toBeDefined();
      },
    ),
    runs(600),
  );
});

test('a note with more lines in its blocks than are read is read up to there, which is said once', () => {
  const block = `\`\`\`infusion\n${'# remark\n'.repeat(19_998)}mixture bagINDEX\n  1 L water\n\`\`\`\n`;
  const { mixtures, diagnostics } = reportOf(
    ['a', 'b', 'c', 'd'].map((name) => block.replace('INDEX', name)).join('\n'),
  );
  expect(mixtures.map(({ name }) => name)).toEqual(['baga', 'bagb']);
  expect(diagnostics.map(({ code, range }) => [code, range.start.line])).toEqual([['over-limit', 2 * 20_003]]);
});
