import { describe, expect, it } from 'vitest';
import { createNoteService } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';

const GASTRIC = `mixture gastric "Gastric replacement"
  1 L sodium chloride 0.9%
  10 mL potassium chloride 2 mmol/mL
  claim potassium 20 mmol/L
  show osmolarity, free water
mixture twice
  2 x gastric
mixture broken
  1 L sodum chloride 0.9%
compare gastric, lactated Ringer's by sodium, tonicity in the body`;

/** The card at the first `word`, pictures left out. */
function card(word: string, block = GASTRIC): string {
  const source = fenced(block);
  const note = createNoteService().work('file:///a.md', source);
  const markdown = note.hover(source.indexOf(word) + 1)?.markdown ?? '';
  return markdown.replace(/!\[([^\]]*)\]\(data:[^)]*\)/g, '![$1](picture)').replaceAll('&#8199;', '');
}

describe('the card of a mixture’s name', () => {
  const text = card('gastric');

  it('says first what is asked most: volume, tonicity, free water, sodium, then potassium', () => {
    const places = [
      'Gastric replacement',
      '1010 mL',
      'isotonic in the body',
      'electrolyte\\-free water',
      'sodium',
      'potassium',
      'chloride',
      'osmolarity',
    ].map((words) => text.toLowerCase().indexOf(words.toLowerCase()));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it('gives the numbers per litre and in the whole bag', () => {
    expect(text).toMatch(/sodium\W+152 mmol\W+154 mmol/);
    expect(text).toMatch(/potassium\W+19\.8 mmol\W+20 mmol/);
    expect(text).toMatch(/electrolyte\\-free water.*119 mL.*120 mL/);
  });

  it('has a picture whose words say what it shows, the working, what was taken, and the caution', () => {
    expect(text).toMatch(/!\[Each litre takes up 119 mL of water beyond its own\..*\]\(picture\)/);
    expect(text).toContain('9 g/L ÷ 58.44 g/mol');
    expect(text).toContain('volumes of liquids add');
    expect(text).toContain('Check against local policy');
  });
});

describe('other cards', () => {
  it('an ingredient’s line says what it brings and what is then in the bag', () => {
    const text = card('10 mL');
    expect(text).toMatch(/potassium\W+20 mmol\W+20 mmol/);
    expect(text).toContain('1000 mL → 1010 mL');
  });

  it('a solute on that line adds its molar mass', () => {
    expect(card('potassium chloride 2')).toMatch(/74\.548 g\/mol/);
  });

  it('a claim says what it works out at', () => {
    expect(card('claim potassium')).toMatch(/claim holds.*20 mmol\/L.*19\.802 mmol\/L/);
  });

  it('a mixture used in another shows its own card', () => {
    expect(card('gastric\nmixture broken')).toContain('Gastric replacement');
  });

  it('a withheld mixture says which line, and why', () => {
    const text = card('broken');
    expect(text).toContain('line 10');
    expect(text).toContain('sodum chloride');
  });

  it('a comparison is a table', () => {
    expect(card('compare')).toMatch(/sodium, mmol\/L.*gastric.*152.*isotonic/s);
  });
});

describe('results at the end of lines', () => {
  it('are sentences', () => {
    const source = fenced(GASTRIC);
    const note = createNoteService().work('file:///a.md', source);
    const shown = note
      .results({ start: 0, end: source.length })
      .map(({ offset, text }) => [source.slice(0, offset).split('\n').at(-1), text]);
    expect(shown).toEqual([
      ['mixture gastric "Gastric replacement"', '= 1010 mL, sodium 152 mmol/L, isotonic'],
      ['  show osmolarity, free water', '= osmolarity 345 mOsm/L, free water -119 mL/L'],
      ['mixture twice', '= 2020 mL, sodium 152 mmol/L, isotonic'],
      ['mixture broken', 'no results until line 10 is mended'],
    ]);
  });
});

describe('text from a note', () => {
  it('reaches no card unescaped', () => {
    const hostile =
      '</td><script>alert(1)</script> ![x](http://example.com/x.png) [go](command:boom) | `code` **bold**';
    const text = card('gastric', GASTRIC.replace('Gastric replacement', hostile));
    expect(text).not.toMatch(/(?<!\\)<script|(?<!\\)\[go\]|(?<!\\)!\\?\[x|(?<!\\)\*\*bold/);
  });
});

describe('the card of a substance of the note’s own', () => {
  it('says what it does to the freezing point, and that osmolarity counts every ion all the same', () => {
    const zinc = `substance zincum\n  molar mass 161.44 g/mol\n  gives zinc 2+ 1, sulfate 1\n  dissociation 40%\nmixture bag\n  1 g zincum\n  water to 1 L`;
    const text = card('zincum', zinc);
    expect(text).toContain('0.2815 g of sodium chloride');
    expect(text).toContain('1.4 particles');
  });
});
