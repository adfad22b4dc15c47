/**
 * Every form of statement, by example: the text on the left reads as the statement on the right.
 *
 * The forms are those of docs/notation.md; how a statement is printed here is told in print.ts.
 */
import { describe, expect, test } from 'vitest';
import { parseBlock, parseFluid } from '../../src/notation/index.ts';
import { print, printFluid } from './print.ts';

type Examples = readonly (readonly [text: string, statement: string])[];

function reads(examples: Examples): void {
  test.each(examples)('%s', (text, statement) => {
    const block = parseBlock(text);
    expect(block.faults).toEqual([]);
    expect(print(block)).toEqual([statement]);
  });
}

describe('headers', () => {
  reads([
    ['mixture gastric', '(mixture gastric)'],
    ['mixture gastric "Gastric replacement"', '(mixture gastric "Gastric replacement")'],
    ['Mixture GASTRIC “Gastric replacement”', '(mixture gastric "Gastric replacement")'],
    ['mixture gastric „Magenersatz“', '(mixture gastric "Magenersatz")'],
    ['mixture gastric "Gastric replacement”', '(mixture gastric "Gastric replacement")'],
    ['mixture gastric "The “drip”"', '(mixture gastric "The “drip”")'],
    ['mixture gastric ""', '(mixture gastric "")'],
    ['mixture half-and-half', '(mixture half and half)'],
    ['mixture solución', '(mixture solución)'],
    ['stock s2 "Ward stock"', '(stock s2 "Ward stock")'],
    ['patient adult', '(patient adult)'],
    ['substance sodium thiosulfate pentahydrate', '(substance sodium thiosulfate pentahydrate)'],
    ['use ./formulary.md', '(use ./formulary.md)'],
    ['use ../a,b#c.md', '(use ../a,b#c.md)'],
    ['use "./our formulary.md"', '(use ./our formulary.md)'],
  ]);
});

describe('additions', () => {
  reads([
    ['  1 L sodium chloride 0.9%', '(add 1L (sodium chloride | 0.9%))'],
    ['10 mL potassium chloride 2 mmol/mL', '(add 10mL (potassium chloride | 2mmol/mL))'],
    ['1 L 0.9 % sodium chloride', '(add 1L (0.9% | sodium chloride))'],
    ['500 mL of dextrose 5%', '(add 500mL (dextrose | 5%))'],
    ['add 500 mL dextrose 5%', '(add 500mL (dextrose | 5%))'],
    ['Add ? mL sodium chloride 23.4%', '(add ?mL (sodium chloride | 23.4%))'],
    ['9 g sodium chloride', '(add 9g (sodium chloride))'],
    ['20 mmol potassium as potassium chloride 2 mmol/mL', '(add 20mmol (potassium as potassium chloride | 2mmol/mL))'],
    ['93 mg elemental calcium as calcium gluconate', '(add 93mg (elemental calcium as calcium gluconate))'],
    ['93 mg of elemental calcium as calcium gluconate', '(add 93mg (elemental calcium as calcium gluconate))'],
    ['4 g of solution potassium chloride 15%', '(add 4g (of-solution potassium chloride | 15%))'],
    ['4 g of solution of potassium chloride 15%', '(add 4g (of-solution potassium chloride | 15%))'],
    ['3 x 50 mL sodium bicarbonate 8.4%', '(add 3x 50mL (sodium bicarbonate | 8.4%))'],
    ['3x50mL sodium bicarbonate 8.4%', '(add 3x 50mL (sodium bicarbonate | 8.4%))'],
    ['3 X50 mL sodium bicarbonate 8.4%', '(add 3x 50mL (sodium bicarbonate | 8.4%))'],
    ['3 × 50 mL sodium bicarbonate 8.4%', '(add 3x 50mL (sodium bicarbonate | 8.4%))'],
    ['3*50 mL sodium bicarbonate 8.4%', '(add 3x 50mL (sodium bicarbonate | 8.4%))'],
    ['? mL sodium chloride 23.4%', '(add ?mL (sodium chloride | 23.4%))'],
    ['?mL sodium chloride 23.4%', '(add ?mL (sodium chloride | 23.4%))'],
    ['? x 50 mL sodium bicarbonate 8.4%', '(add ?x 50mL (sodium bicarbonate | 8.4%))'],
    ['?x50mL sodium bicarbonate 8.4%', '(add ?x 50mL (sodium bicarbonate | 8.4%))'],
    ['3 x ? mL water', '(add 3x ?mL (water))'],
    ['2 x gastric', '(add 2x (gastric))'],
    ['½ x gastric', '(add 0.5x (gastric))'],
    ["2 × lactated Ringer's", "(add 2x (lactated ringer's))"],
    ['2 x 0.9% sodium chloride', '(add 2x (0.9% | sodium chloride))'],
    ['1 L multiple electrolytes type 1', '(add 1L (multiple electrolytes type 1))'],
    ['1 L 0.45 NS', '(add 1L (0.45 ns))'],
    ['1 L 0.45NS', '(add 1L (0.45ns))'],
    ['1 L D5 1/2 NS', '(add 1L (d5 1/2 ns))'],
    ['500 mL water for injections', '(add 500mL (water for injections))'],
    ['5 mL 5-fluorouracil 50 mg/mL', '(add 5mL (5 fluorouracil | 50mg/mL))'],
    ['1 mL 1,2-propanediol', '(add 1mL (1,2 propanediol))'],
    ['1 L Ringer’s', "(add 1L (ringer's))"],
    ['10 mL “Multivitamin” by volume', '(by-volume 10mL "Multivitamin")'],
  ]);
});

