/** Blocks for properties: a good one with most of the notation in it, soup of its pieces, and mutants of the good one. */
import fc from 'fast-check';
import { RESERVED } from '../../src/notation/index.ts';

export const GOOD = `mixture gastric "Gastric replacement"
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
use ./formulary.md`;

const PIECES = [
  ...RESERVED,
  ...['1', '0.9', '.9', '5.', '1,000', '1e3', '1.2.3', '1/2', '1/0', '½', '1½', '-2', '−3', '10O0', '5-10', '3x50mL'],
  ...['mL', 'L', 'mmol/L', '%', 'mL/h', 'Mg', 'mll', 'per', '/', '/L', '% of body surface', '% w/v', '9'.repeat(41)],
  ...['water', 'sodium', 'chloride', 'NS', "Ringer's", 'Ringer’s', 'type', 'gastric', 'q.s.', 'up', 'make', 'solution'],
  ...[
    'volume',
    '"Title"',
    '“Title”',
    '"',
    '”',
    ',',
    '#',
    '?',
    '×',
    '*',
    '±',
    '+/-',
    '+',
    '-',
    '.',
    '2-',
    '2+',
    '5-fluorouracil',
  ],
  ...['\u00a0', '\u2009', '\t', '\u200b', '\ufeff', '\ud800', '😀', 'e\u0301', '𝟙', '\0'],
];

const piece = fc.constantFrom(...PIECES);
const separator = fc.constantFrom(' ', ' ', ' ', '  ', '', '\u00a0');
export const lineEnd = fc.constantFrom('\n', '\r\n', '\r');
export const soup = fc
  .array(fc.tuple(piece, fc.oneof({ weight: 9, arbitrary: separator }, { weight: 1, arbitrary: lineEnd })), {
    maxLength: 60,
  })
  .map((parts) => parts.flat().join(''));
const mutated = fc
  .array(fc.tuple(fc.nat(GOOD.length), fc.nat(6), fc.oneof(piece, fc.string({ unit: 'binary', maxLength: 3 }))), {
    minLength: 1,
    maxLength: 8,
  })
  .map((edits) => edits.reduce((text, [at, cut, put]) => text.slice(0, at) + put + text.slice(at + cut), GOOD));
export const anyText = fc.oneof(fc.string({ unit: 'binary', maxLength: 300 }), soup, mutated);
