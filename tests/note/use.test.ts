/** Notes that use other notes: what is taken over, what is not, and what stands in the way. No source: our own design. */
import { describe, expect, it } from 'vitest';
import { closureAmong } from '../../scripts/example-notes.ts';
import { DEFAULT_POLICY } from '../../src/note/index.ts';
import { createNoteService, readClosure } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';
import { blocks, found, type Notes, sodium, worked } from './used-notes.ts';

const SALINE =
  'mixture gastric "Gastric replacement"\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL';
const THIO = 'substance sodium thiosulfate pentahydrate\n  molar mass 248.18 g/mol\n  gives sodium 2, thiosulfate 2- 1';

describe('a used note', () => {
  it('gives its mixtures, stocks and substances', () => {
    const notes = blocks({
      'a.md': `use ./f.md
mixture bag
  500 mL gastric
  1 x ward
  2 g sodium thiosulfate pentahydrate
  show thiosulfate, potassium
show gastric sodium
compare gastric, ward by sodium
give gastric at 60 mL/h for 4 h by peripheral vein`,
      'f.md': `${SALINE}\nstock ward\n  sodium 130 mmol/L\n  chloride 130 mmol/L\n  container 500 mL\n${THIO}`,
    });
    expect(found(notes)).toEqual([]);
    const { mixtures, shows, comparisons, orders } = worked(notes);
    expect(mixtures.map(({ name, state }) => [name, state])).toEqual([['bag', 'complete']]);
    expect(mixtures[0]!.contents!.volume.toString()).toBe('1000');
    expect(shows.map(({ shown }) => shown.length)).toEqual([2, 1]);
    expect(comparisons[0]!.rows.map(({ name }) => name)).toEqual(['gastric', 'ward']);
    expect(orders[0]!.state).toBe('complete');
  });

  it('gives nothing of its patients, orders, blocks of their own, and of what it uses itself', () => {
    const notes: Notes = {
      'a.md': fenced(`use ./f.md
mixture bag
  1 L lesson
mixture cup
  1 L deep
give 1 L sodium chloride 0.9% over 4 h by central vein to adult`),
      'f.md': `${fenced('use ./g.md\npatient adult\n  weight 70 kg')}\n${fenced('mixture lesson\n  1 L water', { info: 'alone' })}`,
      'g.md': fenced('mixture deep\n  1 L water'),
    };
    expect(found(notes)).toEqual(['unknown-name: lesson', 'unknown-name: deep', 'unknown-name: adult']);
  });

  it('has for its own mixtures what it uses', () => {
    const notes = blocks({
      'a.md': 'use ./wards/f.md\nmixture bag\n  1 L made',
      'wards/f.md': 'use ../g.md\nmixture made\n  1 L deep',
      'g.md': 'mixture deep\n  1 L sodium chloride 0.9%',
    });
    expect(found(notes)).toEqual([]);
    expect(sodium(notes)).toBe('154.0');
  });

  it('gives way to the names of the note, and goes before the formulary and built-in fluids', () => {
    const named = (strength: string) => `mixture ward\n  1 L sodium chloride ${strength}`;
    const bag = 'mixture bag\n  1 L ward';
    const notes = (own: string) => blocks({ 'a.md': own, 'f.md': named('0.45%'), 'p.md': named('3%') });
    expect(sodium(notes(`use ./f.md\n${named('0.9%')}\n${bag}`), 'bag', ['./p.md'])).toBe('154.0');
    expect(sodium(notes(`use ./f.md\n${bag}`), 'bag', ['./p.md'])).toBe('77.0');
    expect(sodium(notes(bag), 'bag', ['./p.md'])).toBe('513.3');
    const shadowing = blocks({
      'a.md': 'use ./f.md\nmixture bag\n  1 L D5W',
      'f.md': 'stock D5W\n  sodium 100 mmol/L\n  chloride 100 mmol/L',
    });
    expect(found(shadowing)).toEqual([]);
    expect(sodium(shadowing)).toBe('100.0');
  });

  it('serves all blocks that share their names, and a block of its own only where it says so', () => {
    const source = (first: string, second: string, info: string) =>
      `${fenced(first)}\ntext\n\n${fenced(second, { info })}`;
    const f = fenced(SALINE);
    const bag = 'mixture bag\n  1 L gastric';
    expect(found({ 'a.md': source(bag, 'use ./f.md', ''), 'f.md': f })).toEqual([]);
    expect(found({ 'a.md': source('use ./f.md', bag, 'alone'), 'f.md': f })).toEqual(['unknown-name: gastric']);
    expect(found({ 'a.md': source(bag, 'use ./f.md', 'alone'), 'f.md': f })).toEqual(['unknown-name: gastric']);
    expect(found({ 'a.md': source('', `use ./f.md\n${bag}`, 'alone'), 'f.md': f })).toEqual([]);
    expect(found({ 'a.md': source('', 'use ./none.md', 'skip'), 'f.md': f })).toEqual([]);
  });

  it('lets the ions of one name be one, whichever note declares them', () => {
    const other = 'substance ammonium thiosulfate\n  molar mass 148.2 g/mol\n  gives ammonium ion 1+ 2, thiosulfate 1';
    const notes = blocks({
      'a.md': `use ./f.md
use ./g.md
mixture bag
  1 mmol sodium thiosulfate pentahydrate
  2 mmol ammonium thiosulfate
  water to 1 L
  claim thiosulfate 3 mmol/L
  claim thiosulfate 6 mEq/L`,
      'f.md': THIO,
      'g.md': other,
    });
    expect(found(notes)).toEqual([]);
    const here = blocks({
      'a.md': `use ./f.md\n${other}\nmixture bag\n  1 mmol ammonium thiosulfate\n  water to 1 L\n  claim thiosulfate 1 mmol/L`,
      'f.md': THIO,
    });
    expect(found(here)).toEqual([]);
  });

  it('is told on the card of its fluids, and its places are none of this note', () => {
    const a = `${'# A long heading before everything\n\n'.repeat(9)}${fenced('use ./f.md\nmixture bag\n  1 L gastric')}`;
    const texts = new Map([
      ['a.md', a],
      ['f.md', fenced(SALINE)],
    ]);
    const note = createNoteService().work('a', a, DEFAULT_POLICY, closureAmong('a.md', texts));
    const card = note.hover(a.indexOf('L gastric') + 4)!.markdown;
    expect(card).toContain('From the note');
    expect(card).toContain('f\\.md');
    expect(card).toContain('Gastric replacement');
    for (const { offset } of note.results({ start: 0, end: a.length })) expect(offset).toBeGreaterThan(300);
    expect(worked(Object.fromEntries(texts)).mixtures.map(({ name }) => name)).toEqual(['bag']);
  });
});

