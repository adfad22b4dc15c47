/** What is offered at a place, which is marked `|`. No source: our own design. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Completion, Completions } from '../../src/service/completion/types.ts';
import { createNoteService } from '../../src/service/index.ts';
import { fenced, findings } from '../annotated.ts';
import { wrappings } from '../markdown/wrappings.ts';
import { runs } from '../runs.ts';

function completed(marked: string, typed: string | null = null): Completions & { readonly source: string } {
  const offset = marked.indexOf('|');
  const source = marked.slice(0, offset) + marked.slice(offset + 1);
  return { ...createNoteService().work('file:///a.md', source).complete(offset, typed), source };
}

/** In a block, with `body` before it. */
const inBlock = (block: string, typed: string | null = null) => completed(fenced(block), typed);
const labels = ({ items }: Completions) => items.map(({ label }) => label);
const item = (found: Completions, label: string): Completion => {
  const item = found.items.find((one) => one.label === label);
  if (!item) throw new Error(`no ${label} in ${labels(found).join(', ')}`);
  return item;
};

/** The note after taking an item. */
function taken({ source, ...found }: ReturnType<typeof completed>, label: string): string {
  const { span, text } = item(found, label);
  return source.slice(0, span.start) + text + source.slice(span.end);
}

const NOTE = `stock ward "Ward Ringer's"
  sodium 130 mmol/L
  chloride 130 mmol/L
substance drug
patient adult
  weight 70 kg
mixture gastric "Gastric replacement"
  1 L sodium chloride 0.9%
  10 mL potassium chloride 2 mmol/mL
give gastric at 60 mL/h for 10 h to adult as first
`;

describe('the first words of a line', () => {
  it.each([
    ['mixture a\n  |', ['water to', 'withdraw', 'exchange', 'claim', 'target'], ['weight', 'container']],
    ['patient a\n  |', ['weight', 'serum sodium', 'sex female', 'onset chronic', 'loss'], ['withdraw', 'target']],
    ['stock a\n  |', ['sodium', 'container', 'other ions', 'osmolarity'], ['withdraw', 'weight']],
    ['substance a\n  |', ['molar mass', 'gives', 'in the body crosses cells'], ['withdraw', 'weight']],
    ['give 1 L water\n  |', ['claim', 'show', 'accept'], ['withdraw', 'weight']],
    ['|', ['mixture', 'give', 'patient', 'stock', 'substance', 'compare', 'ask', 'what if'], ['withdraw', 'accept']],
    ['mixture a\n  1 L water\ncompare a, water by sodium\n|', ['mixture', 'give'], ['withdraw', 'accept']],
  ])('fit what is open: %s', (block, some, none) => {
    const found = labels(inBlock(block));
    expect(found).toEqual(expect.arrayContaining(some));
    for (const label of none) expect(found).not.toContain(label);
  });

  it('are whole blocks, whose gaps are words', () => {
    expect(item(inBlock('|'), 'mixture')).toMatchObject({
      kind: 'block',
      // biome-ignore lint/suspicious/noTemplateCurlyInString: the syntax of snippets
      snippet: 'mixture ${1:name} "${2:Title}"\n  ${3:amount} ${4:fluid}$0',
    });
  });

  it('of several words are replaced as one', () => {
    expect(taken(inBlock('patient a\n  serum so|'), 'serum sodium')).toBe(fenced('patient a\n  serum sodium'));
    expect(taken(inBlock('patient a\n  sex |'), 'sex male')).toBe(fenced('patient a\n  sex male'));
    expect(taken(inBlock('mixture a\n  water |'), 'to')).toBe(fenced('mixture a\n  water to'));
  });

  it('repeat the margin of their block on the lines they add', () => {
    const snippet = (marked: string) => item(completed(marked), 'mixture').snippet?.split('\n')[1];
    // biome-ignore-start lint/suspicious/noTemplateCurlyInString: the syntax of snippets
    expect(snippet('> ```infusion\n> mix|\n> ```\n')).toBe('>   ${3:amount} ${4:fluid}$0');
    expect(snippet('- a\n\n  ```infusion\n  |\n  ```\n')).toBe('    ${3:amount} ${4:fluid}$0');
    // biome-ignore-end lint/suspicious/noTemplateCurlyInString: the syntax of snippets
  });
});

