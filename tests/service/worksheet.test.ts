/** Worksheets. Amounts are worked out by hand beside each; no other source: the form is our own. */
import { marked, type Tokens } from 'marked';
import { describe, expect, it } from 'vitest';
import { worksheetHtml, worksheetMarkdown } from '../../src/render/index.ts';
import { createNoteService } from '../../src/service/index.ts';
import { readPolicyFile } from '../../src/service/policy-file.ts';
import type { Worksheet, WorksheetAsked, WorksheetOf } from '../../src/service/worksheet/index.ts';
import type { Sheet } from '../../src/text/sheet.ts';
import { fenced } from '../annotated.ts';

const PLAIN: WorksheetAsked = { path: 'notes/a.md', policy: null, bags: null, to: null };

function made(source: string, of: WorksheetOf, asked: Partial<WorksheetAsked> = {}, policy?: string): Worksheet {
  const under = policy === undefined ? undefined : readPolicyFile(policy).policy;
  return createNoteService()
    .work('file:///a.md', source, under)
    .worksheet(of, { ...PLAIN, ...asked });
}

function sheet(block: string, name: string, asked: Partial<WorksheetAsked> = {}, policy?: string): Sheet {
  const worksheet = made(fenced(block), { name }, asked, policy);
  if (!worksheet.ok) throw new Error(worksheet.reason);
  return worksheet.sheet;
}

/** Rows of the first table below a heading; the lead for ''. */
function rows(of: Sheet, heading: string): readonly (readonly string[])[] {
  const blocks = heading === '' ? of.lead : of.sections.find((section) => section.heading === heading)?.blocks;
  const table = blocks?.find(({ kind }) => kind === 'table');
  return table?.kind === 'table' ? table.rows : [];
}

/** Paragraphs and items below a heading, a string each. */
function words(of: Sheet, heading: string): readonly string[] {
  const blocks = of.sections.find((section) => section.heading.startsWith(heading))?.blocks ?? [];
  return blocks.flatMap((block) => {
    if (block.kind === 'table') return [];
    const lines = block.kind === 'list' ? block.items : [block.inline];
    return lines.map((line) => line.map(({ text }) => text).join(''));
  });
}

const reason = (worksheet: Worksheet) => (worksheet.ok ? null : worksheet.reason);

const ALL_STEPS = `mixture base
  500 mL sodium chloride 0.9%
mixture all "All steps"
  1 L sodium chloride 0.9%
  withdraw 100 mL
  3 x 10 mL potassium chloride 2 mmol/mL
  40 mmol potassium as potassium chloride 2 mmol/mL
  2 g magnesium sulfate in 50 mL water
  exchange 100 mL for dextrose 50%
  5 mL "Multivitamin" by volume
  100 mL base
  water to 1.5 L`;

