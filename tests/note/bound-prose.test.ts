/** Numbers and tables in prose. 154 mmol/L: 9 g of sodium chloride at 58.44 g/mol in a litre (worked out here). */
import { describe, expect, it } from 'vitest';
import { readNote } from '../../src/markdown/index.ts';
import { workNote } from '../../src/note/index.ts';
import { fenced, found } from '../annotated.ts';

const BLOCK = fenced(`mixture half-saline
  500 mL sodium chloride 0.9%
  water to 1 L
mixture broken
  1 L sodum chloride 0.9%
patient adult
  weight 70 kg
  age 50 y
  sex male
give half-saline at 100 mL/h for 24 h by central vein to adult as drip`);

function work(prose: string) {
  return workNote(readNote(`${BLOCK}\n${prose}\n`));
}

function numbers(prose: string) {
  return work(prose).numbers.map(({ target, written, current, stale }) => [target, written, current, stale]);
}

/** Findings in the prose, without those of the block. */
function told(prose: string) {
  return found(`${BLOCK}\n${prose}\n`).filter((text) => text !== 'unknown-name: sodum chloride');
}

describe('a bound number', () => {
  it.each([
    ['[77 mmol/L](infusion:half-saline/sodium)', ['half-saline/sodium', '77 mmol/L', '77 mmol/L', false]],
    ['[77.0 mmol/L](infusion:half%20saline/sodium)', ['half-saline/sodium', '77.0 mmol/L', '77.0 mmol/L', false]],
    ['[76 mmol/L](infusion:HALF-SALINE/sodium)', ['HALF-SALINE/sodium', '76 mmol/L', '77 mmol/L', true]],
    ['[75.0 mEq/L](infusion:half-saline/sodium)', ['half-saline/sodium', '75.0 mEq/L', '77.0 mEq/L', true]],
    [
      '[about **500** mL/L](<infusion:half-saline/free water>)',
      ['half-saline/free-water', '500 mL/L', '500 mL/L', false],
    ],
    [
      '[hypotonic](infusion:half-saline/tonicity-in-the-body)',
      ['half-saline/tonicity-in-the-body', 'hypotonic', 'hypotonic', false],
    ],
    [
      '[Isotonic](infusion:half-saline/tonicity-in-the-bag)',
      ['half-saline/tonicity-in-the-bag', 'Isotonic', 'Hypotonic', true],
    ],
    ['[1](infusion:half-saline/sodium-to-chloride-ratio)', ['half-saline/sodium-to-chloride-ratio', '1', '1', false]],
    ['[39 mmol](infusion:half-saline/sodium)', ['half-saline/sodium', '39 mmol', '77 mmol', true]],
    ['[2 L](infusion:drip/volume)', ['drip/volume', '2 L', '2 L', false]],
    ['[2.4 L](infusion:drip/volume)', ['drip/volume', '2.4 L', '2.4 L', false]],
    ['[3](infusion:drip/bags)', ['drip/bags', '3', '2', true]],
    [
      "[130 mmol/L](infusion:lactated-Ringer's/sodium)",
      ["lactated-Ringer's/sodium", '130 mmol/L', '130 mmol/L', false],
    ],
    ['[77 mmol/L][na]\n\n[na]: infusion:half-saline/sodium', ['half-saline/sodium', '77 mmol/L', '77 mmol/L', false]],
  ])('%s', (prose, expected) => {
    expect(numbers(prose)).toEqual([expected]);
  });

  it('is asked of orders and patients as well', () => {
    expect(numbers('[2.4 L](infusion:drip/volume), [24 h](infusion:drip/duration)')).toEqual([
      ['drip/volume', '2.4 L', '2.4 L', false],
      ['drip/duration', '24 h', '24 h', false],
    ]);
    expect(numbers('[99 L](infusion:adult/body-water)').map(([, , , stale]) => stale)).toEqual([true]);
  });

  it('keeps the minus that is written', () => {
    const source = `${fenced('mixture strong\n  1 L sodium chloride 3%')}\n[−1 mL/L](infusion:strong/free-water)\n`;
    const [number] = workNote(readNote(source)).numbers;
    expect(number?.edit.text).toMatch(/^−\d+$/);
  });

  it('has no tolerance of a claim: what is a label’s rounding there is stale here', () => {
    expect(told('[75 mmol/L](infusion:half-saline/sodium)')).toEqual(['stale-number: 75 mmol/L']);
  });

  it('of what is withheld is neither a number nor a finding', () => {
    const prose = '[77 mmol/L](infusion:broken/sodium) and [it](infusion:broken)';
    expect(told(prose)).toEqual([]);
    expect(numbers(prose)).toEqual([]);
    expect(work(prose).leftAlone.map(({ target }) => target)).toEqual(['broken/sodium']);
  });

  it('does not see the names of a block that stands alone', () => {
    const source = `${fenced('mixture bag\n  1 L sodium chloride 0.9%', { info: 'alone' })}\n[154 mmol/L](infusion:bag/sodium)\n`;
    expect(found(source)).toEqual(['broken-link: bag']);
  });

  it('needs no block to be found broken', () => {
    expect(found('[154 mmol/L](infusion:bag/sodium)\n')).toEqual(['broken-link: bag']);
  });

  it.each([
    ['[77 mmol/L](infusion:)', 'broken-link: infusion:'],
    ['[77 mmol/L](infusion:half-saline/)', 'broken-link: infusion:half-saline/'],
    ['[77](infusion:half-saline/sodium)', 'broken-link: 77'],
    ['[](infusion:half-saline/sodium)', 'broken-link: [](infusion:half-saline/sodium)'],
    ['[77 mmol/L ± 5 %](infusion:half-saline/sodium)', 'broken-link: 77 mmol/L ± 5 %'],
    ['[1,000 mL](infusion:half-saline/volume)', 'number-form: 1,000 mL'],
    ['[5 kg](infusion:half-saline/sodium)', 'broken-link: 5 kg'],
    ['[60 mL/h](infusion:half-saline/rate)', 'broken-link: rate'],
  ])('that is bound to nothing: %s', (prose, expected) => {
    expect(told(prose)).toEqual([expected]);
  });

  it('whose definition is wrong is told once', () => {
    expect(told('[1 L][a] [2 L][a]\n\n[a]: infusion:nothing/volume')).toEqual(['broken-link: nothing']);
  });
});