describe('what stands in the way', () => {
  it('is said once, at the use, and names are put down to it', () => {
    const notes = blocks({
      'a.md':
        'use ./none.md\nmixture bag\n  1 L gastric\n  claim thiosulfate 3 mmol/L\nmixture cup\n  1 L bag\nshow gastric sodium',
    });
    expect(found(notes)).toEqual(['missing-note: ./none.md']);
    const model = worked(notes);
    const at = model.source.indexOf('./none.md');
    expect(model.mixtures.map(({ state, cause }) => [state, cause?.start])).toEqual([
      ['incomplete', at],
      ['incomplete', at],
    ]);
  });

  it('in a line that cannot be read is said there alone', () => {
    expect(found(blocks({ 'a.md': 'use\nmixture bag\n  1 L gastric' }))).toEqual(['syntax: use']);
  });

  it.each([
    ['"./our notes.md"', 'missing-note'],
    ['./none.md', 'missing-note'],
    ['./f.txt', 'missing-note'],
    ['.', 'missing-note'],
    ['wards\\f.md', 'missing-note'],
    ['../f.md', 'outside-workspace'],
    ['wards/../../f.md', 'outside-workspace'],
    ['/f.md', 'outside-workspace'],
    ['\\\\server\\f.md', 'outside-workspace'],
    ['C:\\f.md', 'outside-workspace'],
    ['"file:///f.md"', 'outside-workspace'],
    ['"https://example.org/f.md"', 'outside-workspace'],
    ['./a.md', 'circular-use'],
  ])('of use %s is %s', (path, code) => {
    expect(found(blocks({ 'a.md': `use ${path}` }))).toEqual([`${code}: ${path}`]);
  });

  it('reads a path with spaces between quotation marks', () => {
    const notes = blocks({ 'a.md': 'use "./our notes.md"\nmixture bag\n  1 L gastric', 'our notes.md': SALINE });
    expect(found(notes)).toEqual([]);
  });

  it('is said once where a name is used that has no results in its own note', () => {
    const notes = blocks({
      'a.md': `use ./f.md
mixture bag
  1 L broken
  10 mL broken
mixture cup
  1 L bag
  1 g bad salt
mixture jug
  1 L fine
  show fooate
show broken sodium
compare broken, fine by sodium`,
      'f.md':
        'mixture broken\n  1 L sodum chloride 0.9%\nmixture fine\n  1 L water\nsubstance bad salt\n  gives sodium 2, fooate 1- 1',
    });
    expect(found(notes)).toEqual([
      'incomplete-import: broken',
      'incomplete-import: bad salt',
      'incomplete-import: fooate',
    ]);
    expect(worked(notes).mixtures.map(({ name, state }) => [name, state])).toEqual([
      ['bag', 'incomplete'],
      ['cup', 'incomplete'],
      ['jug', 'complete'],
    ]);
  });

  it('is a name that two used notes give, unless the note gives it itself or it is the same note', () => {
    const f = 'mixture drip\n  1 L sodium chloride 0.9%';
    const g = 'mixture drip\n  1 L sodium chloride 0.45%';
    const bag = 'mixture bag\n  1 L drip';
    const notes = (own: string) => blocks({ 'a.md': own, 'f.md': f, 'g.md': g });
    expect(found(notes(`use ./f.md\nuse ./g.md\n${bag}`))).toEqual(['duplicate-name: ./g.md']);
    expect(sodium(notes(`use ./f.md\nuse ./g.md\n${bag}`))).toBeNull();
    expect(found(notes(`use ./f.md\nuse ./g.md\n${f}\n${bag}`))).toEqual([]);
    expect(found(notes(`use ./f.md\nuse f.md\n${bag}`))).toEqual([]);
    expect(found(notes(bag), ['./f.md', './g.md'])).toEqual(['incomplete-import: drip']);
    expect(found(notes(`use ./f.md\n${bag}`), ['./f.md', './g.md'])).toEqual([]);
  });
});

