/** What is offered in links and marks, and behind `use`; the place is marked `|`. No source: our own design. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applied, createNoteService } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { wrappings } from '../markdown/wrappings.ts';
import { runs } from '../runs.ts';

const BLOCK = fenced(`mixture gastric "Gastric replacement"
  1 L sodium chloride 0.9%
  10 mL potassium chloride 2 mmol/mL
substance test salt
patient adult
  weight 70 kg
give gastric at 60 mL/h for 10 h to adult as first`);

function complete(source: string, offset: number, typed: string | null, paths: readonly string[] | null = null) {
  return createNoteService().work('file:///a.md', source).complete(offset, typed, paths);
}

/** Prose before the block. */
function completed(marked: string, typed: string | null = null) {
  const source = `${marked.replace('|', '')}\n\n${BLOCK}`;
  const { items } = complete(source, marked.indexOf('|'), typed);
  const labels = items.map(({ label }) => label);
  const taken = (label: string) => {
    const { span, text } = items.find((item) => item.label === label)!;
    return applied(source, [{ span, text }]).slice(0, -BLOCK.length - 2);
  };
  return { labels, taken, items };
}

describe('behind ‘infusion:’', () => {
  it.each([
    '[9](infusion:|)',
    'a [9](<infusion:|>)',
    '- [9]( infusion:|',
    '> [n]: infusion:|',
    '<infusion:|>',
    '[9](infusion:gas|/sodium)',
  ])('names of the note come first, then fluids that are known: %s', (marked) => {
    const { labels } = completed(marked);
    expect(labels.slice(0, 3)).toEqual(['gastric', 'adult', 'first']);
    expect(labels).toContain('lactated Ringer’s'.replace('’', "'"));
    expect(labels).not.toContain('test salt');
  });

  it('the name is replaced up to its slash', () => {
    expect(completed('[9](infusion:gas|tr/sodium)').taken('gastric')).toBe('[9](infusion:gastric/sodium)');
    expect(completed('[9](infusion:|)').taken("lactated Ringer's")).toBe("[9](infusion:lactated-Ringer's)");
  });

  it('results follow the slash, those that can be asked of what is named', () => {
    const { labels, taken } = completed('[9](infusion:gastric/|) and more', '/');
    expect(labels).toEqual(expect.arrayContaining(['sodium', 'free water', 'test salt', 'sodium chloride']));
    expect(labels).not.toContain('rate');
    expect(taken('free water')).toBe('[9](infusion:gastric/free-water) and more');
    expect(completed('[9](infusion:gastric/free-wa|ter)').taken('tonicity in the bag')).toBe(
      '[9](infusion:gastric/tonicity-in-the-bag)',
    );
    expect(completed('[9](infusion:adult/|)').labels).toContain('body water');
    expect(completed('[9](infusion:first/|)').labels).toContain('rate');
    expect(completed('[9](infusion:dextrose-5%25/|)').labels).toContain('sodium');
  });

  it('the list opens at the colon and the slash, and nowhere else in prose', () => {
    expect(completed('[9](infusion:|)', ':').labels).toContain('gastric');
    for (const [marked, typed] of [
      ['See: |', ':'],
      ['See:|', ':'],
      ['1/|', '/'],
      ['[9](https:|)', ':'],
      ['infusion:|', ':'],
      ['[9](infusion:a b|)', null],
      ['[9](infusion:a |)', ' '],
    ] as const) {
      expect(completed(marked, typed).labels).toEqual([]);
    }
    const inBlock = fenced('mixture a\n  1 L water # see:');
    expect(complete(inBlock, inBlock.indexOf('see:') + 4, ':').items).toEqual([]);
  });
});

describe('in a mark', () => {
  it('a comparison is begun', () => {
    const { labels, items, taken } = completed('<!-- infusion:| -->');
    expect(labels).toEqual(['compare']);
    // biome-ignore lint/suspicious/noTemplateCurlyInString: the syntax of snippets
    expect(items[0]?.snippet).toBe('compare ${1:fluid}, ${2:fluid} by ${3:result}$0');
    expect(taken('compare')).toBe('<!-- infusion:compare -->');
  });

  it('fluids and results are those of a line', () => {
    expect(completed('> - <!-- infusion:compare |', ' ').labels).toContain('gastric');
    const fluid = completed('<!-- infusion:compare gastric, lactated Rin| by sodium -->');
    expect(fluid.taken("lactated Ringer's")).toBe("<!-- infusion:compare gastric, lactated Ringer's by sodium -->");
    const result = completed('<!-- infusion: compare gastric by sodium, free w| -->');
    expect(result.labels).not.toContain('rate');
    expect(result.taken('free water')).toBe('<!-- infusion: compare gastric by sodium, free water -->');
  });

  it('nothing is offered behind its end, nor in other comments', () => {
    expect(completed('<!-- infusion:compare gastric by sodium -->|').labels).toEqual([]);
    expect(completed('<!-- compare |').labels).toEqual([]);
  });
});

describe('behind ‘use’', () => {
  const PATHS = ['./formulary.md', '../pharmacy/our fluids.md'];
  const paths = (line: string, typed: string | null = null) => {
    const source = fenced(`${line.replace('|', '')}\nmixture a\n  1 L water`);
    const found = complete(source, fenced(line).indexOf('|'), typed, PATHS);
    const taken = found.items.map(({ span, text }) => applied(source, [{ span, text }]).split('\n')[1]);
    return { ...found, taken };
  };

  it('paths are wanted, and put in place of what is written', () => {
    const source = fenced('use ');
    expect(complete(source, source.indexOf('use ') + 4, ' ')).toMatchObject({ items: [], wantsPaths: true });
    const expected = ['use ./formulary.md', 'use "../pharmacy/our fluids.md"'];
    for (const line of ['use |', 'use ./|', 'use ./form|ulary.md', 'use "../ph|armacy/a b.md"', 'use "|']) {
      expect(paths(line)).toMatchObject({ taken: expected, wantsPaths: false });
    }
    expect(paths('use ./|', '/').taken).toEqual(expected);
  });

  it('none are wanted elsewhere', () => {
    for (const line of ['use|', 'use a.md |', 'use a.md # ./|', '  1 L ./|']) {
      expect(paths(line).items.filter(({ kind }) => kind === 'note')).toEqual([]);
    }
  });
});

describe('every place in prose', () => {
  const pieces = fc.constantFrom(
    ...[
      '[a](',
      '<',
      '>',
      ')',
      'infusion:',
      'gastric',
      '/',
      'sodium',
      '-',
      '%20',
      '<!-- ',
      ' -->',
      'compare ',
      ' by ',
      ',',
    ],
    ...['\n', '\r\n', '> ', '- ', '[n]: ', ' ', 'use ', '"', '```infusion\n', '```\n', '😀'],
  );

  it('gives items around itself, in its own line', () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 20 }), fc.constantFrom(...wrappings), (list, { wrap }) => {
        const source = `${list.join('')}\n\n${wrap('mixture gastric\n  1 L water')}`;
        const note = createNoteService().work('file:///a.md', source);
        for (let offset = 0; offset <= source.length; offset += 1) {
          for (const { span } of note.complete(offset, null, ['./b.md']).items) {
            expect(span.start).toBeLessThanOrEqual(offset);
            expect(span.end).toBeGreaterThanOrEqual(offset);
            expect(source.slice(span.start, span.end)).not.toMatch(/[\r\n]/);
          }
        }
      }),
      runs(60),
    );
  });
});
