/** Colours of a block, line by line, by TextMate's customary scope names; and the lists held to the ones they copy. */
import { describe, expect, test } from 'vitest';
import { fixedObservables } from '../../src/engine/observables.ts';
import { ATOMS } from '../../src/engine/unit-table.ts';
import { RESERVED } from '../../src/notation/index.ts';
import { coloured, rawGrammar, tokenise } from './tokenise.ts';

const lines: readonly (readonly [line: string, coloured: string])[] = [
  [
    'mixture gastric "Gastric replacement"',
    'mixture:keyword.control gastric:entity.name.type "Gastric replacement":string.quoted.double',
  ],
  [
    'MIXTURE half-and-half “Drip”',
    'MIXTURE:keyword.control half-and-half:entity.name.type “Drip”:string.quoted.double',
  ],
  ['stock s2 "open', 'stock:keyword.control s2:entity.name.type "open:string.quoted.double'],
  ['substance sodium thiosulfate', 'substance:keyword.control sodium thiosulfate:entity.name.type'],
  [
    'patient adult # by the bed',
    'patient:keyword.control adult:entity.name.type # by the bed:comment.line.number-sign',
  ],
  ['use ./formulary.md', 'use:keyword.control ./formulary.md:string.unquoted.path'],
  ['  1 L sodium chloride 0.9%', '1:constant.numeric L:keyword.other.unit 0.9:constant.numeric %:keyword.other.unit'],
  [
    '10 mL potassium chloride 2 mmol/mL',
    '10:constant.numeric mL:keyword.other.unit 2:constant.numeric mmol/mL:keyword.other.unit',
  ],
  ['3x50mL water', '3:constant.numeric x:keyword.operator.arithmetic 50:constant.numeric mL:keyword.other.unit'],
  ['2 × gastric', '2:constant.numeric ×:keyword.operator.arithmetic'],
  ['? mL water', '?:variable.language.unknown mL:keyword.other.unit'],
  [
    '? x 50 mL water',
    '?:variable.language.unknown x:keyword.operator.arithmetic 50:constant.numeric mL:keyword.other.unit',
  ],
  ['1½ L D5W', '1½:constant.numeric L:keyword.other.unit'],
  ['1/2 L multiple electrolytes type 1', '1/2:constant.numeric L:keyword.other.unit 1:constant.numeric'],
  ['5 mL 5-fluorouracil', '5:constant.numeric mL:keyword.other.unit'],
  [
    '500 mL ± 5 % water',
    '500:constant.numeric mL:keyword.other.unit ±:keyword.operator.tolerance 5:constant.numeric %:keyword.other.unit',
  ],
  [
    '93 mg elemental calcium as calcium gluconate',
    '93:constant.numeric mg:keyword.other.unit elemental:keyword.operator.word as:keyword.operator.word',
  ],
  ['4 g of solution water', '4:constant.numeric g:keyword.other.unit of solution:keyword.operator.word'],
  [
    '5 mL "Multivitamin" by volume',
    '5:constant.numeric mL:keyword.other.unit "Multivitamin":string.quoted.double by volume:keyword.operator.word',
  ],
  ['water q.s. to 500 mL', 'q.s. to:keyword.operator.word 500:constant.numeric mL:keyword.other.unit'],
  ['withdraw 100 mL', 'withdraw:keyword.control 100:constant.numeric mL:keyword.other.unit'],
  [
    'exchange 100 mL for water',
    'exchange:keyword.control 100:constant.numeric mL:keyword.other.unit for:keyword.operator.word',
  ],
  [
    'gives sodium 2, thiosulfate 2- 1',
    'gives:keyword.control 2:constant.numeric 2:constant.numeric 1:constant.numeric',
  ],
  ['burn 35 % of body surface', '35:constant.numeric % of body surface:keyword.other.unit'],
  [
    'claim brine free water −2.3 L within 2 %',
    'claim:keyword.control free water:support.function.observable −2.3:constant.numeric L:keyword.other.unit within:keyword.operator.word 2:constant.numeric %:keyword.other.unit',
  ],
  [
    'claim tonicity in the body hypotonic',
    'claim:keyword.control tonicity in the body:support.function.observable hypotonic:constant.language.tonicity',
  ],
  [
    'show sodium to chloride ratio, free water # all',
    'show:keyword.control sodium to chloride ratio:support.function.observable free water:support.function.observable # all:comment.line.number-sign',
  ],
  [
    'ask "Will it show, or rise?" show brine sodium, free water',
    'ask:keyword.control "Will it show, or rise?":string.quoted.double show:keyword.control sodium:support.function.observable free water:support.function.observable',
  ],
  [
    'what if adult weight 40 kg or 70 kg show predicted sodium # both',
    'what:keyword.control if:keyword.operator.word 40:constant.numeric kg:keyword.other.unit or:keyword.operator.word 70:constant.numeric kg:keyword.other.unit show:keyword.control predicted sodium:support.function.observable # both:comment.line.number-sign',
  ],
  [
    'compare sodium chloride 0.9% and brine by sodium and osmolarity',
    'compare:keyword.control 0.9:constant.numeric %:keyword.other.unit and:keyword.operator.word by:keyword.operator.word sodium:support.function.observable and:keyword.operator.word osmolarity:support.function.observable',
  ],
  [
    'accept volume-added because "it fits"',
    'accept:keyword.control volume-added:constant.other.code because:keyword.operator.word "it fits":string.quoted.double',
  ],
  [
    'give gastric at 60 mL/h for 16 h to adult as replacement',
    'give:keyword.control at:keyword.operator.word 60:constant.numeric mL/h:keyword.other.unit for:keyword.operator.word 16:constant.numeric h:keyword.other.unit to:keyword.operator.word adult:variable.other as:keyword.operator.word replacement:entity.name.type',
  ],
  ['water#2 # no. 2', '# no. 2:comment.line.number-sign'],
];

