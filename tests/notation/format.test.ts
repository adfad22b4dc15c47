/** One way to write a block. What is expected is our own design, as docs/formatting.md sets it out. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatBlock, formatLines, LIMITS, normalise, parseBlock } from '../../src/notation/index.ts';
import { runs } from '../runs.ts';
import { anyText, GOOD } from './arbitrary-blocks.ts';
import { print, printFault } from './print.ts';

/** The lines of a block after formatting. */
function formatted(...lines: readonly string[]): string[] {
  return formatBlock(lines.join('\n')).split('\n');
}

/** One line of a mixture after formatting. */
function step(line: string): string {
  return formatted('mixture bag', line)[1]!;
}

describe('indentation', () => {
  test('shows what belongs to what', () => {
    expect(
      formatted(
        'use ./formulary.md',
        '  mixture bag "A bag"',
        'accept volume-added because "as the ward does it"',
        '      1 L water',
        '\taccept volume-added because "the bag takes it"',
        '   claim sodium 0 mmol/L',
        ' give bag at 60 mL/h',
        'claim rate 60 mL/h',
        ' compare bag, water by volume',
        '  show water volume',
      ),
    ).toEqual([
      'use ./formulary.md',
      'mixture bag "A bag"',
      '  accept volume-added because "as the ward does it"',
      '  1 L water',
      '    accept volume-added because "the bag takes it"',
      '  claim sodium 0 mmol/L',
      'give bag at 60 mL/h',
      '  claim rate 60 mL/h',
      'compare bag, water by volume',
      'show water volume',
    ]);
  });

  test('follows a header that could not be read', () => {
    expect(formatted(' mixture 5', '1 L water')).toEqual([' mixture 5', '  1 L water']);
  });

  test('of a remark is that of the line below it, else above it, else none', () => {
    expect(
      formatted(
        '  # of the mixture',
        'mixture bag',
        '# of the step',
        '# and more of it',
        '1 L water',
        'accept volume-added because "so"',
        '# at the end',
        '',
        '   # by itself',
        '',
        'stock ward',
      ),
    ).toEqual([
      '# of the mixture',
      'mixture bag',
      '  # of the step',
      '  # and more of it',
      '  1 L water',
      '    accept volume-added because "so"',
      '  # at the end',
      '',
      '# by itself',
      '',
      'stock ward',
    ]);
  });
});

describe('amounts', () => {
  test('of additions below each other have their decimal points and their units in one column', () => {
    expect(
      formatted(
        'mixture bag',
        '1 L water',
        '2.5 g sodium chloride',
        '3 x 50 mL sodium bicarbonate 8.4%',
        '# a remark does not part them',
        '½ L water',
        'accept volume-added because "nor this"',
        '? mL dextrose 50%',
        '10.25 mL "Multivitamin" by volume',
      ),
    ).toEqual([
      'mixture bag',
      '       1    L water',
      '       2.5  g sodium chloride',
      '  3 x 50    mL sodium bicarbonate 8.4%',
      '  # a remark does not part them',
      '       ½    L water',
      '    accept volume-added because "nor this"',
      '       ?    mL dextrose 50%',
      '      10.25 mL "Multivitamin" by volume',
    ]);
  });

  test.each([
    ['a blank line', ''],
    ['a make-up', '  water to 2 L'],
    ['a withdrawal', '  withdraw 100 mL'],
    ['a whole recipe', '  2 x other'],
    ['a line that cannot be read', '  100 mll water'],
    ['a claim', '  claim volume 1010 mL'],
  ])('are parted by %s', (_, between) => {
    const lines = ['mixture bag', '  1 L water', between, '  10 mL water'];
    expect(formatted(...lines)).toEqual(lines);
  });

  test('of stocks and patients are not aligned, nor is what follows an amount', () => {
    const lines = [
      'stock ward',
      '  sodium 130 mEq/L',
      '  chloride 9.5 mEq/L',
      'mixture bag',
      '   5 g dextrose',
      '  10 mL water',
    ];
    expect(formatted(...lines)).toEqual(lines);
  });
});

