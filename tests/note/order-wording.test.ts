/**
 * Forms that are read and misread. Forms and safe forms: Joint Commission, official 'Do Not Use' list, 2009; ISMP, list of
 * error-prone abbreviations, symbols and dose designations, 2006; SI brochure, 9th edition, 2019.
 */
import { describe, expect, it } from 'vitest';
import { readNote } from '../../src/markdown/index.ts';
import { DEFAULT_POLICY } from '../../src/note/policy.ts';
import { workNote } from '../../src/note/work.ts';
import { fenced, found } from '../annotated.ts';

const CODES = ['trailing-zero', 'number-run-into-unit', 'unsafe-abbreviation', 'naked-decimal', 'ratio-strength'];
const worded = (all: readonly string[]) => all.filter((each) => CODES.some((code) => each.startsWith(code)));
const inStep = (line: string) => worded(found(fenced(`mixture bag\n  1 L water\n  ${line}`)));

describe('a step', () => {
  it.each([
    ['1.0 L sodium chloride 0.90%', ['trailing-zero: 1.0', 'trailing-zero: 0.90']],
    ['3x50mL sodium bicarbonate 8.4%', ['number-run-into-unit: 50mL']],
    ['100ml water', ['number-run-into-unit: 100ml']],
    ['10 ml potassium chloride 2 mmol/ml', ['unsafe-abbreviation: ml', 'unsafe-abbreviation: mmol/ml']],
    ['4 g MgSO4 in 100 mL NaCl 0.9%', ['unsafe-abbreviation: MgSO4', 'unsafe-abbreviation: NaCl']],
    ['20 mmol potassium as KCl 2 mmol/mL', ['unsafe-abbreviation: KCl']],
    ['10 μg sodium chloride', ['unsafe-abbreviation: μg']],
    ['1 L ± 0.50 L water', ['trailing-zero: 0.50']],
    ['withdraw 100.0 mL', ['trailing-zero: 100.0']],
    ['10 L sodium chloride 0.9%', []],
    ['100 mL sodium chloride 0.9 %', []],
    ['5 mL "Vitamin 10mL 1.0" by volume', []],
    ['10 mL mixture-2', []],
  ])('%s', (line, expected) => {
    expect(inStep(line)).toEqual(expected);
  });

  it('that cannot be read has its one finding', () => {
    expect(found(fenced('mixture bag\n  10.0 cc water'))).toEqual(['unknown-unit: cc']);
    expect(found(fenced('mixture bag\n  10.0 U heparin'))).toEqual(['unknown-unit: U']);
    expect(found(fenced('mixture bag\n  1.0 mL adrenaline 1:10,000'))).toEqual(['ratio-strength: 1:10,000']);
  });

  it('run together is told apart as a whole', () => {
    const { faults } = workNote(readNote(fenced('mixture bag\n  1.0l water\n  .50mL water')));
    const safe = faults.flatMap(({ fault }) => (fault.code === 'number-run-into-unit' ? [fault.safe] : []));
    expect(safe).toEqual(['1 L', '0.5 mL']);
  });

  it('names what each hydrate is, as it was taken', () => {
    const safe = (words: string) => {
      const { faults } = workNote(readNote(fenced(`mixture bag\n  1 L water\n  1 g ${words}`)));
      return faults.flatMap(({ fault }) => (fault.code === 'unsafe-abbreviation' ? [fault.safe] : []));
    };
    expect(safe('CaCl2')).toEqual(['calcium chloride']);
    expect(safe('anhydrous CaCl2')).toEqual(['anhydrous calcium chloride']);
    expect(safe('CaCl2·2H2O')).toEqual(['calcium chloride dihydrate']);
    expect(safe('dextrose')).toEqual([]);
  });
});

it('claims, targets, labels and blocks that are left alone may end in a zero', () => {
  const block = `stock ward
  sodium 140.0 mmol/l
  chloride 140.0 mmol/l
mixture bag
  ? mL ward
  water to 1 L
  target sodium 70.0 mmol/l
  claim chloride 70.0 mmol/l`;
  expect(worded(found(fenced(block)))).toEqual([]);
  expect(found(fenced('mixture bag\n  1.0 L KCl', { info: 'skip' }))).toEqual([]);
});

describe('prose', () => {
  const inProse = (prose: string, policy = { ...DEFAULT_POLICY, prose: true }) => {
    const source = `${prose}\n\n${fenced('mixture bag\n  1 L water')}`;
    const { faults } = workNote(readNote(source), undefined, policy);
    return faults.map(({ at, fault }) => `${fault.code}: ${source.slice(at.start, at.end)}`);
  };

  it.each([
    ['Give 1.0 L over 4 h.', ['trailing-zero: 1.0']],
    ['Give .5 mg and 10mEq.', ['naked-decimal: .5', 'number-run-into-unit: 10mEq']],
    [
      'Insulin 10 U, heparin 500 IU/h, 5 cc',
      ['unsafe-abbreviation: U', 'unsafe-abbreviation: IU/h', 'unsafe-abbreviation: cc'],
    ],
    ['> - 20 mmol of KCl\n>   in 1 l', ['unsafe-abbreviation: KCl', 'unsafe-abbreviation: l']],
    ['2 g MSO4', ['ambiguous-name: MSO4']],
    ['40 mg QD; 20 mg q.o.d.', ['unsafe-abbreviation: QD', 'unsafe-abbreviation: q.o.d.']],
    ['1 L @ 100 mL/h if losses >3 mL/kg', ['unsafe-abbreviation: @', 'unsafe-abbreviation: >3']],
    ['10 mL. of it', ['unsafe-abbreviation: mL.']],
    ['adrenaline 1:10 000', ['ratio-strength: 1:10 000']],
  ])('as policy asks: %s', (prose, expected) => {
    expect(inProse(prose)).toEqual(expected);
    expect(inProse(prose, DEFAULT_POLICY)).toEqual([]);
  });

  it.each([
    'Potassium 4.0 mmol/L, HbA1c 7.0%, weight 70.0 kg, temperature 37.0 °C, pH 7.40.',
    'K > 5.5 mmol/L, KCl, MS since 2010, version 1.0, a 1:1000 titre, section 1.10, 5 January.',
    'It takes 10 mL. Then more. Mail a@3.example, U and IU, 4G, T5L, $1.0.',
    'Not `1.0 L`, nor [here](x1.0L "1.0 L"), <b title="1.0 L">, https://x.example/1.0-L or <https://x.example/1.0L>',
    '```\n1.0 L\n```\n\n    1.0 L\n\n<div>\n1.0 L\n</div>\n\n[a]: x "1.0 L"',
    '---\ndose: 1.0 L\n---',
  ])('is let alone where it may say something else: %s', (prose) => {
    expect(inProse(prose)).toEqual([]);
  });

  it('of a note without a block is not looked at', () => {
    const { faults } = workNote(readNote('Give 1.0 L.'), undefined, { ...DEFAULT_POLICY, prose: true });
    expect(faults).toEqual([]);
  });
});
