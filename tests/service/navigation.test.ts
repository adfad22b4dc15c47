/** Names, where they stand, and other names for them; places are marked `|`, names between « and ». No source: our own design. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applied, createNoteService, type WorkedNote } from '../../src/service/index.ts';
import { annotated, fenced } from '../annotated.ts';
import { wrappings } from '../markdown/wrappings.ts';
import { runs } from '../runs.ts';

const work = (source: string): WorkedNote => createNoteService().work('file:///a.md', source);

/** The note with its marks out, and where the one that is asked about stands. */
function marked(text: string): { source: string; offset: number; names: readonly string[] } {
  const source = text.replace(/[«»|]/g, '');
  const before = text.slice(0, text.indexOf('|'));
  return { source, offset: before.replace(/[«»]/g, '').length, names: annotated(text.replace('|', '')).marked };
}

/** The note with « and » around every place of the name at the mark, the cursor's own left out. */
function places(text: string): string | null {
  const { source, offset } = marked(text);
  return placesAt(source, offset);
}

function placesAt(source: string, offset: number): string | null {
  const found = work(source).navigation.name(offset);
  if (!found) return null;
  return found.places.reduceRight(
    (all, { span: { start, end } }) => `${all.slice(0, start)}«${all.slice(start, end)}»${all.slice(end)}`,
    source,
  );
}

function renamed(source: string, offset: number, name: string): string {
  const renaming = work(source).navigation.rename(offset, name);
  if (!renaming) return 'nothing there';
  if (!renaming.ok) return renaming.why;
  return applied(source, renaming.edits);
}

const ORDER_SET = `\`\`\`infusion
stock «ward» "Ward Ringer's"
  sodium 130 mmol/L
  mystery 20 mmol/L
  chloride 110 mmol/L

substance «test salt»
  molar mass 100 g/mol
  gives sodium 1, mystery 1- 1
\`\`\`

Text about gastric, ward and adult.

\`\`\`infusion
mixture «gastric» "Gastric, for adult"
  1 L sodium chloride 0.9%
  10 mL «test salt» 2 mmol/mL
  claim «test salt» 19.8 mmol/L
  show sodium # gastric

mixture double
  2 x «gastric»
  100 mL potassium chloride 2 mmol/mL in «gastric»
  exchange 100 mL for «ward»
  claim «gastric» sodium 150 mmol/L

patient «adult»
  weight 70 kg
give «gastric» at 60 mL/h for 10 h to «adult» as «first»
give 500 mL «ward» for 4 h after «first» to «adult»
compare «gastric», «ward» by sodium, «test salt»
show «adult» body water, «first» rate
ask "Will gastric do?" show «gastric» sodium
what if «adult» weight 40 kg or 70 kg show body water, «first» rate
what if «gastric» withdraw 10 mL show sodium
\`\`\`

\`\`\`infusion alone
mixture gastric
  1 L water
\`\`\`
`;

describe('a name', () => {
  it.each(['gastric', 'ward', 'test salt', 'adult', 'first'])('is found in all its places: %s', (name) => {
    const expected = ORDER_SET.replace(/«([^»]*)»/g, (whole, found) => (found === name ? whole : found));
    const source = ORDER_SET.replace(/[«»]/g, '');
    const starts = [...expected.matchAll(/«/g)].map(({ index }, earlier) => index - 2 * earlier);
    for (const start of starts) {
      for (const offset of [start, start + name.length]) {
        expect(places(`${source.slice(0, offset)}|${source.slice(offset)}`)).toBe(expected);
      }
    }
  });

  it('of an ion that the note gives is found too', () => {
    const text =
      '```infusion\nsubstance salt\n  gives sodium 1, «my|stery» 1- 1\nmixture a\n  1 L water\n  claim «mystery» 0 mmol/L\n```\n';
    expect(places(text)).toBe(text.replace('|', ''));
  });

  it('is found in lines that cannot be worked out', () => {
    const text = fenced('mixture «a|»\n  1 L sodum\n  2 x «a»\n  1 L «a» in «a»');
    expect(places(text)).toBe(text.replace('|', ''));
  });

  it('that is given twice, or is none of the note’s own, has no places', () => {
    expect(places(fenced('mixture a|\n  1 L water\nmixture a\n  1 L water'))).toBeNull();
    expect(places(fenced('mixture a\n  1 L wa|ter'))).toBeNull();
    expect(places('pro|se')).toBeNull();
  });

  it('says where it is given', () => {
    const { source, offset } = marked(fenced('mixture b\n  1 L a|\nmixture a\n  1 L water'));
    const given = work(source)
      .navigation.name(offset)
      ?.places.filter(({ gives }) => gives);
    expect(given?.map(({ span }) => source.slice(0, span.start).split('\n').length)).toEqual([4]);
  });
});