describe('the order of addition', () => {
  it('has each line as what a person does, and what is then in the bag', () => {
    expect(rows(sheet(ALL_STEPS, 'all'), 'Order of addition')).toEqual([
      ['1', 'Add sodium chloride 0.9%', '1000 mL', 'as written', '1000 mL'],
      ['2', 'Withdraw and discard, well mixed', '100 mL', 'as written', '900 mL'],
      ['3', 'Add potassium chloride 2 mmol/mL (3 of 10 mL)', '30 mL', 'as written', '930 mL'],
      // 40 mmol ÷ 2 mmol/mL = 20 mL.
      [
        '4',
        'Add potassium as potassium chloride 2 mmol/mL (for 40 mmol)',
        '20 mL',
        '20 mL (20 or 50 mL syringe)',
        '950 mL',
      ],
      ['5', 'Add water', '50 mL', 'as written', '1000 mL'],
      // Dry, taking up 2 g × 0.5355 mL/g = 1.07 mL.
      ['6', 'Add magnesium sulfate', '2 g', 'as written', '1001 mL'],
      ['7', 'Withdraw and discard, well mixed', '100 mL', 'as written', '901.1 mL'],
      ['8', 'Add dextrose 50%', '100 mL', 'as written', '1001 mL'],
      ['9', 'Add Multivitamin', '5 mL', 'as written', '1006 mL'],
      ['10', 'Add base (made up before, by its own worksheet)', '100 mL', 'as written', '1106 mL'],
      ['11', 'Make up with water to 1500 mL', 'about 393.9 mL', 'to the mark', '1500 mL'],
    ]);
  });

  it('gives a dry solute in grams, whatever it is counted in', () => {
    // 8 mmol × 246.47 g/mol (heptahydrate) = 1.972 g; 93 mg calcium ÷ 40.08 × 147.01 (dihydrate) = 0.3411 g.
    const dry = sheet(
      'mixture dry\n  8 mmol magnesium as magnesium sulfate\n  93 mg elemental calcium as calcium chloride\n  water to 100 mL',
      'dry',
    );
    expect(rows(dry, 'Order of addition').map((row) => row.slice(1, 4))).toEqual([
      ['Add magnesium as magnesium sulfate (for 8 mmol)', '1.972 g', '1.97 g (balance)'],
      ['Add elemental calcium as calcium chloride (for 93 mg)', '0.3411 g', '0.34 g (balance)'],
      ['Make up with water to 100 mL', expect.stringMatching(/^about 9\d\.\d+ mL$/), 'to the mark'],
    ]);
  });

  it('gives a solved amount exactly and as it can be measured, and what that costs', () => {
    // 513 mmol/L × 0.5 L ÷ (234 g/L ÷ 58.44 g/mol) = 64.06 mL.
    const brine = sheet(
      'mixture brine\n  ? mL sodium chloride 23.4%\n  water to 500 mL\n  target sodium 513 mmol/L',
      'brine',
    );
    expect(rows(brine, 'Order of addition')[0]).toEqual([
      '1',
      'Add sodium chloride 23.4%',
      '64.06 mL',
      '64 mL (250 mL measuring cylinder)',
      '64.06 mL',
    ]);
    expect(words(brine, 'Order')[0]).toBe(
      'Measured as 64 mL (250 mL measuring cylinder) it gives sodium 512.5 mmol/L.',
    );
  });

  it('weighs a solution that is given by its weight', () => {
    const weighed = sheet('mixture bag\n  500 mL water\n  4 g of solution sodium chloride 23.4%', 'bag');
    expect(rows(weighed, 'Order of addition')[1]?.slice(1, 4)).toEqual([
      'Add sodium chloride 23.4%',
      '4 g',
      'as written',
    ]);
  });

  it('counts whole recipes and containers', () => {
    const block = `mixture base\n  500 mL water
stock ward\n  container 250 mL\n  sodium 154 mmol/L\n  chloride 154 mmol/L
mixture bag\n  2 x base\n  1 x ward`;
    expect(rows(sheet(block, 'bag'), 'Order of addition').map((row) => row.slice(1, 3))).toEqual([
      ['Add base (2 whole ones; made up before, by its own worksheet)', '1000 mL'],
      ['Add ward (one whole)', '250 mL'],
    ]);
  });
});

describe('another size', () => {
  const GASTRIC = 'mixture gastric "Gastric"\n  1 L sodium chloride 0.9%\n  10 mL potassium chloride 2 mmol/mL';

  it('to 250 mL brings every amount down by one factor, and keeps the strengths', () => {
    const [whole, scaled] = [sheet(GASTRIC, 'gastric'), sheet(GASTRIC, 'gastric', { to: '250 mL' })];
    // 1000 × 250 ÷ 1010 = 247.5 mL; 10 × 250 ÷ 1010 = 2.475 mL.
    expect(rows(scaled, 'Order of addition').map((row) => row.slice(2))).toEqual([
      ['247.5 mL', '248 mL (250 mL measuring cylinder)', '247.5 mL'],
      ['2.475 mL', '2.5 mL (3 mL syringe)', '250 mL'],
    ]);
    const perLitre = (of: Sheet) => rows(of, 'The finished mixture').map(([name, strength]) => [name, strength]);
    expect(perLitre(scaled)).toEqual(perLitre(whole));
    expect(rows(scaled, 'The finished mixture')[1]).toEqual(['sodium', '152 mmol', '38.1 mmol']);
    expect(words(scaled, 'Order')[0]).toMatch(/^Brought from 1010 mL to 250 mL.*Not checked again/);
  });

  it('for 6 bags leaves each as it is, and adds what is needed in all', () => {
    const six = sheet(GASTRIC, 'gastric', { bags: '6 bags' });
    expect(rows(six, 'Order of addition').map((row) => [row[2], row[5]])).toEqual([
      ['1000 mL', '6000 mL'],
      ['10 mL', '60 mL'],
    ]);
    expect(rows(six, '')).toContainEqual(['Final volume', '1010 mL in each bag, 6060 mL in all']);
  });

  it('takes both: two bags of 505 mL', () => {
    const both = sheet(GASTRIC, 'gastric', { bags: '2', to: '505 mL' });
    expect(rows(both, 'Order of addition').map((row) => [row[2], row[5]])).toEqual([
      ['500 mL', '1000 mL'],
      ['5 mL', '10 mL'],
    ]);
  });

  it('scales a solved amount', () => {
    const block = 'mixture brine\n  ? mL sodium chloride 23.4%\n  water to 500 mL\n  target sodium 513 mmol/L';
    // Half of 64.06 mL.
    expect(rows(sheet(block, 'brine', { to: '0.25 L' }), 'Order of addition')[0]?.[2]).toBe('32.03 mL');
  });

  it.each(['0 bags', '1000 bags', '2.5 bags', 'six bags', '', '6 litres'])('for ‘%s’ is refused', (bags) => {
    expect(reason(made(fenced(GASTRIC), { name: 'gastric' }, { bags }))).toContain('a number of bags from 1 to 999');
  });

  it.each(['0 mL', '-5 mL', '250', '250 g', '250 mL/h', '', '1 L 2 L'])('to ‘%s’ is refused', (to) => {
    expect(reason(made(fenced(GASTRIC), { name: 'gastric' }, { to }))).toContain('a volume above zero');
  });
});