describe('fluids', () => {
  it('are the own ones first, then those on the shelf', () => {
    const found = inBlock(`${NOTE}mixture b\n  1 L |`);
    expect(labels(found).slice(0, 3)).toEqual(['ward', 'gastric', 'sodium chloride 0.2 %']);
    expect(labels(found)).toEqual(expect.arrayContaining(["lactated Ringer's", 'potassium chloride 2 mEq/mL', 'drug']));
    expect(labels(found)).not.toContain('b');
  });

  it('say tonicity, free water, sodium and their source', () => {
    const { documentation, detail } = item(inBlock('mixture b\n  1 L |'), 'sodium chloride 0.45 %');
    expect(detail).toBe('hypotonic');
    expect(documentation).toMatch(
      /^Hypotonic in the bag \(154 mOsm\/L\), hypotonic in the body\. Per litre: electrolyte-free water 500 mL · sodium 77 mmol\. Source: .+\.$/,
    );
    const own = item(inBlock(`${NOTE}mixture b\n  1 L |`), 'gastric');
    expect(own).toMatchObject({ kind: 'mixture', detail: '1010 mL' });
    expect(own.documentation).toMatch(/^Gastric replacement\. Isotonic/);
  });

  it('replace all the words written of them', () => {
    const block = (words: string) => `mixture b\n  1 L ${words}`;
    for (const words of ['sodium chl|', 'Sodium  |', 'sodium|', '|', 'sodium chlo|ride']) {
      expect(taken(inBlock(block(words)), 'sodium chloride 0.9 %')).toBe(fenced(block('sodium chloride 0.9 %')));
    }
    expect(taken(inBlock(block('lactated-Rin|')), "lactated Ringer's")).toBe(fenced(block("lactated Ringer's")));
    expect(taken(inBlock(block('dextrose 5% in sod|')), 'sodium chloride 0.9 %')).toBe(
      fenced(block('dextrose 5% in sodium chloride 0.9 %')),
    );
  });

  it('are solutes behind a mass or an amount, with the salt of an ion behind ‘as’', () => {
    expect(labels(inBlock('substance drug\nmixture b\n  9 g |'))[0]).toBe('drug');
    expect(labels(inBlock('mixture b\n  9 g |'))).not.toContain("lactated Ringer's");
    expect(labels(inBlock('mixture b\n  20 mmol |'))).toContain('potassium as');
    const carriers = labels(inBlock('mixture b\n  20 mmol potassium as |'));
    expect(carriers).toContain('potassium chloride');
    expect(carriers).not.toContain('sodium chloride');
  });

  it('are own names behind a count', () => {
    expect(labels(inBlock(`${NOTE}mixture b\n  2 x |`))).toEqual(['ward', 'gastric']);
  });

  it.each([
    'mixture b\n  4 g magnesium sulfate in 100 mL |',
    'mixture b\n  exchange 100 mL for |',
    'compare sodium chloride 0.9%, |',
    'give |',
    'give 500 mL |',
    'give 2 x 500 mL |',
  ])('are offered in %s', (block) => {
    expect(labels(inBlock(block))).toContain("lactated Ringer's");
  });
});