describe('renaming', () => {
  const source = ORDER_SET.replace(/[«»]/g, '');
  /** Where a name is given, not where the prose happens to have the word. */
  const given = (name: string) => ORDER_SET.slice(0, ORDER_SET.indexOf(`«${name}»`)).replace(/[«»]/g, '').length;
  const summary = (text: string, name: string, other: string) => {
    const note = work(text);
    const plain = (said: string) => said.replaceAll(name, other);
    return {
      found: note.diagnostics().map(({ code, message }) => [code, plain(message)]),
      results: note.results({ start: 0, end: text.length }).map(({ text: result }) => plain(result)),
    };
  };

  it.each([
    ['gastric', 'stomach-loss'],
    ['ward', 'theatre'],
    ['test salt', 'salt under test'],
    ['test salt', 'trial'],
    ['adult', 'erwachsene'],
    ['first', 'Start'],
  ])('%s to %s leaves findings and results as they were', (name, other) => {
    const after = renamed(source, given(name), other);
    expect(after).toBe(ORDER_SET.replaceAll(`«${name}»`, other).replace(/[«»]/g, ''));
    expect(summary(after, other, '…')).toEqual(summary(source, name, '…'));
  });

  it.each([
    ['', 'A name has at least one letter.'],
    ['to', '‘to’ is a word of the notation itself.'],
    [
      'two words',
      '‘two words’ is not read as a name: it is one word that begins with a letter and has letters, digits and hyphens only.',
    ],
    [
      '5x',
      '‘5x’ is not read as a name: it is one word that begins with a letter and has letters, digits and hyphens only.',
    ],
    ['a\nb', 'A name stands on one line.'],
    ['a "b"', '‘a "b"’ is not read as a name.'],
    ['a # b', '‘a # b’ is not read as a name.'],
    ['x'.repeat(65), 'A name has at most 64 characters.'],
    ['sodium', '‘sodium’ already names an ion.'],
    ['NaCl', '‘NaCl’ already names a solute.'],
    ['osmolarity', '‘osmolarity’ already names a result.'],
    ['mL', '‘mL’ already names a unit.'],
    ['D5W', '‘D5W’ already names a fluid.'],
    ['Ward', '‘Ward’ is already given to something else in this note.'],
    ['mystery', '‘mystery’ already names an ion of this note.'],
  ])('refuses %j in words', (name, why) => {
    expect(renamed(source, given('gastric'), name)).toBe(why);
  });

  it('refuses a name that other lines would take up', () => {
    const note = fenced('mixture a\n  1 L water\nmixture b\n  1 L later');
    expect(renamed(note, note.indexOf('a\n'), 'later')).toBe(
      'With the name ‘later’ other lines of this note would mean something else.',
    );
    expect(renamed(note, note.indexOf('1 L'), 'c')).toBe('nothing there');
  });

  it('may change the capitals of a name', () => {
    const small = fenced('mixture a\n  1 L water\nshow A sodium');
    expect(renamed(small, small.indexOf('a\n'), 'A')).toBe(fenced('mixture A\n  1 L water\nshow A sodium'));
  });

  it.each(wrappings)('reaches all places in: $name', ({ wrap }) => {
    const block = 'mixture a "A"\n  1 L water\n\nmixture b\n  2 x a\nshow a volume';
    const before = wrap(block);
    const at = before.indexOf('mixture a') + 'mixture '.length;
    const after = renamed(before, at, 'other');
    expect(after).toBe(
      wrap(block.replace('mixture a', 'mixture other').replace('2 x a', '2 x other').replace('show a', 'show other')),
    );
  });

  const step = fc.constantFrom(
    '1 L water',
    '9 g sodium chloride',
    '2 x a',
    '1 L b',
    '10 mL c in a',
    'claim a sodium 1 mmol/L',
    'show b volume',
    '1 L nothing',
    'withdraw 5 L',
    'bad line',
  );
  const mixture = (name: string) =>
    fc
      .array(step, { maxLength: 5 })
      .map((steps) => [`mixture ${name}`, ...steps.map((line) => `  ${line}`)].join('\n'));

  it('of any mixture leaves findings and results as they were', () => {
    fc.assert(
      fc.property(mixture('a'), mixture('b'), mixture('c'), (a, b, c) => {
        const before = [a, b, c].map((block) => fenced(block)).join('\n');
        for (const name of ['a', 'b', 'c']) {
          const after = renamed(before, before.indexOf(`mixture ${name}`) + 'mixture '.length, 'renamed');
          expect(shapes(after)).toEqual(shapes(before));
        }
      }),
      runs(60),
    );
  });

  function shapes(text: string) {
    const note = work(text);
    return {
      found: note.diagnostics().map(({ code, severity }) => [code, severity]),
      results: note.results({ start: 0, end: text.length }).map(({ text: result }) => result),
    };
  }
});