describe('the label', () => {
  const ORDERED = `mixture maintenance "Maintenance"
  900 mL dextrose 5%
  20 mL potassium chloride 2 mmol/mL
patient adult
  weight 70 kg
  age 50 y
give maintenance at 80 mL/h by central vein to adult as first`;

  it('has contents with amount and strength, diluent, volume, route and rate of the order, and blanks', () => {
    // 900 mL of 5 % hold 45 g; 20 mL × 2 mmol/mL = 40 mmol, ÷ 0.92 L = 43.5 mmol/L.
    const label = new Map(rows(sheet(ORDERED, 'maintenance'), 'Label').map(([element, text]) => [element, text]));
    expect(label.get('Contents: amount in the bag (strength)')).toBe(
      'potassium 40 mmol, 43.5 mmol per litre; chloride 40 mmol, 43.5 mmol per litre; dextrose 227 mmol (45 g dextrose monohydrate), 247 mmol per litre',
    );
    expect(label.get('Diluent')).toBe('dextrose 5%');
    expect(label.get('Final volume')).toBe('920 mL');
    expect(label.get('Route')).toBe('central vein');
    expect(label.get('Rate')).toBe('80 mL/h, 920 mL over 11.5 h (order ‘first’)');
    for (const blank of ['Patient: name, date of birth, number', 'Use by: date, time', 'Prepared at: date, time'])
      expect(label.get(blank)).toBe('');
  });

  it('says that what each standard asks for is from memory', () => {
    expect(words(sheet(ORDERED, 'maintenance'), 'Label').join()).toContain('from memory');
  });
});

describe('what is said of a vein', () => {
  it('follows the limit of policy', () => {
    const strong = 'mixture strong\n  500 mL dextrose 10%';
    // 10 % of dextrose monohydrate (198.17 g/mol): 505 mOsm/L.
    expect(words(sheet(strong, 'strong'), 'The finished')[1]).toContain(
      'is within the limit taken for a peripheral vein, 900 mOsm/L',
    );
    const policy =
      '{ "limits": { "peripheral-osmolarity": { "limit": "500 mOsm/L", "source": "our list", "date": "2026-01-01" } } }';
    expect(readPolicyFile(policy).diagnostics).toEqual([]);
    expect(words(sheet(strong, 'strong', {}, policy), 'The finished')[1]).toContain(
      'is above the limit taken for a peripheral vein, 500 mOsm/L (our list)',
    );
  });

  it('is left open where something in it counts no osmoles', () => {
    const drug = sheet('substance drug\nmixture bag\n  500 mL water\n  1 g drug', 'bag');
    expect(words(drug, 'The finished')[1]).toContain('cannot be said');
  });
});

describe('cautions', () => {
  it('hold the findings of the mixture, of what it is made from and of its orders, accepted ones with their reason', () => {
    const block = `mixture base\n  1 L sodium chloride 0.9%\n  200 mL potassium chloride 2 mmol/mL\n  accept volume-added because "meant so"
mixture bag\n  500 mL base\n  claim sodium 10 mmol/L
mixture other\n  1 L sodium chloride 0.9%\n  claim sodium 11 mmol/L
give bag at 60 mL/h for 5 h by peripheral vein`;
    const worksheet = made(fenced(block), { name: 'bag' });
    if (!worksheet.ok) throw new Error(worksheet.reason);
    const told = words(worksheet.sheet, 'Cautions').join('\n');
    expect(worksheet.errors).toBe(1);
    expect(told).toMatch(/^Error, line 8, claim-mismatch: .*10 mmol\/L/m);
    expect(told).toContain('potassium-concentration');
    expect(told).toMatch(/^Accepted because ‘meant so’, line 4, volume-added/m);
    expect(told).not.toContain('11 mmol/L');
    expect(JSON.stringify(worksheet.sheet.lead)).toContain('An error stands open in the note');
  });
});

