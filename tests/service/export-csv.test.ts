/** Exports as a table: read back by an independent reader of RFC 4180, and never a formula. */
import { parse } from 'csv-parse/sync';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactText, results } from '../../src/engine/index.ts';
import { type CsvCell, csvText, inert } from '../../src/render/csv.ts';
import { fenced } from '../annotated.ts';
import { HOSTILE_TEXTS } from '../render/hostile-texts.ts';
import { runs } from '../runs.ts';
import { type ExportedNote, exportedFile, exportedNote, WRONG } from './exported.ts';

const read = (text: string): string[][] => parse(text, { recordDelimiter: '\r\n' });

/** OWASP, CSV Injection: = + - @, tab and carriage return at the beginning; white space before them left aside. */
const FORMULA = /^(?:[\t\r\n\0]|\s*[=+\-@＝＋－＠])/;
const NUMBER = /^-?(?:0|[1-9]\d*)(?:\.\d+)?$/;

function tableOf(
  note: ExportedNote,
  name: string,
): { readonly text: string; readonly rows: readonly Record<string, string>[] } {
  const exported = note.export(name, 'csv');
  if (!exported.ok) throw new Error(exported.reason);
  const [headings = [], ...rows] = read(exported.text);
  expect(headings).toEqual(['record', 'item', 'value', 'unit', 'per', 'least', 'most', 'text']);
  return {
    text: exported.text,
    rows: rows.map((row) => Object.fromEntries(headings.map((heading, index) => [heading, row[index] as string]))),
  };
}

function expectInert({ rows }: ReturnType<typeof tableOf>): void {
  for (const row of rows) {
    for (const heading of ['value', 'least', 'most']) expect(row[heading]).toMatch(/^$|^-?\d/);
    for (const heading of ['record', 'item', 'unit', 'per', 'text']) expect(row[heading]).not.toMatch(FORMULA);
  }
}

describe('the writer', () => {
  it('is read back cell by cell, numbers as they are and text made inert', () => {
    const text = fc.oneof(
      fc.string({ unit: 'grapheme' }),
      fc.string({ unit: fc.constantFrom('=', '+', '-', '@', '\t', '\r', '\n', ' ', '"', ',', "'", 'A', '1', '＝') }),
    );
    const number = fc
      .constantFrom('0', '-118.7', '0.9', '152.479313', '-0.000001')
      .map((digits) => ({ number: digits }));
    const rows = fc.array(fc.array(fc.oneof<fc.Arbitrary<CsvCell>[]>(text, number), { minLength: 2, maxLength: 5 }), {
      minLength: 1,
    });
    fc.assert(
      fc.property(rows, (table) => {
        const back: string[][] = parse(csvText(table), { recordDelimiter: '\r\n', relaxColumnCount: true });
        expect(back).toEqual(
          table.map((row) => row.map((cell) => (typeof cell === 'string' ? inert(cell) : cell.number))),
        );
        for (const [index, row] of table.entries())
          for (const [column, cell] of row.entries())
            if (typeof cell === 'string') expect(back[index]?.[column]).not.toMatch(FORMULA);
      }),
      runs(1000),
    );
  });

  it('leaves ordinary text alone, and guards each line of a cell', () => {
    expect(['Ringer’s 0.9 %', "'quoted'", '5 - 3', 'a=b'].map(inert)).toEqual([
      'Ringer’s 0.9 %',
      "'quoted'",
      '5 - 3',
      'a=b',
    ]);
    expect(inert('=1')).toBe("'=1");
    expect(inert('-118.7')).toBe("'-118.7");
    expect(inert('a\r\n=1\n +2')).toBe("a\r\n'=1\n' +2");
  });
});

describe.each(['demo/ward-orders.md', 'demo/formulary.md', 'demo/bag-shortage.md', 'test-fixtures/orders.md'])(
  'every order and mixture of %s',
  (path) => {
    it('is a table of numbers and inert text, every line ended by CR LF', async () => {
      const note = await exportedFile(path);
      expect(note.names.length).toBeGreaterThan(0);
      for (const name of note.names) {
        const table = tableOf(note, name);
        expect(table.text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
        expect(table.text.endsWith('\r\n')).toBe(true);
        for (const { value, least, most } of table.rows)
          for (const one of [value, least, most]) expect(one).toMatch(/^$|^-?/);
        for (const { value = '', unit } of table.rows.filter((row) => row.value)) {
          expect(value).toMatch(NUMBER);
          expect(unit).not.toBe('');
        }
        expectInert(table);
      }
    });

    it('has the results that the engine gives of its mixtures', async () => {
      const note = await exportedFile(path);
      for (const { name, contents, entity, state } of note.model.mixtures) {
        if (entity.kind !== 'mixture' || state !== 'complete' || !contents || name === WRONG) continue;
        const { rows } = tableOf(note, name);
        const told = rows
          .filter(({ record }) => record === 'result')
          .map(({ item, value, unit }) => [item, value, unit]);
        expect(told).toEqual(
          results(contents, note.model.policy.reference).map(({ observable, value, unit }) => [
            observable.name,
            exactText(value),
            unit,
          ]),
        );
      }
    });
  },
);

describe('a table', () => {
  it('keeps a number below zero a number', () => {
    const note = exportedNote(fenced('mixture strong\n  1 L sodium chloride 3%'));
    const water = tableOf(note, 'strong').rows.find(({ item }) => item === 'free water');
    expect(water?.value).toMatch(/^-\d/);
  });

  it('tells the range that tolerances leave, and that amounts are without them', () => {
    const note = exportedNote(fenced('mixture bag\n  1 L ± 20 mL sodium chloride 0.9%\n  20 mmol potassium chloride'));
    const { rows } = tableOf(note, 'bag');
    const potassium = rows.find(({ record, item }) => record === 'result' && item === 'potassium');
    expect(Number(potassium?.least)).toBeLessThan(Number(potassium?.value));
    expect(Number(potassium?.most)).toBeGreaterThan(Number(potassium?.value));
    expect(rows.at(-1)?.text).toContain('tolerances');
  });

  it('has nothing of a hostile title that works', () => {
    const texts = [...HOSTILE_TEXTS, "=cmd|' /C calc'!A0", '+1', '-2+3', '@SUM(A1)', ' =1', '＝1', 'a, b; c'];
    for (const hostile of texts.map((text) => text.replace(/["\r\n]/g, ' '))) {
      const note = exportedNote(
        fenced(`mixture bag "${hostile}"\n  1 L sodium chloride 0.9%\n  2 mL "${hostile || 'x'}" by volume`),
      );
      if (note.names.length > 0) expectInert(tableOf(note, 'bag'));
    }
  });
});