const LINKED = `# Replacement

Per litre [152 mmol/L](infusion:«gastric»/sodium) and [a link](<infusion:«gastric»/free water>), all in [one][g]; and
[20 mmol/L](infusion:«gastric»/%70otassium), [1 g/L](infusion:«gastric»/‹test-salt›), [again][g], [g].

[g]: infusion:«gastric»

> - <!-- infusion:compare «gastric», dextrose 5% by sodium, ‹test salt› -->
>
>   |  | sodium, mmol/L | test salt, mg/mL |
>   | --- | ---: | ---: |
>   | gastric | 152 | 0.99 |
>   | dextrose 5 % | 0 | 0 |
>
>   <!-- /infusion -->

\`\`\`infusion
substance ‹test salt›
mixture «gastric»
  1 L sodium chloride 0.9%
  1 g ‹test salt›
  10 mL potassium chloride 2 mmol/mL
\`\`\`
`;

describe('a name in prose', () => {
  const source = LINKED.replace(/[«»‹›]/g, '');
  const expected = LINKED.replace(/[‹›]/g, '');
  const from = (text: string) => placesAt(source, source.indexOf(text));

  it('is found in links, in definitions once, and in marks', () => {
    for (const at of ['gastric/sodium', 'gastric/free', 'gastric\n\n>', 'gastric, dextrose', 'gastric\n  1 L']) {
      expect(from(at)).toBe(expected);
    }
  });

  it('is that of the link, wherever it is pointed at', () => {
    for (const at of ['152 mmol/L](', 'one][g]', '[again]']) expect(from(at)).toBe(expected);
    expect(from('Per litre')).toBeNull();
  });

  it('may be the result’s', () => {
    const salts = LINKED.replace(/[«»]/g, '').replaceAll('‹', '«').replaceAll('›', '»');
    expect(from('test-salt')).toBe(salts);
  });

  it('is written with %, and found where it stands', () => {
    const text = LINKED.replace('«gastric»/sodium', '«g%61stric»/sodium').replace(/[‹›]/g, '');
    const plain = text.replace(/[«»]/g, '');
    expect(placesAt(plain, plain.indexOf('stric/sodium'))).toBe(text);
  });
});

describe('renaming in prose', () => {
  const source = LINKED.replace(/[«»‹›]/g, '')
    .replace('20 mmol/L', '19.8 mmol/L')
    .replace('free water>', 'free water>');
  const stale = (text: string) =>
    work(text)
      .diagnostics()
      .map(({ code }) => code);

  it('reaches links, definitions, marks and the rows of a table that was true', () => {
    const at = source.indexOf('mixture gastric') + 'mixture '.length;
    const after = renamed(source, at, 'stomach');
    expect(after).toBe(source.replaceAll('gastric', 'stomach'));
    expect(stale(after)).toEqual(stale(source));
    expect(renamed(source, source.indexOf('gastric/sodium'), 'stomach')).toBe(after);
  });

  it('writes hyphens for spaces in a target', () => {
    const at = source.indexOf('substance test salt') + 'substance '.length;
    const after = renamed(source, at, 'salt under test');
    expect(after).toBe(source.replaceAll('test salt', 'salt under test').replaceAll('test-salt', 'salt-under-test'));
    expect(stale(after)).toEqual(stale(source));
  });

  it('leaves a table alone that was no longer true', () => {
    const old = source.replace('| 152 |', '| 100 |');
    const after = renamed(old, old.indexOf('mixture gastric') + 'mixture '.length, 'stomach');
    expect(after).toContain('| gastric | 100 |');
    expect(after).toContain('compare stomach,');
  });

  it('is refused where a target cannot be put right in its place', () => {
    const escaped = source.replace('gastric/sodium', '\\gastric/sodium').replace('\\g', '&#103;');
    const at = escaped.indexOf('mixture gastric') + 'mixture '.length;
    expect(renamed(escaped, at, 'stomach')).toBe(
      'With the name ‘stomach’ other lines of this note would mean something else.',
    );
  });
});

describe('the outline', () => {
  it('has mixtures with title and volume, patients and orders, in the order of the note', () => {
    const source = ORDER_SET.replace(/[«»]/g, '');
    const symbols = work(source).navigation.symbols();
    expect(symbols.map(({ kind, name, detail }) => [kind, name, detail])).toEqual([
      ['stock', 'ward', "Ward Ringer's"],
      ['substance', 'test salt', ''],
      ['mixture', 'gastric', 'Gastric, for adult, 1010 mL'],
      ['mixture', 'double', '2120 mL'],
      ['patient', 'adult', ''],
      ['order', 'first', 'gastric'],
      ['order', 'give ward', ''],
      ['mixture', 'gastric', '1000 mL'],
    ]);
    for (const { name, span, nameSpan } of symbols) {
      expect(span.start).toBeLessThanOrEqual(nameSpan.start);
      expect(span.end).toBeGreaterThanOrEqual(nameSpan.end);
      expect(source.slice(nameSpan.start, nameSpan.end)).toContain(name.replace('give ', ''));
    }
  });

  it('folds what has several lines', () => {
    const source = fenced('mixture a\n  1 L water\n\n  9 g sodium chloride\n\npatient p\ngive 1 L water');
    expect(work(source).navigation.folds()).toEqual([{ first: 1, last: 4 }]);
  });
});
