/** Any text gives findings and never an exception; places lie inside the note. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createNoteService } from '../../src/service/index.ts';
import { fenced, findings } from '../annotated.ts';
import { runs } from '../runs.ts';

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
  'ask "so?" show',
  'what if withdraw',
  'or',
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

const BEDSIDE = [
  'patient adult',
  'weight',
  'age',
  'sex male',
  'serum sodium',
  'urine',
  'loss stomach',
  'onset acute',
  'give',
  'at',
  'over',
  'every',
  'from',
  'after',
  'as drip',
  'drip',
  'to adult',
  'by vein',
  'by',
  'of',
  'through a set of',
  'monitored',
  'accept',
  'volume-added',
  'because "so"',
  'show predicted sodium',
  'what if adult weight',
  'what if weight 40 kg or 0 kg show predicted sodium',
  'what if drip at',
  'show',
  'claim rate',
  'body water',
  'sodium chloride 0.9%',
  'dextrose 5%',
  'water',
  '70 kg',
  '1 L',
  '60 mL/h',
  '2 mL/kg/h',
  '4 h',
  '0 h',
  '3 x',
  '20 mmol',
  '20 drops/mL',
  '140 mmol/L',
  '999999999999 h',
  '54 y',
  '\n',
  '\n',
  '\n  ',
] as const;
const bedside = fc.array(fc.constantFrom(...BEDSIDE), { maxLength: 60 }).map((list) => list.join(' '));

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

describe('a long note of patients and orders', () => {
  /** Milliseconds for so many of a line. */
  function taken(count: number, line: (index: number) => string): number {
    const source = fenced(
      `patient adult\n  weight 70 kg\n  body water 40 L\n  serum sodium 130 mmol/L\n${Array.from({ length: count }, (_, index) => line(index)).join('\n')}`,
    );
    const before = performance.now();
    findings(source);
    return performance.now() - before;
  }

  it.each([
    ['orders', (n: number) => `give 1 mL sodium chloride 0.9% over 1 h by vein as order${n}`],
    [
      'orders one after another',
      (n: number) => `give 1 mL sodium chloride 0.9% over 1 h by vein after order${n + 1} as order${n}`,
    ],
    ['patients', (n: number) => `patient p${n}x\n  weight 70 kg\ngive 1 mL/kg water by mouth to p${n}x`],
    [
      'acceptances',
      (n: number) => `give 1 mL sodium chloride 0.9% over 1 h by vein as order${n}\n  accept haemolysis because "so"`,
    ],
    [
      'questions',
      (n: number) => `give 1 mL sodium chloride 0.9% over 1 h by vein as order${n}\n  claim sodium 0.154 mmol`,
    ],
  ])('takes time in proportion to its %s', (_, line) => {
    taken(200, line);
    const [short, long] = [taken(500, line), taken(2_000, line)];
    // Four times as many; the rest is for a busy machine.
    expect(long).toBeLessThan(4 * 3 * Math.max(short, 50));
  });
});

describe('any note', () => {
  it('of words of the notation in any order', () => {
    fc.assert(
      fc.property(soup, (block) => total(fenced(block))),
      runs(400),
    );
  });

  it('of any characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => total(fenced(text))),
      runs(300),
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
      runs(400),
    );
  });

  it('of patients and orders in any order of their words', () => {
    fc.assert(
      fc.property(bedside, (block) => total(fenced(block))),
      runs(400),
    );
  });

  it('of patients and orders whose numbers are extreme', () => {
    const figure = fc.constantFrom(
      '0',
      '-7',
      '0.0000000001',
      '1',
      '7',
      '60',
      '999999999999',
      '1/999999',
      '500',
      '1 ± 5 %',
    );
    const linesOf = (shapes: readonly (readonly [name: string, ...units: string[]])[]) =>
      fc
        .uniqueArray(fc.constantFrom(...shapes), { maxLength: 6 })
        .chain((chosen) =>
          fc.tuple(...chosen.map(([name, ...units]) => fc.tuple(fc.constant(name), figure, fc.constantFrom(...units)))),
        )
        .map((lines) => lines.map((parts) => `  ${parts.join(' ')}`).join('\n'));
    const patient = linesOf([
      ['weight', 'kg', 'g', 'mL'],
      ['height', 'cm', 'm'],
      ['age', 'y', 'd', 'mo'],
      ['body water', 'L'],
      ['burn', '% of body surface'],
      ['serum sodium', 'mmol/L', 'mEq/L'],
      ['serum glucose', 'mmol/L', 'mg/dL'],
      ['serum bicarbonate', 'mmol/L'],
      ['urine', 'mL/h', 'mL/kg/h', 'L/d'],
      ['loss stomach', 'mL/h sodium 60 mmol/L', 'mL/kg/h potassium 0 mmol/L'],
    ]);
    const part = (words: string, ...units: readonly string[]) =>
      fc.option(
        fc.tuple(figure, fc.constantFrom(...units)).map(([value, of]) => `${words} ${value} ${of}`),
        { nil: '' },
      );
    const order = fc
      .tuple(
        fc.constantFrom('', '', '3 x', '0 x', '600 x', '999999999999 x', '1/3 x'),
        part('', 'mL', 'L', 'mmol', 'mL/kg', 'g', 'units'),
        fc.constantFrom('bag', 'sodium chloride 3%', 'dextrose 50%', 'mannitol 20%', 'water', 'powder'),
        part('at', 'mL/h', 'mL/kg/min', 'mmol/h', 'g/h of dextrose', 'drops/min'),
        part('over', 'h', 's', 'd', 'y'),
        part('every', 'h', 'min', 'd'),
        part('from', 'h', 'y'),
        part('through a set of', 'drops/mL'),
        fc.constantFrom('', 'to adult', 'to nobody'),
        fc.constantFrom('', 'by vein', 'by mouth', 'by nowhere'),
        fc.constantFrom('', '', 'after order0', 'after order1', 'after order2'),
      )
      .map((parts) => parts.filter((text) => text !== '').join(' '));
    const shows =
      '  show volume, rate, duration, bags, drop rate, potassium rate, glucose rate, sodium\n  show predicted sodium, predicted sodium by regression, plasma, free water for the patient\n  claim sodium 3 mmol/kg/d\n  claim predicted sodium 140 mmol/L';
    const results =
      '  show body water, free water deficit, bicarbonate deficit, maintenance rate, serum osmolality, corrected sodium\n  show predicted sodium';
    const whatIfs = [
      'what if adult weight 0 kg, 0.0000000001 kg or 999999999999 kg show body water, order0 predicted sodium',
      'what if order0 at 0.0000000001 mL/h or 999999999999 mL/h show rate, predicted sodium',
      'what if order0 over 0.0000000001 h or 1/3 y show rate, bags',
      'what if bag withdraw 1000 mL, 999.9999999999 mL or 0 mL show sodium, order0 sodium',
    ].join('\n');
    const block = fc
      .tuple(patient, fc.array(order, { minLength: 1, maxLength: 4 }))
      .map(
        ([lines, orders]) =>
          `substance powder\nmixture bag\n  1 L sodium chloride 0.9%\n  20 mmol potassium chloride\n  5 units powder\npatient adult\n${lines}\n${results}\n${orders
            .map((text, index) => `give ${text} as order${index}\n${shows}`)
            .join('\n')}\n${whatIfs}`,
      );
    fc.assert(
      fc.property(block, (text) => total(fenced(text))),
      runs(300),
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
      runs(300),
    );
  });
});