describe('solutions in one another', () => {
  reads([
    [
      '1 L potassium chloride 20 mmol/L in dextrose 5% in sodium chloride 0.45%',
      '(add 1L (potassium chloride | 20mmol/L in dextrose | 5% in sodium chloride | 0.45%))',
    ],
    [
      '1 L sodium chloride 0.9% with potassium chloride 20 mmol/L',
      '(add 1L (sodium chloride | 0.9% in potassium chloride | 20mmol/L))',
    ],
    ['1 L dextrose 5% in 0.45% sodium chloride', '(add 1L (dextrose | 5% in 0.45% | sodium chloride))'],
    [
      '1 L dextrose 5% with potassium 20 mmol/L as potassium chloride',
      '(add 1L (dextrose | 5% in potassium as potassium chloride | 20mmol/L))',
    ],
    ['1 L dextrose 5% in 0.45 NS', '(add 1L (dextrose | 5% in 0.45 ns))'],
    ['4 mg norepinephrine in 250 mL dextrose 5%', '(add 4mg (norepinephrine) into 250mL (dextrose | 5%))'],
    [
      '4 mg norepinephrine in 250 mL of dextrose 5% in water',
      '(add 4mg (norepinephrine) into 250mL (dextrose | 5% in water))',
    ],
  ]);
});

describe('making up, taking out, exchanging', () => {
  reads([
    ['sodium chloride 0.9% to 500 mL', '(make-up (sodium chloride | 0.9%) 500mL)'],
    ['0.9% sodium chloride to 500 mL', '(make-up (0.9% | sodium chloride) 500mL)'],
    [
      '20 mmol/L potassium chloride in dextrose 5% to 1 L',
      '(make-up (20mmol/L | potassium chloride in dextrose | 5%) 1L)',
    ],
    ['multiple electrolytes type 1 to 1 L', '(make-up (multiple electrolytes type 1) 1L)'],
    ['water up to 500 mL', '(make-up (water) 500mL)'],
    ['water to make 500 mL', '(make-up (water) 500mL)'],
    ['water q.s. 500 mL', '(make-up (water) 500mL)'],
    ['water q.s. to 500 mL', '(make-up (water) 500mL)'],
    ['water qs to make 500 mL', '(make-up (water) 500mL)'],
    ['water for injections to ½ L', '(make-up (water for injections) 0.5L)'],
    ['withdraw 100 mL', '(withdraw 100mL)'],
    ['discard ½ L', '(withdraw 0.5L)'],
    ['withdraw ? mL', '(withdraw ?mL)'],
    ['exchange 100 mL for dextrose 50%', '(exchange 100mL (dextrose | 50%))'],
    ['exchange ? mL for water for injections', '(exchange ?mL (water for injections))'],
  ]);
});