describe('no worksheet', () => {
  const block = `mixture broken\n  1 L sodum chloride 0.9%
mixture twice\n  1 L water
mixture twice\n  2 L water
mixture open\n  ? mL sodium chloride 0.9%\n  water to 1 L
stock shelf\n  sodium 154 mmol/L\n  chloride 154 mmol/L
mixture gastric\n  1 L sodium chloride 0.9%`;

  it.each([
    ['broken', true, /^‘broken’ has no worksheet, since it has no results until line 3 is mended: .*sodum/],
    ['twice', false, /^‘twice’ is the name of several mixtures \(lines 4, 6\)/],
    ['open', true, /^‘open’ has no worksheet, since an amount of it is not solved for/],
    ['shelf', false, /^‘shelf’ is a stock/],
    ['gastrik', false, /did you mean ‘gastric’\?$/],
  ])('of ‘%s’, and why', (name, withheld, why) => {
    const worksheet = made(fenced(block), { name });
    expect(worksheet).toMatchObject({ ok: false, withheld });
    expect(reason(worksheet)).toMatch(why);
  });
});

describe('the mixture at the cursor', () => {
  const source = `# A note

> \`\`\`infusion
> mixture bag "Bag"
>   1 L sodium chloride 0.9%
>
> patient adult
>   weight 70 kg
> give bag at 60 mL/h
> \`\`\`
`;
  const at = (text: string) => made(source, { offset: source.indexOf(text) });

  it.each(['> mixture', 'mixture', '"Bag"', '>   1 L', 'chloride', '> give bag', '60 mL/h'])(
    'is found at ‘%s’',
    (text) => {
      expect(at(text)).toMatchObject({ ok: true, sheet: { title: 'Worksheet: Bag' } });
    },
  );

  it.each(['# A note', 'patient', 'weight', '```infusion'])('is none at ‘%s’', (text) => {
    expect(reason(at(text))).toBe('there is no mixture at the cursor; put it on a line of one');
  });

  it('is found with CR LF, and nowhere outside the note', () => {
    const windows = source.replaceAll('\n', '\r\n');
    expect(made(windows, { offset: windows.indexOf('chloride') }).ok).toBe(true);
    for (const offset of [-1, 1e9]) expect(made(source, { offset }).ok).toBe(false);
  });
});

describe('a hostile note', () => {
  const titles = [
    '<script>alert(1)</script> & <img src=x onerror=y>',
    '[x](javascript:alert) ![y](http://a.example/b.png) www.c.example d@e.example',
    '| a | **b** `c` ~~d~~ # _e_ $f$ \\',
    '1. one 2) two - three',
    '</title><style>',
  ];

  it.each(titles)('%s stays text in both media', (title) => {
    const block = `mixture bag "${title}"\n  1 L water\n  5 mL "${title}" by volume\n  200 mL water\n  accept volume-added because "${title}"`;
    const of = sheet(block, 'bag', { path: `notes/${title}.md` });
    const markdown = worksheetMarkdown(of);
    const kinds = new Set<string>();
    marked.walkTokens(marked.lexer(markdown), ({ type }) => void kinds.add(type));
    for (const kind of ['link', 'image', 'html', 'em', 'del', 'codespan', 'code']) expect(kinds).not.toContain(kind);
    expect(markdown.split('\n')[0]).toMatch(/^# Worksheet: /);
    for (const table of marked.lexer(markdown).filter((token): token is Tokens.Table => token.type === 'table'))
      for (const row of table.rows) expect(row).toHaveLength(table.header.length);

    const html = worksheetHtml(of);
    expect(html).not.toMatch(/<(script|img)|href=/);
    const tags = new Set([...html.matchAll(/<\/?([a-z0-9]+)/gi)].map(([, tag]) => tag));
    expect([...tags].sort()).toEqual(
      [
        'body',
        'h1',
        'h2',
        'head',
        'html',
        'li',
        'main',
        'meta',
        'p',
        'span',
        'strong',
        'style',
        'table',
        'tbody',
        'td',
        'th',
        'thead',
        'title',
        'tr',
        'ul',
      ].filter((tag) => tag !== 'strong' || html.includes('<strong>')),
    );
  });
});

it('is the same each time: no clock stands in it', () => {
  expect(worksheetMarkdown(sheet(ALL_STEPS, 'all'))).toBe(worksheetMarkdown(sheet(ALL_STEPS, 'all')));
  expect(worksheetMarkdown(sheet(ALL_STEPS, 'all'))).not.toMatch(/\d\d:\d\d/);
});