describe('a line', () => {
  test.each(lines)('%s', async (line, expected) => {
    expect(coloured(await tokenise(line, 'source.infusion')).join(' ')).toBe(expected);
  });

  test('leaves nothing open for the next', async () => {
    const alone = await Promise.all(lines.map(async ([line]) => coloured(await tokenise(line, 'source.infusion'))));
    const together = await tokenise(lines.map(([line]) => line).join('\n'), 'source.infusion');
    expect(coloured(together)).toEqual(alone.flat());
  });
});

describe('lists', () => {
  test('its words are the reserved ones', () => {
    const listed = [...JSON.stringify(rawGrammar('source.infusion')).matchAll(/\(\?i:\(([a-z|]+)\)\)/g)];
    const words = new Set(listed.flatMap(([, alternatives]) => alternatives!.split('|')));
    expect([...words].sort()).toEqual([...RESERVED].sort());
  });

  test('every unit and its other spellings', async () => {
    for (const { symbol, aliases } of ATOMS) {
      for (const unit of [symbol, ...aliases, `mmol/${symbol}`, `mg/kg/${symbol}`]) {
        const tokens = coloured(await tokenise(`1 ${unit} water`, 'source.infusion'));
        expect(tokens).toEqual(['1:constant.numeric', `${unit}:keyword.other.unit`]);
      }
    }
  });

  test('a word that only begins like a unit is none', async () => {
    for (const word of ['mll', 'Mg', 'gastric', 'mmol/Lx', 'L2']) {
      expect(coloured(await tokenise(`1 ${word} water`, 'source.infusion'))).toEqual(['1:constant.numeric']);
    }
  });

  test('every observable and its other names', async () => {
    for (const { name, aliases } of fixedObservables()) {
      for (const words of [name, ...aliases]) {
        const tokens = coloured(await tokenise(`show ${words}`, 'source.infusion'));
        expect(tokens).toEqual(['show:keyword.control', `${words}:support.function.observable`]);
      }
    }
  });
});
