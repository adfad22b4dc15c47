/** What is rewritten says what it said, and what is read again says the same. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { NoteReader, readNote } from '../../src/markdown/index.ts';
import { parseBlock } from '../../src/notation/index.ts';
import { applied, createNoteService, formattingOf, reportOf, updateOf } from '../../src/service/index.ts';
import { print } from '../notation/print.ts';
import { runs } from '../runs.ts';
import { anyBlock, anyNote, damaged, damages } from './arbitrary.ts';

/** Blocks with what stands in them, wherever they stand. */
const blocksOf = (source: string) => readNote(source).blocks.map(({ text, mode, closed }) => ({ text, mode, closed }));

/** What a note comes to, without where that stands: formatting takes empty lines away. */
function outcome(source: string): object {
  const { mixtures, orders, accepted, shown, diagnostics } = reportOf(source);
  const withoutLines = (sentence: string) => sentence.replace(/\bline \d+/g, 'line');
  return {
    mixtures: mixtures.map(({ name, title, state, results, tonicity, sentence }) => ({
      ...{ name, title, state, results, tonicity },
      sentence: withoutLines(sentence),
    })),
    orders: orders.map(({ name, sentence }) => ({ name, sentence: withoutLines(sentence) })),
    accepted: accepted.map(({ code, reason }) => ({ code, reason })),
    shown: shown.map(({ text }) => text),
    diagnostics: diagnostics.map(({ code, severity }) => ({ code, severity })).filter(({ code }) => !FORM.has(code)),
  };
}

/** Findings on how a thing is written are what formatting may mend. */
const FORM = new Set(['trailing-zero', 'naked-decimal', 'number-run-into-unit', 'number-form', 'unsafe-abbreviation']);

test('a formatted note comes to the same, is otherwise as it was, and stays as it is', () => {
  fc.assert(
    fc.property(anyNote, (source) => {
      const edits = formattingOf(readNote(source));
      const text = applied(source, edits);
      expect(outcome(text)).toEqual(outcome(source));
      expect(formattingOf(readNote(text))).toEqual([]);
      const blocks = readNote(source).blocks;
      for (const { span } of edits)
        expect(blocks.some((block) => block.span.start <= span.start && span.end <= block.span.end)).toBe(true);
    }),
    runs(300),
  );
});

test('a note that was updated stays as it is, and its blocks are as they were', () => {
  fc.assert(
    fc.property(anyNote, (source) => {
      const { text, changes } = updateOf(source);
      expect(text === source).toBe(changes.length === 0);
      expect(blocksOf(text)).toEqual(blocksOf(source));
      expect(updateOf(text).changes).toEqual([]);
      const codes = (of: string) =>
        reportOf(of)
          .diagnostics.map(({ code }) => code)
          .filter((code) => !code.startsWith('stale'));
      expect(codes(text)).toEqual(codes(source));
    }),
    runs(300),
  );
});

test('a note that is edited is read as one that is read for the first time', () => {
  fc.assert(
    fc.property(anyNote, fc.array(damages, { maxLength: 4 }), (source, editings) => {
      const reader = new NoteReader();
      const service = createNoteService();
      let text = source;
      for (const edits of [[], ...editings]) {
        text = damaged(text, edits);
        const read = (of: typeof reader) =>
          of.read(text).blocks.map(({ text: block, span, mode, closed }) => ({ block, span, mode, closed }));
        expect(read(reader)).toEqual(read(new NoteReader()));
        const kept = service.work('a', text);
        const anew = createNoteService().work('a', text);
        expect(kept.diagnostics()).toEqual(anew.diagnostics());
        const whole = { start: 0, end: text.length };
        expect(kept.results(whole)).toEqual(anew.results(whole));
      }
    }),
    runs(120),
  );
});

test('a line of a block is read as it would be alone', () => {
  fc.assert(
    fc.property(anyBlock, (block) => {
      const alone = block.split(/\r\n?|\n/).flatMap((line) => print(parseBlock(line)));
      expect(print(parseBlock(block))).toEqual(alone);
    }),
    runs(600),
  );
});
