import { describe, expect, it } from 'vitest';
import { nearAmong, nearNames } from '../../src/engine/index.ts';

describe('nearNames', () => {
  it.each([
    ['sodum chloride', 'sodium chloride'],
    ['potasium chloride', 'potassium chloride'],
    ['dextrse', 'dextrose'],
    ['lactated ringrs', "lactated Ringer's"],
    ['hartmans', "Hartmann's"],
    ['calcium cloride dihydrate', 'calcium chloride dihydrate'],
    ['tromethamin', 'tromethamine'],
    ['potassium phospate', 'potassium phosphate'],
    ['phosphat', 'phosphate'],
  ])('%s: %s first', (key, name) => {
    expect(nearNames(key, [])[0]).toBe(name);
  });

  it('puts the author’s own names before equals, and keeps to three', () => {
    expect(nearNames('gastrik', ['gastric', 'gastrin'])).toEqual(['gastric', 'gastrin']);
    expect(nearNames('aab', ['aaa', 'aac', 'aad', 'aae'])).toEqual(['aaa', 'aac', 'aad']);
  });

  it('is silent when nothing is near', () => {
    expect(nearNames('noradrenaline', [])).toEqual([]);
    expect(nearNames('x', ['y'])).toEqual([]);
    expect(nearNames('sodium chloride '.repeat(100), [])).toEqual([]);
  });

  it('compares five hundred names of a note', () => {
    const far = (count: number) => Array.from({ length: count }, (_, index) => `zzzz zzzz ${index}`);
    expect(nearNames('gastrik juice', [...far(499), 'gastric juice'])[0]).toBe('gastric juice');
    expect(nearNames('gastrik juice', [...far(500), 'gastric juice'])).toEqual([]);
  });
});

describe('nearAmong', () => {
  it.each([
    // Less than half of a short name, up to two letters of one below ten, up to three of a longer one.
    ['ab', 'ac', false],
    ['abc', 'abd', true],
    ['abc', 'ade', false],
    ['abcd', 'abcx', true],
    ['abcd', 'abxy', false],
    ['abcde', 'abcxy', true],
    ['abcdef', 'abcxyz', false],
    ['abcdefghi', 'abcdefgxy', true],
    ['abcdefghi', 'abcdefxyz', false],
    ['abcdefghij', 'abcdefgxyz', true],
    ['abcdefghij', 'abcdefwxyz', false],
    // A letter too many or too few is a slip like any other.
    ['abcdefghi', 'abcdefghixy', true],
    ['abcdefghi', 'abcdefg', true],
    ['abcdefghi', 'abcdefghixyz', false],
  ])('%s for %s: %s', (text, name, near) => {
    expect(nearAmong(text, [name])).toEqual(near ? [name] : []);
  });

  it('tells the nearest first, each name once', () => {
    expect(nearAmong('gastrik', ['plastic', 'gastro', 'Gastric', 'gastric'])).toEqual(['Gastric', 'gastro']);
    expect(nearAmong('bag four', ['bag two', 'bag-fou', 'Bag  Fou', 'bag fours'])).toEqual(['bag-fou', 'bag fours']);
  });

  it('counts neither case, hyphens nor apostrophes', () => {
    expect(nearAmong("RINGER'S-LACTAT", ['ringers lactate'])).toEqual(['ringers lactate']);
    expect(nearAmong('ringers', ['Ringer’s'])).toEqual(['Ringer’s']);
  });

  it('knows nothing but those names', () => {
    expect(nearAmong('sodum chloride', ['gastric'])).toEqual([]);
    expect(nearAmong('', [''])).toEqual([]);
  });

  it('compares a text of up to eighty letters', () => {
    expect(nearAmong('a'.repeat(80), ['a'.repeat(81)])).toEqual(['a'.repeat(81)]);
    expect(nearAmong('a'.repeat(81), ['a'.repeat(80)])).toEqual([]);
  });
});