describe('units', () => {
  it.each([
    ['mixture a\n  10 |', 'mL', 'mmol/L'],
    ['mixture a\n  10 m|', 'mL', 'mL/h'],
    ['mixture a\n  ? |', 'mL', 'h'],
    ['mixture a\n  3 x 50 |', 'mL', 'h'],
    ['mixture a\n  10 mL potassium chloride 2 |', 'mmol/mL', 'mL'],
    ['mixture a\n  1 L sodium chloride 0.9|', '%', 'mL'],
    ['mixture a\n  water to 1 |', 'L', 'g'],
    ['mixture a\n  9 g sodium chloride to 1 |', 'L', 'g'],
    ['mixture a\n  withdraw 100 |', 'mL', 'g'],
    ['mixture a\n  4 g magnesium sulfate in 100 |', 'mL', 'g'],
    ['mixture a\n  1 L ± 5 |', '%', 'g'],
    ['mixture a\n  1 L water\n  claim sodium 20 |', 'mmol/L', 'mL'],
    ['mixture a\n  1 L water\n  claim sodium 20 mmol/L within 1 |', 'mmol/L', 'mL'],
    ['mixture a\n  1 L water\n  claim free water 20 |', 'mL/L', 'mmol/L'],
    ['mixture a\n  1 L water\n  claim osmolarity 20 mOsm/|', 'mOsm/L', 'mmol/L'],
    ['give 1 L water at 60 |', 'mL/h', 'mL'],
    ['give 1 L water for 6 |', 'h', 'mL'],
    ['give 1 L water every 6 |', 'h', 'mL'],
    ['give 1 L water over 6 |', 'min', 'mL'],
    ['give 1 L water through a set of 20 |', 'drops/mL', 'mL'],
    ['give 500 |', 'mL', 'h'],
    ['give 1 L water\n  claim rate 60 |', 'mL/h', 'mL'],
    ['patient a\n  weight 70 |', 'kg', 'mL'],
    ['patient a\n  serum sodium 140 |', 'mmol/L', 'kg'],
    ['patient a\n  loss stomach 60 |', 'mL/h', 'mmol/L'],
    ['patient a\n  loss stomach 60 mL/h sodium 60 |', 'mmol/L', 'mL/h'],
    ['stock a\n  sodium 130 |', 'mEq/L', 'mL'],
    ['stock a\n  container 500 |', 'mL', 'mmol/L'],
    ['substance a\n  molar mass 248.18 |', 'g/mol', 'g'],
  ])('fit what is measured: %s', (block, fits, not) => {
    const found = labels(inBlock(block));
    expect(found).toContain(fits);
    expect(found).not.toContain(not);
  });

  it('bring a space behind their number, and replace what is written of them', () => {
    expect(taken(inBlock('mixture a\n  1 L sodium chloride 0.9|'), '%')).toBe(
      fenced('mixture a\n  1 L sodium chloride 0.9 %'),
    );
    expect(taken(inBlock('give 1 L water at 60 mL/|'), 'mL/kg/h')).toBe(fenced('give 1 L water at 60 mL/kg/h'));
    expect(taken(inBlock('mixture a\n  10mm|'), 'mmol')).toBe(fenced('mixture a\n  10mmol'));
  });

  const FLUIDS =
    'mixture a\n  500 mL sodium chloride 0.9%\n  500 mL dextrose 5%\n  10 mL potassium chloride 2 mmol/mL\n';
  it('of a claim are such as it can be held against', () => {
    for (const label of labels(inBlock(`${FLUIDS}  claim |`))) {
      for (const unit of labels(inBlock(`${FLUIDS}  claim ${label} 20 |`))) {
        const codes = findings(fenced(`${FLUIDS}  claim ${label} 20 ${unit}`)).map(({ code, message }) =>
          code === 'wrong-dimension' ? message : code,
        );
        expect(codes.filter((code) => !/^(?:claim-mismatch|tonicity-falls|nominal)/.test(code))).toEqual([]);
      }
    }
  });
});

describe('what is asked', () => {
  it('fits the kind of thing that is open', () => {
    expect(labels(inBlock('mixture a\n  1 L sodium chloride 0.9%\n  claim |')).slice(0, 3)).toEqual([
      'sodium',
      'chloride',
      'volume',
    ]);
    expect(labels(inBlock('mixture a\n  1 L water\n  claim |'))).not.toContain('body water');
    expect(labels(inBlock('patient a\n  show |'))).toContain('body water');
    expect(labels(inBlock('patient a\n  show |'))).not.toContain('osmolarity');
    expect(labels(inBlock('give 1 L water\n  show |'))).toContain('rate');
    expect(labels(inBlock('mixture a\n  ? mL water\n  target |'))).not.toContain('tonicity in the bag');
    expect(labels(inBlock('compare water, water by |'))).toContain('osmolarity');
  });

  it('fits what the line names', () => {
    const found = inBlock(`${NOTE}show adult bo|`);
    expect(labels(found)).toContain('body water');
    expect(taken(found, 'body water')).toBe(fenced(`${NOTE}show adult body water`));
    expect(labels(inBlock(`${NOTE}show first |`))).toContain('duration');
    expect(labels(inBlock(`${NOTE}show first rate, |`))).toContain('duration');
    expect(labels(inBlock("claim lactated Ringer's |"))).toContain('osmolarity');
    expect(labels(inBlock('claim sodium chloride 0.9% |'))).toContain('osmolarity');
    expect(labels(inBlock('show |'))).toEqual([]);
    expect(labels(inBlock(`${NOTE}\ncompare gastric, ward by sodium\nshow |`)).slice(0, 4)).toEqual([
      'ward',
      'adult',
      'gastric',
      'first',
    ]);
  });

  it('has own substances and ions, and the words of a tonicity', () => {
    const own = 'substance salt\n  gives sodium 1, mystery 1- 1\nmixture a\n  1 L water\n';
    expect(labels(inBlock(`${own}  claim |`))).toEqual(expect.arrayContaining(['salt', 'mystery']));
    expect(taken(inBlock('mixture a\n  claim tonicity in the body iso|'), 'isotonic')).toBe(
      fenced('mixture a\n  claim tonicity in the body isotonic'),
    );
  });
});