describe('properties', () => {
  reads([
    ['weight 68 kg', '(property weight=68kg)'],
    ['age 54 years', '(property age=54y)'],
    ['serum sodium 134 mmol/L', '(property serum sodium=134mmol/L)'],
    [
      'loss stomach 60 mL/h sodium 60 mmol/L potassium 10 mmol/L chloride 130 mmol/L',
      '(property loss stomach=60mL/h sodium=60mmol/L potassium=10mmol/L chloride=130mmol/L)',
    ],
    ['burn 35 % of body surface', '(property burn=35% of body surface)'],
    ['molar mass 158.1 g/mol', '(property molar mass=158.1g/mol)'],
    ['other ions 5 mEq/L', '(property other ions=5mEq/L)'],
    ['sodium chloride 0.9%', '(property sodium chloride=0.9%)'],
    ['sex female', '(words sex female)'],
    ['in the body crosses cells', '(words in the body crosses cells)'],
    ['osmotic demyelination risk high', '(words osmotic demyelination risk high)'],
    ['tonicity in the bag isotonic', '(words tonicity in the bag isotonic)'],
    ['gives sodium 1', '(gives sodium*1)'],
    ['gives sodium 2, thiosulfate 2- 1', '(gives sodium*2 thiosulfate[-2]*1)'],
    ['gives magnesium 2+ 1,hydrogen phosphate 2− 1', '(gives magnesium[2]*1 hydrogen phosphate[-2]*1)'],
  ]);
});

describe('claims and targets', () => {
  reads([
    ['claim potassium 20 mmol/L', '(claim <potassium> 20mmol/L)'],
    ['contains potassium 20 mmol/L', '(claim <potassium> 20mmol/L)'],
    ['claim sodium 154 mmol/L within 2 %', '(claim <sodium> 154mmol/L ~2%)'],
    ['claim sodium 154 mmol/L within ± 3 mmol/L', '(claim <sodium> 154mmol/L ~3mmol/L)'],
    ['claim sodium 154 mmol/L ± 2 %', '(claim <sodium> 154mmol/L~2%)'],
    ['claim brine free water -2.3 L', '(claim <brine free water> -2.3L)'],
    ['claim brine free water −2.3 L', '(claim <brine free water> -2.3L)'],
    ['claim sodium chloride 0.9% osmolarity 308 mOsm/L', '(claim <sodium chloride 0.9% osmolarity> 308mOsm/L)'],
    ['claim 0.9 % sodium chloride osmolarity 308 mOsm/L', '(claim <0.9% sodium chloride osmolarity> 308mOsm/L)'],
    ['claim multiple electrolytes type 1 sodium 140 mmol/L', '(claim <multiple electrolytes type 1 sodium> 140mmol/L)'],
    ['claim tonicity in the body hypotonic', '(claim <tonicity in the body> "hypotonic")'],
    [
      'claim sodium chloride 0.9% tonicity in the bag isotonic',
      '(claim <sodium chloride 0.9% tonicity in the bag> "isotonic")',
    ],
    ['claim sodium to chloride ratio 1.2', '(claim <sodium to chloride ratio> 1.2)'],
    ['target sodium 513 mmol/L', '(target <sodium> 513mmol/L)'],
  ]);
});

describe('showing, comparing, accepting', () => {
  reads([
    ['show brine strong ion difference, free water', '(show <brine strong ion difference> <free water>)'],
    ['ask "Will it rise?" show brine sodium, volume', '(show "Will it rise?" <brine sodium> <volume>)'],
    ['ASK “Will it rise?” show sodium', '(show "Will it rise?" <sodium>)'],
    [
      'what if adult weight 40 kg, 70 kg, or 100 kg show drip predicted sodium, volume',
      '(what-if adult weight 40kg or 70kg or 100kg <drip predicted sodium> <volume>)',
    ],
    ['what if withdraw 150 mL show sodium', '(what-if withdraw 150mL <sodium>)'],
    ['what if drip over 4 h or 8 h show rate', '(what-if drip over 4h or 8h <rate>)'],
    ['show tonicity in the body', '(show <tonicity in the body>)'],
    ['show sodium to chloride ratio,volume', '(show <sodium to chloride ratio> <volume>)'],
    ['show free water for the patient and volume', '(show <free water for the patient> <volume>)'],
    ['show dextrose 5% osmolarity', '(show <dextrose 5% osmolarity>)'],
    [
      "compare gastric, lactated Ringer's and sodium chloride 0.9% by sodium, free water",
      "(compare (gastric) (lactated ringer's) (sodium chloride | 0.9%) by sodium, free water)",
    ],
    [
      'compare dextrose 5% in sodium chloride 0.45%, and 0.9% sodium chloride by tonicity in the body and osmolarity',
      '(compare (dextrose | 5% in sodium chloride | 0.45%) (0.9% | sodium chloride) by tonicity in the body, osmolarity)',
    ],
    ['accept volume-added because "the bag takes it"', '(accept volume-added "the bag takes it")'],
  ]);
});

