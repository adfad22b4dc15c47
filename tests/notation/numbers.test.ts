/**
 * Numbers as they are written, and those that are never guessed.
 *
 * A comma, a space or a power of ten in a number is refused with its readings; digits with one point and exact
 * fractions are read. That `.9` and `5.` are flagged follows the published lists of error-prone dose designations
 * (Joint Commission "Do Not Use" list; no leading zero, trailing point).
 */
import { describe, expect, test } from 'vitest';
import type { AdditionNode, QuantityNode } from '../../src/notation/index.ts';
import { parseBlock } from '../../src/notation/index.ts';
import { print, printFault } from './print.ts';

function faultsOf(text: string): string[] {
  return parseBlock(text).faults.map((fault) => printFault(fault, text));
}

describe('read', () => {
  test.each([
    ['10 mL', '10', 0],
    ['10mL', '10', 0],
    ['10.0 mL', '10', 1],
    ['0.05 mL', '0.05', 2],
    ['007 mL', '7', 0],
    ['+5 mL', '5', 0],
    ['1/2 L', '0.5', null],
    ['3/8 L', '0.375', null],
    ['½ L', '0.5', null],
    ['¼L', '0.25', null],
    ['¾ L', '0.75', null],
    ['⅛ L', '0.125', null],
    ['1½ L', '1.5', null],
    ['12¾ L', '12.75', null],
    ['1000000000000 mL', '1000000000000', 0],
  ])('%s', (text, value, decimals) => {
    const block = parseBlock(`${text} water`);
    expect(block.faults).toEqual([]);
    const { number } = (block.statements[0] as AdditionNode).amount as QuantityNode;
    expect(number.value.toFixed()).toBe(value);
    expect(number.decimals).toBe(decimals);
    expect(text.startsWith(number.text)).toBe(true);
  });

  test('a third is a third to forty digits', () => {
    const { statements } = parseBlock('⅓ L water\n2/3 L water');
    const [third, twoThirds] = statements.map((node) => ((node as AdditionNode).amount as QuantityNode).number.value);
    expect(third!.plus(twoThirds!).minus(1).abs().lt('1e-39')).toBe(true);
  });

  test.each([['\u00a0'], ['\u2009'], ['\u202f'], ['\t'], ['  ']])(
    'a space of any kind before the unit: %j',
    (space) => {
      expect(print(parseBlock(`10${space}mL${space}water`))).toEqual(['(add 10mL (water))']);
    },
  );
});