describe('an order', () => {
  it('is completed with patients, orders, routes and the words of its clauses', () => {
    expect(labels(inBlock(`${NOTE}give 1 L water to |`))).toEqual(['adult']);
    expect(labels(inBlock(`${NOTE}give 1 L water after |`))).toEqual(['first']);
    expect(taken(inBlock('give 1 L water by perip|'), 'peripheral vein')).toBe(
      fenced('give 1 L water by peripheral vein'),
    );
    expect(labels(inBlock('give 1 L water via |'))).toContain('central vein');
    expect(labels(inBlock('give 1 L water at 60 mL/h |'))).toEqual(expect.arrayContaining(['for', 'by', 'monitored']));
    expect(labels(inBlock('give 1 L water at 60 mL/h |'))).not.toContain('at');
    expect(labels(inBlock('give 1 L magnesium sulfate 4% at 1 g/h of |'))).toContain('magnesium sulfate');
    expect(labels(inBlock('give 1 L water through |'))).toEqual(['a set of']);
  });
});

describe('codes', () => {
  it('are those of findings here first, with a place for the reason', () => {
    const block = "mixture a\n  1 L lactated Ringer's\n  200 mL dextrose 5%\n";
    const [first] = findings(fenced(block)).filter(({ severity }) => severity !== 'error');
    const found = inBlock(`${block}  accept |`);
    expect(found.items[0]).toMatchObject({ label: first?.code, detail: 'found here' });
    expect(found.items[0]?.text).toBe(`${first?.code} because ""`);
    expect(labels(found)).not.toContain('syntax');
    expect(taken(inBlock('mixture a\n  accept volume-ad|'), 'volume-added')).toContain(
      'accept volume-added because ""',
    );
    expect(labels(inBlock('mixture a\n  accept volume-added |'))).toEqual(['because ""']);
  });
});

describe('nothing is offered', () => {
  it.each([
    ['in a remark', '```infusion\nmixture a # cl|\n```\n'],
    ['in a title', '```infusion\nmixture a "so|"\n```\n'],
    ['for a new name', '```infusion\nmixture |\n```\n'],
    ['in the middle of a number', '```infusion\nmixture a\n  1|0 mL water\n```\n'],
    ['in a block that is left alone', '```infusion skip\n|\n```\n'],
    ['in prose', 'Text |\n\n```infusion\n```\n'],
    ['in the words behind a fence', '```infusion |\n```\n'],
  ])('%s', (_, marked) => {
    expect(completed(marked).items).toEqual([]);
  });

  it('by itself where a line may as well end', () => {
    expect(labels(inBlock('mixture a\n  |', ' '))).toEqual([]);
    expect(labels(inBlock('mixture a\n  1 L sodium chloride 0.9% |', ' '))).toEqual([]);
    expect(labels(inBlock('mixture a\n  1 L sodium chloride 0.9% |'))).toEqual(['in', 'with', 'to']);
    expect(labels(inBlock('mixture a\n  1 |', ' '))).toContain('mL');
    expect(completed('word |', ' ').items).toEqual([]);
    expect(labels(inBlock('mixture a\n  |', '`'))).toEqual([]);
  });
});

describe('the fence', () => {
  const fences = ['```infusion', '```infusion mixture'];

  it.each([
    '`|',
    '``|',
    '```|',
    '```inf|',
    '> `|\n> more',
    '- a\n- ```|',
    '  ```|',
    'Words\n\n```|\n\nWords',
    '\uFEFF`|',
  ])('is offered where one may begin: %j', (marked) => {
    expect(labels(completed(marked))).toEqual(fences);
    expect(labels(completed(marked, '`'))).toEqual(fences);
  });

  it.each([
    'Words `|',
    '````|',
    '    `|',
    '~~~\n`|\n~~~',
    '```js\n`|\n```',
    '<!--\n`|\n-->',
    '` text |',
    '---\n`|\n---\n',
  ])('is not offered elsewhere: %j', (marked) => {
    expect(labels(completed(marked))).toEqual([]);
  });

  it('is closed, with the margin of its place', () => {
    expect(taken(completed('a\n\n``|\n\nb'), '```infusion')).toBe('a\n\n```infusion\n\n```\n\nb');
    expect(item(completed('- ``|'), '```infusion').snippet).toBe('```infusion\n  $1\n  ```$0');
    expect(item(completed('> 1. ``|'), '```infusion').snippet).toBe('```infusion\n>    $1\n>    ```$0');
  });
});

