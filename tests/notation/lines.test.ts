/** Lines, comments, titles and the characters that mean the same. */
import { describe, expect, test } from 'vitest';
import { normalise, parseBlock } from '../../src/notation/index.ts';
import { keyOf } from '../../src/notation/normalise.ts';
import { print, printFault } from './print.ts';

const LINES = [
  'mixture gastric',
  '',
  '  1 L sodium chloride 0.9%  # the bag',
  '\t10 mll water',
  '# done',
  'show sodium',
];

describe.each([['\n'], ['\r\n'], ['\r']])('lines that end in %j', (end) => {
  const text = LINES.join(end);
  const block = parseBlock(text);

  test('are told apart', () => {
    expect(print(block)).toEqual([
      '(mixture gastric)',
      '(add 1L (sodium chloride | 0.9%))',
      '(unread)',
      '(show <sodium>)',
    ]);
    expect(block.statements.map(({ line }) => line)).toEqual([0, 2, 3, 5]);
  });

  test('have statements without indentation and comment', () => {
    expect(block.statements.map(({ span }) => text.slice(span.start, span.end))).toEqual([
      'mixture gastric',
      '1 L sodium chloride 0.9%',
      '10 mll water',
      'show sodium',
    ]);
    expect(block.faults.map(({ span }) => text.slice(span.start, span.end))).toEqual(['mll']);
  });

  test('double with the text', () => {
    const twice = parseBlock(text + end + text);
    expect(print(twice)).toEqual([...print(block), ...print(block)]);
    expect(twice.statements).toHaveLength(2 * block.statements.length);
  });
});

describe('comments', () => {
  test.each([
    ['# 10 mL water', []],
    ['  # 10 mL water', []],
    ['10 mL water # 20 mL', ['(add 10mL (water))']],
    ['10 mL water\u00a0# "open', ['(add 10mL (water))']],
    ['10 mL water#2', ['(add 10mL (water#2))']],
    ['mixture a "No. # 1"', ['(mixture a "No. # 1")']],
    [`# ${'a '.repeat(3_000)}`, []],
  ])('%s', (text, statements) => {
    expect(print(parseBlock(text))).toEqual(statements);
    expect(parseBlock(text).faults).toEqual([]);
  });
});

test('an empty block says nothing', () => {
  for (const text of ['', '\n', ' \t\r\n\u00a0\n', '\ufeff'])
    expect(parseBlock(text)).toEqual({ statements: [], faults: [] });
});

describe('characters that mean the same', () => {
  test('keep their place, and line ends stay', () => {
    const all = Array.from({ length: 0x10000 }, (_, unit) => String.fromCharCode(unit)).join('');
    const normal = normalise(all);
    expect(normal).toHaveLength(all.length);
    expect(normal.slice(0x20, 0x7f)).toBe(all.slice(0x20, 0x7f));
    expect([normal[0x0a], normal[0x0d]]).toEqual(['\n', '\r']);
  });

  test.each([
    ['Ringer’s', "ringer's"],
    ['Ringerʼs', "ringer's"],
    ['  Free‑Water ', 'free water'],
    ['strong\u00a0 ion–difference', 'strong ion difference'],
    ['SOLUCIO\u0301N', 'soluci\u00f3n'],
  ])('%s is looked up as %s', (text, key) => {
    expect(keyOf(text)).toBe(key);
  });

  test('words stay as written but for their spaces', () => {
    const text = '1 L lactated \u00a0 Ringer’s';
    expect(parseBlock(text).statements[0]).toMatchObject({
      fluid: { parts: [{ words: { text: 'lactated Ringer’s', key: "lactated ringer's" } }] },
    });
  });

  test('micro and mu are one', () => {
    expect(print(parseBlock('10 \u00b5g water\n10 \u03bcg water'))).toEqual([
      '(add 10mcg (water))',
      '(add 10mcg (water))',
    ]);
  });

  test('positions beside characters of two units', () => {
    const text = '  1 L 🜄 water 0.9% 5%';
    expect(parseBlock(text).faults.map((fault) => printFault(fault, text))).toEqual(['two-strengths «5%»']);
  });
});

test('a title may hold whatever the line holds', () => {
  expect(print(parseBlock('mixture a "1,000 mL × ½, to by 😀 <b>"'))).toEqual([
    '(mixture a "1,000 mL × ½, to by 😀 <b>")',
  ]);
});
