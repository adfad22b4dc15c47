/** Any text gives findings and never an exception; places lie inside the note. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createNoteService } from '../../src/service/index.ts';
import { fenced, findings } from '../annotated.ts';

const words = fc.constantFrom(
  'mixture',
  'a',
  'b',
  'm2',
  'gastric',
  'sodium chloride',
  'NaCl',
  'dextrose',
  'water',
  "lactated Ringer's",
  '0.9%',
  '5 %',
  '2 mmol/mL',
  '1 L',
  '10 mL',
  '9 g',
  '20 mmol',
  '15 mEq',
  '0 mL',
  '-5 mL',
  '1e9 g',
  '999999999999 kg',
  '½ L',
  '1/3 L',
  '? mL',
  'to',
  'in',
  'with',
  'as',
  'x',
  '3',
  'potassium',
  'withdraw',
  'exchange',
  'for',
  'claim',
  'show',
  'compare',
  'by',
  'within',
  'sodium',
  'osmolarity',
  'free water',
  'tonicity in the body',
  'isotonic',
  'elemental',
  'calcium',
  'give',
  'patient',
  'stock',
  '±',
  '"title"',
  '#',
  ',',
  '\n',
  '\n',
  '\n  ',
);
const soup = fc.array(words, { maxLength: 60 }).map((list) => list.join(' '));

function total(source: string): void {
  for (const { span, message } of findings(source)) {
    expect(span.start).toBeGreaterThanOrEqual(0);
    expect(span.end).toBeLessThanOrEqual(source.length);
    expect(span.end).toBeGreaterThanOrEqual(span.start);
    expect(message).not.toMatch(/NaN|undefined|Infinity|\[object/);
  }
  const note = createNoteService().work('untitled:1', source);
  for (const { text } of note.results({ start: 0, end: source.length }))
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
  for (let offset = 0; offset <= source.length; offset += 3) {
    expect(note.hover(offset)?.markdown ?? '').not.toMatch(/NaN|undefined|Infinity|\[object/);
  }
}

describe('any note', () => {
  it('of words of the notation in any order', () => {
    fc.assert(
      fc.property(soup, (block) => total(fenced(block))),
      { numRuns: 400 },
    );
  });

  it('of any characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => total(fenced(text))),
      { numRuns: 300 },
    );
  });

  it('of stocks and substances whose numbers are extreme', () => {
    const figure = fc.constantFrom(
      '0',
      '-7',
      '+7',
      '0.0000000001',
      '1',
      '999999999999',
      '1/999999',
      '0.9',
      '5 %',
      '1 ± 5 %',
    );
    const linesOf = (shapes: readonly (readonly [name: string, ...units: string[]])[]) =>
      fc
        .uniqueArray(fc.constantFrom(...shapes), { maxLength: 4 })
        .chain((chosen) =>
          fc.tuple(...chosen.map(([name, ...units]) => fc.tuple(fc.constant(name), figure, fc.constantFrom(...units)))),
        )
        .map((lines) => lines.map((parts) => `  ${parts.join(' ')}`).join('\n'));
    const substance = linesOf([
      ['molar mass', 'g/mol'],
      ['solubility', 'g/L', '%'],
      ['apparent volume', 'mL/g'],
      ['energy', 'kcal/g'],
      ['sodium chloride equivalent', 'g/g'],
    ]);
    const gives = fc.constantFrom(
      '',
      'gives sodium 2, fooate 2- 1',
      'gives sodium 999999999, fooate 1',
      'gives phosphate 1, sodium 2',
    );
    const stock = linesOf([
      ['sodium', 'mmol/L', 'mEq/L'],
      ['phosphate', 'mmol/L'],
      ['fooate', 'mmol/L', 'mEq/L'],
      ['powder', 'g/L', 'units/mL', 'mmol/L'],
      ['dextrose', '%'],
      ['albumin', '%'],
      ['container', 'mL'],
      ['other ions', 'mEq/L'],
      ['osmolality', 'mOsm/kg'],
      ['free water', '%'],
      ['strong ion difference', 'mEq/L'],
    ]);
    const block = fc
      .tuple(substance, gives, stock)
      .map(
        ([properties, ions, label]) =>
          `substance powder\n${properties}\n  ${ions}\nstock ward\n${label}\nmixture bag\n  2 x ward\n  show osmolarity, free water\nmixture cup\n  5 g powder in 1 L water\n  claim powder 5 mmol/L\n  show osmolality`,
      );
    fc.assert(
      fc.property(block, (text) => total(fenced(text))),
      { numRuns: 400 },
    );
  });

  it('of steps whose numbers are extreme', () => {
    const number = fc.constantFrom('0', '0.0000000001', '1', '999999999999', '1/999999', '7', '0.9');
    const step = fc.tuple(
      number,
      fc.constantFrom('g', 'mg', 'mmol', 'mEq', 'mL', 'L', 'ng'),
      fc.constantFrom('sodium chloride', 'dextrose 5%', 'water', 'potassium chloride 2 mmol/mL', 'calcium chloride'),
    );
    const block = fc
      .array(step, { minLength: 1, maxLength: 8 })
      .map(
        (steps) =>
          `mixture bag\n${steps.map((part) => `  ${part.join(' ')}`).join('\n')}\n  show osmolarity, free water`,
      );
    fc.assert(
      fc.property(block, (text) => total(fenced(text))),
      { numRuns: 300 },
    );
  });
});
