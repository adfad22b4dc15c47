/** Cards of links in prose, and where a substance on a card is from. No source: our own design. */
import { describe, expect, it } from 'vitest';
import { createNoteService, readClosure } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';

const SOURCE = `See [the bag](infusion:gastric), [it][g] and [twice]( <infusion:broken bag> ), [90 mmol/L](infusion:broken-bag/sodium).
For [him](infusion:adult) give [this](infusion:first); [130 mmol/L](infusion:lactated-Ringer's/sodium),
[a fluid](infusion:lactated-Ringer's), [nothing](infusion:nowhere).

[g]: infusion:gastric

${fenced(`mixture gastric "Gastric replacement"
  1 L sodium chloride 0.9%
mixture broken-bag
  1 L sodum chloride
patient adult
  weight 70 kg
give gastric at 60 mL/h for 10 h by central vein to adult as first`)}`;

describe('a link', () => {
  it('leads to where the note gives what it names, if the note gives it', () => {
    const { navigation } = createNoteService().work('file:///a.md', SOURCE);
    const words = ({ start, end }: { start: number; end: number }) => SOURCE.slice(start, end);
    expect(
      navigation.links().map(({ span, to }) => [words(span), words(to), SOURCE.slice(0, to.start).split('\n').length]),
    ).toEqual([
      ['[the bag](infusion:gastric)', 'gastric', 8],
      ['[it][g]', 'gastric', 8],
      ['[twice]( <infusion:broken bag> )', 'broken-bag', 10],
      ['[90 mmol/L](infusion:broken-bag/sodium)', 'broken-bag', 10],
      ['[him](infusion:adult)', 'adult', 12],
      ['[this](infusion:first)', 'first', 14],
    ]);
  });
});

describe('the card of a link', () => {
  const card = (word: string) => {
    const found = createNoteService().work('file:///a.md', SOURCE).hover(SOURCE.indexOf(word));
    return found && { of: SOURCE.slice(found.span.start, found.span.end), markdown: found.markdown };
  };

  it.each([
    ['the bag', '[the bag](infusion:gastric)', 'Gastric replacement'],
    ['gastric), [it]', '[the bag](infusion:gastric)', 'Gastric replacement'],
    ['it][g]', '[it][g]', 'Gastric replacement'],
    ['him]', '[him](infusion:adult)', 'adult'],
    ['this]', '[this](infusion:first)', 'first'],
    ['a fluid', "[a fluid](infusion:lactated-Ringer's)", 'one litre'],
    ['130 mmol', "[130 mmol/L](infusion:lactated-Ringer's/sodium)", 'Still true'],
  ])('is that of what it names: %s', (word, link, says) => {
    expect(card(word)).toEqual({ of: link, markdown: expect.stringContaining(says) });
  });

  it.each(['twice', '90 mmol'])('says what withholds a mixture: %s', (word) => {
    expect(card(word)?.markdown).toContain('sodum chloride');
  });

  it('is none where nothing is named', () => {
    expect(card('nothing]')).toBeNull();
    expect(card('See')).toBeNull();
  });
});

describe('the card of a substance', () => {
  const formulary = { at: 'file:///b.md', text: fenced('substance tracer\n  molar mass 100 g/mol') };
  const hover = async (source: string, word: string) => {
    const closure = await readClosure({ at: 'file:///a.md', text: source }, null, { read: async () => formulary });
    return createNoteService().work('file:///a.md', source, undefined, closure).hover(source.lastIndexOf(word))
      ?.markdown;
  };

  it('names the note that it is from', async () => {
    const source = fenced('use ./b.md\nmixture bag\n  1 L water\n  1 g tracer');
    expect(await hover(source, 'tracer')).toMatch(/From the note ‘(?:\\?\.)\/b\\?\.md’/);
  });

  it('names none where the note declares it itself, nor for a built-in one', async () => {
    const own =
      'use ./b.md\nsubstance tracer\n  molar mass 50 g/mol\nmixture bag\n  1 L water\n  1 g tracer\n  1 g dextrose';
    for (const word of ['tracer', 'dextrose']) expect(await hover(fenced(own), word)).not.toContain('From the note');
    expect(await hover(fenced(own), 'tracer')).toContain('Molar mass 50 g/mol');
  });
});