describe('refused, with what it may mean', () => {
  test.each([
    ['1,000 mL water', 'number-form comma «1,000 mL» 1000 mL or 1 mL'],
    ['1,5 L water', 'number-form comma «1,5 L» 1.5 L or 15 L'],
    ['0,9 L water', 'number-form comma «0,9 L» 0.9 L'],
    ['1,000,000 mL water', 'number-form comma «1,000,000 mL» 1000000 mL'],
    ['1,000.5 mL water', 'number-form comma «1,000.5 mL» 1000.5 mL'],
    ['1.000,5 mL water', 'number-form comma «1.000,5 mL» 1000.5 mL'],
    ['1,5 x gastric', 'number-form comma «1,5» 1.5 or 15'],
    ['1 L sodium chloride 0,9%', 'number-form comma «0,9%» 0.9 %'],
    ['claim sodium 1,540 mmol/L', 'number-form comma «1,540 mmol/L» 1540 mmol/L or 1.54 mmol/L'],
    ['gives sodium 1,5', 'number-form comma «1,5» 1.5 or 15'],
    ['1 000 mL water', 'number-form space «1 000 mL» 1000 mL'],
    ['1\u202f000 mL water', 'number-form space «1\u202f000 mL» 1000 mL'],
    ['1 000 000 mL water', 'number-form space «1 000 000 mL» 1000000 mL'],
    ['2 500 mL water', 'number-form space «2 500 mL» 2500 mL or 2 x 500 mL'],
    ['2 50 mL water', 'number-form space «2 50 mL» 250 mL or 2 x 50 mL'],
    ['give 2 500 mL gastric', 'number-form space «2 500 mL» 2500 mL or 2 x 500 mL'],
    ['weight 1 500 g', 'number-form space «1 500 g» 1500 g or 500 g'],
    ['claim sodium 1 540 mmol/L', 'number-form space «1 540 mmol/L» 1540 mmol/L or 540 mmol/L'],
    ['1 ½ L water', 'number-form space «1 ½ L» 1½ L or ½ L'],
    ['1 1/2 L water', 'number-form space «1 1/2 L» 1.5 L or 1/2 L'],
    ['1e3 mL water', 'number-form exponent «1e3 mL» 1000 mL'],
    ['1.5E-1 mL water', 'number-form exponent «1.5E-1 mL» 0.15 mL'],
    ['10^3 mL water', 'number-form exponent «10^3 mL» 1000 mL'],
    ['1e99 mL water', 'number-form exponent «1e99 mL»'],
    ['1.2.3 mL water', 'number-form points «1.2.3 mL» 1.23 mL or 12.3 mL'],
    ['1..5 mL water', 'number-form points «1..5 mL» 1.5 mL'],
    ['1.000.000 mL water', 'number-form points «1.000.000 mL» 1000000 mL'],
    ['0·9 L water', 'number-form points «0·9 L» 0.9 L'],
    ['10O0 mL water', 'number-form glued «10O0 mL» 1000 mL'],
    ['1O mL water', 'number-form glued «1O mL» 10 mL'],
    ['1OmL water', 'number-form glued «1OmL» 10 mL'],
    ['1 L dextrose 1l%', 'number-form glued «1l%» 11 %'],
    ['10a5 mL water', 'number-form glued «10a5»'],
    ['5-10 mL water', 'number-form range «5-10 mL» 5 mL or 10 mL'],
    ['5–10mL water', 'number-form range «5–10mL» 5 mL or 10 mL'],
    ['½½ L water', 'number-form glued «½½ L»'],
    ['1/2/3 L water', 'number-form glued «1/2/3 L»'],
    ['1/0 L water', 'number-form zero-denominator «1/0 L»'],
  ])('%s', (text, fault) => {
    expect(faultsOf(text)).toEqual([fault]);
    expect(parseBlock(text).statements[0]!.kind).toBe('unread');
  });
});

describe('read and flagged', () => {
  test.each([
    ['.9 L water', '(add 0.9L (water))', ['naked-decimal «.9» 0.9']],
    ['5. mL water', '(add 5mL (water))', ['naked-decimal «5.» 5']],
    ['.5 L dextrose .5%', '(add 0.5L (dextrose | 0.5%))', ['naked-decimal «.5» 0.5', 'naked-decimal «.5» 0.5']],
    ['.5 x gastric', '(add 0.5x (gastric))', ['naked-decimal «.5» 0.5']],
    ['claim free water −.5 L', '(claim <free water> -0.5L)', ['naked-decimal «−.5» -0.5']],
    ['claim sodium to chloride ratio .9', '(claim <sodium to chloride ratio> 0.9)', ['naked-decimal «.9» 0.9']],
    ['5 mL ± .5 mL water', '(add 5mL~0.5mL (water))', ['naked-decimal «.5» 0.5']],
  ])('%s', (text, statement, faults) => {
    expect(print(parseBlock(text))).toEqual([statement]);
    expect(faultsOf(text)).toEqual(faults);
  });
});

test('the readings of a number are themselves read without a fault', () => {
  const texts = ['1,000 mL', '1,5 L', '1 000 mL', '2 500 mL', '1 ½ L', '1e3 mL', '1.2.3 mL', '10O0 mL', '5-10 mL'];
  for (const text of texts) {
    const [fault] = parseBlock(`${text} water`).faults;
    if (fault?.code !== 'number-form') throw new Error(`${text} was read`);
    expect(fault.readings.length).toBeGreaterThan(0);
    for (const reading of fault.readings) expect(parseBlock(`${reading} water`).faults).toEqual([]);
  }
});