describe('a round of notes', () => {
  const round = blocks({
    'a.md': 'use ./b.md\nmixture one\n  1 L two\nmixture whole\n  1 L water',
    'b.md': 'use ./c.md\nmixture two\n  1 L three',
    'c.md': 'use ./a.md\nmixture three\n  1 L whole',
    'd.md': 'use ./a.md\nmixture bag\n  1 L whole\nmixture cup\n  1 L one',
  });
  const from = (path: string): Notes => ({ [path]: round[path]!, ...round });

  it('is said in each of its notes once, and nothing is read from it', () => {
    expect(found(from('a.md'))).toEqual(['circular-use: ./b.md']);
    expect(found(from('b.md'))).toEqual(['circular-use: ./c.md']);
    expect(found(from('c.md'))).toEqual(['circular-use: ./a.md']);
  });

  it('does not touch what does not rest on it', () => {
    expect(found(from('d.md'))).toEqual(['incomplete-import: one']);
    expect(worked(from('d.md')).mixtures.map(({ state }) => state)).toEqual(['complete', 'incomplete']);
  });

  it('is none where a block of its own uses what uses the note', () => {
    const notes: Notes = {
      'a.md': `${fenced(SALINE)}\n\n${fenced('use ./b.md\nmixture bag\n  1 L two', { info: 'alone' })}`,
      'b.md': fenced('use ./a.md\nmixture two\n  1 L gastric'),
    };
    expect(found(notes)).toEqual([]);
  });
});