describe('a kept table', () => {
  const kept = (lines: string) =>
    `<!-- infusion:compare half-saline, sodium chloride 0.9% by sodium, tonicity in the body -->\n${lines}\n<!-- /infusion -->`;

  it('is written with its units at the head, numbers to the right', () => {
    const { tables } = work(kept(''));
    expect(tables.map(({ stale, edit }) => [stale, edit.text])).toEqual([
      [
        true,
        '\n|  | sodium, mmol/L | tonicity in the body |\n| --- | ---: | ---: |\n| half-saline | 77 | hypotonic |\n| sodium chloride 0.9 % | 154 | isotonic |\n\n',
      ],
    ]);
  });

  it('holds however a formatter has padded and aligned it', () => {
    const padded = work(kept(''))
      .tables[0]!.edit.text.trim()
      .replaceAll(' |', '   |')
      .replace('---:', ':-------:')
      .replaceAll('-saline', '\\-saline');
    expect(told(kept(padded))).toEqual([]);
    expect(told(kept(padded.replace('154', '155')))).toHaveLength(1);
  });

  it('with a fluid that is withheld is left alone', () => {
    const prose = '<!-- infusion:compare broken by sodium -->\n<!-- /infusion -->';
    expect(told(prose)).toEqual([]);
    expect(work(prose).leftAlone).toHaveLength(1);
  });

  it('is not written where its marks lie in different lists or one is missing', () => {
    const open = '<!-- infusion:compare half-saline by sodium -->';
    for (const prose of [open, `- ${open}\n\n<!-- /infusion -->`, `${open}\n\n> <!-- /infusion -->`]) {
      expect(work(prose).tables).toEqual([]);
      expect(told(prose).every((text) => text.startsWith('broken-link'))).toBe(true);
      expect(told(prose).length).toBeGreaterThan(0);
    }
  });

  it('names a fluid that is not known', () => {
    expect(told('<!-- infusion:compare half-salin by sodium -->\n\n<!-- /infusion -->')).toEqual([
      'broken-link: half-salin',
    ]);
  });
});