describe('numbers and units', () => {
  test.each([
    ['100ml water', '100 mL water'],
    ['1 litre water', '1 L water'],
    ['20 milliequivalents potassium as KCl 2 mEq/ml', '20 mEq potassium as KCl 2 mEq/mL'],
    ['5 µg vasopressin', '5 mcg vasopressin'],
    ['5 μg vasopressin', '5 mcg vasopressin'],
    ['?ml water', '? mL water'],
    ['3×50ml water', '3 x 50 mL water'],
    ['3 * 50 mL water', '3 x 50 mL water'],
    ['3X50 mL water', '3 x 50 mL water'],
    ['1 L±5% water', '1 L ± 5 % water'],
    ['1 L +/- 10ml water', '1 L +/- 10 mL water'],
    ['1 unit oxytocin', '1 unit oxytocin'],
    ['claim oxytocin 10 unit/litre', 'claim oxytocin 10 unit/L'],
    // digits are never touched
    ['1.0 L water', '1.0 L water'],
    ['.5 L water', '.5 L water'],
    ['1½ L water', '1½ L water'],
  ])('%s → %s', (written, expected) => {
    expect(step(written)).toBe(`  ${expected}`);
  });

  test.each([
    // behind its number where it names a fluid, apart from it elsewhere
    ['1 L sodium chloride 0.9 %', '1 L sodium chloride 0.9%'],
    ['0.9 %sodium chloride to 1 L', '0.9% sodium chloride to 1 L'],
    ['1 L dextrose 50%w/w', '1 L dextrose 50 % w/w'],
    ['1 L dextrose 5 % w/v', '1 L dextrose 5 % w/v'],
    ['1 L sodium chloride 0.9 % ± 0.02%', '1 L sodium chloride 0.9% ± 0.02 %'],
    ['claim dextrose 5% within 2%', 'claim dextrose 5 % within 2 %'],
    ['claim sodium chloride 0.9 % sodium 154 mmol/L', 'claim sodium chloride 0.9% sodium 154 mmol/L'],
    ['target dextrose 25%', 'target dextrose 25 %'],
    ['show dextrose 5 % free water', 'show dextrose 5% free water'],
  ])('a percentage: %s → %s', (written, expected) => {
    expect(step(written)).toBe(`  ${expected}`);
  });
});

describe('words', () => {
  test.each([
    ['WITHDRAW 100 mL', 'withdraw 100 mL'],
    ['Discard 100 mL', 'discard 100 mL'],
    ['ADD 1 L water', 'add 1 L water'],
    ['Water  For   Injections UP TO 1 L', 'Water For Injections up to 1 L'],
    ['1 L Sodium Chloride 0.9% IN Water', '1 L Sodium Chloride 0.9% in Water'],
    ['1\u00a0L\tsodium\u00a0chloride 0.9%', '1 L sodium chloride 0.9%'],
    ['1 L lactated Ringer’s', '1 L lactated Ringer’s'],
    ['5 mL  “Multi  vitamin”By Volume', '5 mL “Multi  vitamin” by volume'],
    ['show sodium,potassium , chloride AND volume', 'show sodium, potassium, chloride and volume'],
    ['accept volume-added  BECAUSE "so"', 'accept volume-added because "so"'],
    ['accept volume-added Why  Not', 'accept volume-added Why  Not'],
  ])('%s → %s', (written, expected) => {
    expect(step(written).trim()).toBe(expected);
  });

  test('of headers, orders and labels', () => {
    expect(
      formatted(
        'Mixture Gastric-2 "Gastric   replacement"',
        'GIVE 2x Gastric-2 AT 60ml/hour FOR 16 hours BY Peripheral  Vein TO Adult Monitored AS Drip',
        'Substance Sodium  Thiosulfate',
        'Gives sodium 2,thiosulfate 2- 1',
        'Patient Adult',
        'Loss Stomach 60 ml/h  Sodium 60 mmol/l',
        'burn 35% of body surface',
        'Use ./Notes/Plan,B.md',
      ),
    ).toEqual([
      'mixture Gastric-2 "Gastric   replacement"',
      'give 2 x Gastric-2 at 60 mL/h for 16 h by Peripheral Vein to Adult monitored as Drip',
      'substance Sodium Thiosulfate',
      '  gives sodium 2, thiosulfate 2- 1',
      'patient Adult',
      '  Loss Stomach 60 mL/h Sodium 60 mmol/L',
      '  burn 35 % of body surface',
      'use ./Notes/Plan,B.md',
    ]);
  });
});

describe('remarks and blank lines', () => {
  test('remarks keep their words, and two spaces at least before them', () => {
    expect(step('1 L water # slowly,  1000 ml')).toBe('  1 L water  # slowly,  1000 ml');
    expect(step('1 L water\t# slowly')).toBe('  1 L water  # slowly');
    expect(step('1 L water     # slowly  ')).toBe('  1 L water     # slowly');
    expect(step('#1 L  water')).toBe('  #1 L  water');
  });

  test('of blank lines one is kept, and none at the ends', () => {
    expect(formatted('', ' ', 'stock a', '', '\t', '', 'stock b', '', '')).toEqual(['stock a', '', 'stock b']);
    expect(formatBlock('\n \n')).toBe('');
    expect(formatLines('\na\n\n\nb\n')).toEqual([null, 'a', '', null, 'b', null]);
  });

  test('line ends stay', () => {
    expect(formatBlock('\r\nmixture bag\r\n1 L water\n\r\n\r\n 1 ml water\rwater to 2 l\r\n')).toBe(
      'mixture bag\r\n  1 L water\n\r\n  1 mL water\r  water to 2 L',
    );
  });
});