describe('the formulary of local policy', () => {
  const bag = 'mixture bag\n  1 L gastric';

  it('is there for every block, also one of its own', () => {
    const a = `${fenced(bag)}\n\n${fenced(bag, { info: 'alone' })}`;
    expect(found({ 'a.md': a, 'f.md': fenced(SALINE) }, ['./f.md'])).toEqual([]);
    expect(found({ 'a.md': a, 'f.md': fenced(SALINE) }, ['./none.md'])).toEqual([
      'unknown-name: gastric',
      'unknown-name: gastric',
    ]);
  });

  it('is there for used notes, and not for its own notes and those that they use', () => {
    const notes = blocks({
      'a.md': 'use ./b.md\nmixture cup\n  1 L bag',
      'b.md': bag,
      'f.md': `use ./g.md\n${SALINE}\nmixture more\n  1 L other`,
      'g.md': 'mixture other\n  1 L water',
      'h.md': 'mixture more again\n  1 L gastric',
    });
    expect(found(notes, ['./f.md', './h.md'])).toEqual([]);
    expect(found({ 'g.md': fenced(bag), ...notes }, ['./f.md'])).toEqual([]);
    const g = { 'g.md': fenced(bag), 'f.md': notes['f.md']! };
    expect(found(g, ['./f.md'])).toEqual(['unknown-name: gastric']);
  });
});

describe('bounds', () => {
  const chain = (length: number) =>
    blocks(
      Object.fromEntries(
        Array.from({ length }, (_, index) => [
          `n${index}.md`,
          index + 1 < length
            ? `use ./n${index + 1}.md\nmixture mix${index}\n  1 L mix${index + 1}`
            : `mixture mix${index}\n  1 L water`,
        ]),
      ),
    );

  it('are ten notes deep, said where the way begins', () => {
    expect(found(chain(11))).toEqual([]);
    expect(found(chain(12))).toEqual(['over-limit: ./n1.md', 'incomplete-import: mix1']);
  });

  it('are fifty notes', () => {
    const fan = (count: number) =>
      Object.fromEntries([
        ['a.md', fenced(Array.from({ length: count }, (_, index) => `use ./n${index}.md`).join('\n'))],
        ...Array.from({ length: count }, (_, index) => [`n${index}.md`, fenced('')] as const),
      ]);
    expect(found(fan(50))).toEqual([]);
    expect(found(fan(52))).toEqual(['over-limit: ./n50.md', 'over-limit: ./n51.md']);
    expect(found({ 'r.md': fenced('use ./a.md'), ...fan(50) })).toEqual(['over-limit: ./a.md']);
  });

  it('are two million characters each', () => {
    expect(found({ 'a.md': fenced('use ./b.md'), 'b.md': `${'a'.repeat(2 * 1024 * 1024 + 1)}` })).toEqual([
      'over-limit: ./b.md',
    ]);
  });
});

describe('a service', () => {
  it('works a used note out once while nothing that it rests on changes', async () => {
    const service = createNoteService();
    let reads = 0;
    const texts = new Map([['f.md', fenced('mixture a\n  1 L water')]]);
    const source = {
      read: async (_from: string, path: string) => {
        reads += 1;
        const text = texts.get(path.slice(2));
        return text === undefined ? ({ why: 'none' } as const) : { at: path, text };
      },
    };
    const note = fenced('use ./f.md\nmixture bag\n  1 L a\n  show volume');
    const results = async () => {
      const closure = await readClosure({ at: 'a', text: note }, null, source);
      return service.work('a', note, DEFAULT_POLICY, closure).results({ start: 0, end: note.length })[0]!.text;
    };
    expect(await results()).toContain('sodium 0');
    texts.set('f.md', fenced('mixture a\n  1 L sodium chloride 0.9%'));
    expect(await results()).toContain('sodium 154');
    expect(reads).toBe(2);
  });

  it('says of a source that fails that the note cannot be read', async () => {
    const source = { read: () => Promise.reject(new Error('gone')) };
    const closure = await readClosure({ at: 'a', text: fenced('use ./f.md') }, null, source);
    expect(closure.targets.get('./f.md')).toEqual({ why: 'unreadable' });
  });
});