describe('a long list', () => {
  it('is cut to what fits best, and says so', () => {
    const own = Array.from({ length: 250 }, (_, n) => `mixture m${n}\n  1 L water`).join('\n');
    const found = inBlock(`${own}\nmixture z\n  1 L m24|`);
    expect(found.cut).toBe(true);
    expect(found.items).toHaveLength(200);
    expect(labels(found).slice(0, 3)).toEqual(['m24', 'm240', 'm241']);
    expect(inBlock('mixture z\n  1 L |').cut).toBe(false);
  });
});

describe('lessons', () => {
  it.each([
    ['ask |', ['""'], ['show']],
    ['ask "Will it?" |', ['show'], ['sodium']],
    ['mixture a\n  1 L water\n  ask "Will it?" show |', ['sodium', 'volume'], ['weight']],
    ['ask "Will it?" show gas|', ['gastric'], []],
    ['what |', ['if'], ['show']],
    ['what if |', ['adult', 'gastric', 'first'], ['ward']],
    ['what if adult |', ['adult weight', 'adult serum sodium'], ['adult withdraw']],
    ['what if gastric wi|', ['gastric withdraw'], ['gastric weight']],
    ['what if adult weight 40 |', ['kg'], ['mL']],
    ['what if gastric withdraw 10 |', ['mL', 'L'], ['kg']],
    ['what if first at 50 |', ['mL/h'], ['kg']],
    ['what if adult weight 40 kg |', ['show', 'or'], []],
    ['what if adult weight 40 kg, 70 |', ['kg'], []],
    ['what if adult weight 40 kg show first |', ['rate', 'predicted sodium'], []],
  ])('offers what fits: %s', (block, some, none) => {
    const found = labels(inBlock(`${NOTE}compare gastric by sodium\n${block}`));
    expect(found).toEqual(expect.arrayContaining(some));
    for (const label of none) expect(found).not.toContain(label);
  });
});

describe('every place', () => {
  it.each(wrappings)('is found in: $name', ({ wrap }) => {
    const offset = wrap('mixture a\n  1 L sodium chl|').indexOf('|');
    const source = wrap('mixture a\n  1 L sodium chl|').replace('|', '');
    const { items } = createNoteService().work('file:///a.md', source).complete(offset, null);
    const found = items.find(({ label }) => label === 'sodium chloride 0.9 %')!;
    expect(source.slice(found.span.start, found.span.end)).toBe('sodium chl');
  });

  const pieces = fc.constantFrom(
    ...['mixture a', 'patient p', 'stock s', 'substance d', '\n', '\n', '\n  ', '1 L', '10', 'mL', 'mmol', 'sodium'],
    ...['sodium chloride', '0.9%', 'in', 'with', 'to', 'as', 'x', '?', '±', 'claim', 'show', 'target', 'compare', 'by'],
    ...['give', 'at', 'for', 'over', 'every', 'after', 'through', 'of', 'accept', 'because', '"', ',', '#', 'a', 'p'],
    ...['weight', 'serum', 'gives', 'withdraw', 'exchange', 'within', 'up', 'q.s.', '/', '%', '😀', '\t', 'monitored'],
  );
  const soup = fc.array(pieces, { maxLength: 30 }).map((list) => list.join(' '));

  it('gives items around itself, in its own line', () => {
    fc.assert(
      fc.property(soup, fc.constantFrom(...wrappings), (block, { wrap }) => {
        const source = wrap(block);
        const note = createNoteService().work('file:///a.md', source);
        for (let offset = -1; offset <= source.length + 1; offset += 1) {
          for (const { span } of note.complete(offset, null).items) {
            expect(span.start).toBeLessThanOrEqual(offset);
            expect(span.end).toBeGreaterThanOrEqual(offset);
            expect(source.slice(span.start, span.end)).not.toMatch(/[\r\n]/);
          }
        }
      }),
      runs(40),
    );
  });
});