describe('left as they stand are', () => {
  test.each([
    ['what cannot be read', '    1,000  ML water '],
    ['a unit that is none', '   10  cc water'],
    ['an amount without a fluid', '5  ml'],
    // a space behind the comma would begin a remark
    ['what would be read otherwise', ' show volume,#1'],
  ])('%s', (_, line) => {
    expect(step(line)).toBe(line);
  });

  test('a line that would grow beyond what is read', () => {
    const line = `3x1ml ${'w'.repeat(LIMITS.lineLength - 6)}`;
    expect(step(line)).toBe(line);
  });

  test('a block of more lines than are read', () => {
    const block = ` 1 ml water\n${'\n'.repeat(LIMITS.lines)} 1 ml water`;
    expect(formatBlock(block)).toBe(block);
  });
});

describe('any block', () => {
  test('says the same afterwards, with the same faults', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const after = formatBlock(text);
        const [before, then] = [parseBlock(text), parseBlock(after)];
        expect(print(then)).toEqual(print(before));
        expect(then.faults.map((fault) => printFault(fault, after))).toEqual(
          before.faults.map((fault) => printFault(fault, text)),
        );
      }),
      runs(1000),
    );
  });

  test('stays as it is when it is formatted again', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const once = formatBlock(text);
        expect(formatBlock(once)).toBe(once);
      }),
      runs(1000),
    );
  });

  test('keeps its digits and its remarks', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const kept = (block: string) => ({
          digits: block.replace(/[^0-9½¼¾.]/g, ''),
          remarks: block.split(/\r\n?|\n/).map((line) => /(?:^| )(#.*)/u.exec(normalise(line))?.[1]?.trim()),
        });
        const [before, after] = [kept(text), kept(formatBlock(text))];
        expect(after.digits).toBe(before.digits);
        expect(after.remarks.filter(Boolean)).toEqual(before.remarks.filter(Boolean));
      }),
      runs(300),
    );
  });
});

test('the page on it shows it', () => {
  const page = readFileSync(new URL('../../docs/formatting.md', import.meta.url), 'utf8');
  const [before, after] = [...page.matchAll(/^```\n([\s\S]*?)\n```$/gm)].map(([, block]) => block!);
  expect(formatBlock(before!)).toBe(after);
});

test('the good block comes out readable', () => {
  expect(formatBlock(GOOD)).toMatchInlineSnapshot(`
    "mixture gastric "Gastric replacement"
           1 L sodium chloride 0.9%
      3 x 50 mL potassium chloride 2 mmol/mL   # slowly
          20 mmol potassium as potassium chloride 2 mmol/mL
          93 mg elemental calcium as calcium gluconate
           4 mg norepinephrine in 250 mL dextrose 5% in water
           ? mL water for injections
      2 x brine
      500 mL ± 5 % “Multivitamin” by volume
        5 mL "Multivitamin" by volume
      sodium chloride 0.9% with potassium chloride 20 mmol/L up to 1½ L
      withdraw 100 mL
      exchange ? mL for dextrose 50%
      target sodium 513 mmol/L
      claim sodium chloride 0.9% free water −2.3 L within 2 %
      claim tonicity in the body hypotonic
      show brine strong ion difference, free water
      ask "Will it raise the sodium?" show free water, sodium
      what if withdraw 150 mL or 200 mL show volume, brine sodium
        accept volume-added because "the bag takes it"
    stock plain
      container 500 mL
    substance sodium thiosulfate
      gives sodium 2, thiosulfate 2- 1
    patient adult
      loss stomach 60 mL/h sodium 60 mmol/L
      sex female
    give 2 x gastric at 60 mL/h of sodium chloride for 16 h by peripheral vein to adult after bolus every 6 h monitored as x1
    compare gastric, lactated Ringer’s and sodium chloride 0.9% by sodium, free water
    use ./formulary.md"
  `);
});

test('a long block takes time in proportion', () => {
  const block = `${GOOD}\n${'# remark\n'.repeat(50)}${'\n'.repeat(50)}`.repeat(60);
  expect(formatBlock(block).split('\n').length).toBeGreaterThan(4_000);
});