describe('orders', () => {
  reads([
    [
      'give gastric at 60 mL/h for 16 h by peripheral vein to adult as replacement',
      '(give (gastric) at 60mL/h duration:16h route:peripheral vein patient:adult name:replacement)',
    ],
    ['give 500 mL gastric over 30 min', '(give 500mL (gastric) duration:30min)'],
    ['give gastric 500 mL at 60 mL/h', '(give 500mL (gastric) at 60mL/h)'],
    ['give gastric 60 mL/h', '(give (gastric) at 60mL/h)'],
    ['give 10 mL/kg gastric', '(give 10mL/kg (gastric))'],
    ['give 2 x gastric via central vein', '(give 2x (gastric) route:central vein)'],
    ['give sodium chloride 0.9% 500 mL over 1 h', '(give 500mL (sodium chloride | 0.9%) duration:1h)'],
    ['give 0.45 NS at 60 mL/h', '(give (0.45 ns) at 60mL/h)'],
    ['give mag at 1 g/h of magnesium sulfate', '(give (mag) at 1g/h of magnesium sulfate)'],
    ['give water for injections at 50 mL/h for 2 h', '(give (water for injections) at 50mL/h duration:2h)'],
    [
      'give gastric monitored every 6 h from 2 h over 1 h at 60 mL/h',
      '(give (gastric) at 60mL/h monitored every:6h from:2h duration:1h)',
    ],
    ['give gastric at 60 mL/h after bolus', '(give (gastric) at 60mL/h after:bolus)'],
  ]);
});

describe('tolerances', () => {
  reads([
    ['500 mL ± 5 % water', '(add 500mL~5% (water))'],
    ['500mL±10mL water', '(add 500mL~10mL (water))'],
    ['500 mL +/- 10 mL water', '(add 500mL~10mL (water))'],
    ['water to 500 mL ± 5 %', '(make-up (water) 500mL~5%)'],
  ]);
});

describe('a fluid alone', () => {
  test.each([
    ['dextrose 5% in water', '(dextrose | 5% in water)'],
    ['0.9% sodium chloride', '(0.9% | sodium chloride)'],
    ['dextrose 5% in sodium chloride 0.45%', '(dextrose | 5% in sodium chloride | 0.45%)'],
    ["  lactated Ringer's ", "(lactated ringer's)"],
    ['potassium as potassium chloride 2 mmol/mL', '(potassium as potassium chloride | 2mmol/mL)'],
  ])('%s', (text, fluid) => {
    expect(printFluid(parseFluid(text)!)).toBe(fluid);
  });

  test.each([
    [''],
    ['   '],
    ['500 mL water'],
    ['dextrose 5% in'],
    ['dextrose 5% 10%'],
    ['dextrose 5%, water'],
    ['dextrose 5% in water "a"'],
    ['water '.repeat(65)],
    ['w'.repeat(2_001)],
  ])('%j is none', (text) => {
    expect(parseFluid(text)).toBeNull();
  });
});

test('the example of the documentation, whole', () => {
  const block = parseBlock(`mixture alkaline "Bicarbonate drip"
  1 L dextrose 5%
  3 x 50 mL sodium bicarbonate 8.4%      # added without withdrawing: 1150 mL

  claim sodium 130 mmol/L
give alkaline at 60 mL/h`);
  expect(block.faults).toEqual([]);
  expect(print(block)).toEqual([
    '(mixture alkaline "Bicarbonate drip")',
    '(add 1L (dextrose | 5%))',
    '(add 3x 50mL (sodium bicarbonate | 8.4%))',
    '(claim <sodium> 130mmol/L)',
    '(give (alkaline) at 60mL/h)',
  ]);
  expect(block.statements.map(({ line }) => line)).toEqual([0, 1, 2, 4, 5]);
});
