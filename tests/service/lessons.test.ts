/** Questions whose answer is folded away, and tables of what if. No source: our own design. */
import { describe, expect, it } from 'vitest';
import { html } from '../../src/render/index.ts';
import { createNoteService, figuresOf, previewOf, reportOf } from '../../src/service/index.ts';
import type { Tree } from '../../src/text/tree.ts';
import { fenced } from '../annotated.ts';

const ALKALINE = `mixture alkaline "Bicarbonate in dextrose"
  1 L dextrose 5%
  3 x 50 mL sodium bicarbonate 8.4%
  ask "How much sodium is in a litre?" show sodium, volume`;

const cards = (block: string) => previewOf(fenced(block)).flatMap((shown) => shown.cards);
const kinds = (card: readonly Tree[]) => card.map(({ kind }) => kind);

/** What of a card is told before anything is unfolded. */
function inSight(card: readonly Tree[]): string {
  const open = card.map((tree) => (tree.kind === 'folded' ? { ...tree, body: [] } : tree));
  return html(open, { level: 2, id: 'x' });
}

function results(block: string) {
  const source = fenced(block);
  return createNoteService().work('file:///a.md', source).results({ start: 0, end: source.length });
}

describe('a question', () => {
  it('gives nothing of the card away in the preview but what is to be looked at', () => {
    const [card] = cards(ALKALINE);
    expect(kinds(card!)).toEqual(['heading', 'finding', 'finding', 'folded', 'folded']);
    const seen = inSight(card!);
    expect(seen).toContain('How much sodium is in a litre?');
    expect(seen).not.toMatch(/sodium 130|130\u00A0mmol/);
    const whole = html(card!, { level: 2, id: 'x' });
    expect(whole).toContain('<li>alkaline: sodium 130\u00A0mmol/L</li>');
    expect(whole.match(/<details class="meniscus-answer">/g)).toHaveLength(2);
  });

  it('keeps accepted findings with the answer', () => {
    const accepted = ALKALINE.replace('8.4%\n', '8.4%\n  accept volume-added because "asked"\n');
    expect(inSight(cards(accepted)[0]!)).not.toContain('Accepted');
    expect(html(cards(accepted)[0]!, { level: 2, id: 'x' })).toContain('Accepted');
  });

  it('gives nothing away at the ends of lines, and its answer when it is pointed at', () => {
    expect(results(ALKALINE).map(({ text, tooltip }) => [text, tooltip])).toEqual([
      ['results folded away: asked below', null],
      ['answer folded away', 'sodium 130 mmol/L, volume 1150 mL'],
    ]);
    const order = 'give 1 L dextrose 5% over 8 h as sweet\n  ask "How fast?" show rate';
    expect(results(order).map(({ text }) => text)).toEqual(['results folded away: asked below', 'answer folded away']);
    const source = fenced(ALKALINE);
    const hover = createNoteService().work('file:///a.md', source).hover(source.indexOf('How much'));
    expect(hover?.markdown).toMatch(/How much sodium is in a litre\?[\s\S]*sodium 130 mmol\/L/);
  });

  it('leaves other mixtures, and what is shown besides, in sight', () => {
    const block = `${ALKALINE}\n  show osmolarity\nmixture plain\n  1 L sodium chloride 0.9%`;
    expect(results(block).map(({ text }) => text)).toEqual([
      'results folded away: asked below',
      'answer folded away',
      '= 480 mOsm/L',
      '= 1000 mL, sodium 154 mmol/L, isotonic',
    ]);
    expect(kinds(cards(block)[1]!)).not.toContain('folded answer');
    expect(inSight(cards(block)[1]!)).toContain('154');
  });

  it('may stand by itself, naming what it is about', () => {
    const [, loose] = cards(
      `mixture plain\n  1 L sodium chloride 0.9%\ncompare plain by sodium\nask "How much?" show plain sodium`,
    ).slice(-3);
    expect(loose).toEqual([
      {
        kind: 'folded',
        title: 'How much?',
        body: [{ kind: 'list', items: [[{ text: 'plain: sodium 154 mmol/L' }]] }],
        answer: true,
      },
    ]);
  });

  it('withholds no result that is withheld already', () => {
    const broken = ALKALINE.replace('dextrose 5%', 'dextrse 5%');
    expect(results(broken).map(({ text }) => text)).toEqual(['no results until line 3 is mended']);
  });

  it('is told with its answer in the report, for whoever wrote it', () => {
    expect(reportOf(fenced(ALKALINE)).shown).toEqual([
      { line: 4, text: '‘How much sodium is in a litre?’ alkaline: sodium 130 mmol/L, volume 1150 mL' },
    ]);
  });

  it('escapes what it is made of', () => {
    const hostile = ALKALINE.replace('How much sodium is in a litre?', '<script>alert(1)</script>');
    expect(html(cards(hostile)[0]!, { level: 2, id: 'x' })).toContain('&lt;script&gt;');
  });
});

describe('what if', () => {
  const block = `${ALKALINE.replace(/\n {2}ask.*/, '')}\nwhat if alkaline withdraw 150 mL show volume, sodium`;

  it('is a table with a caption in words, and vessels beside one another', () => {
    const card = cards(block).find((trees) => trees[0]?.kind === 'heading' && trees[0].text === 'What if')!;
    const whole = html(card, { level: 2, id: 'x' });
    expect(whole).toContain(
      '<caption>alkaline with 150\u00A0mL withdrawn after the first step. All else is as written, and each row is worked out anew.</caption>',
    );
    const figure = figuresOf(fenced(block)).find(({ name }) => name.includes('what-if'))!.figure;
    expect(figure).toMatchObject({
      kind: 'vessels',
      sentence: 'nothing withdrawn (as written): 1150 mL of 480 mOsm/L. 150 mL withdrawn: 1000 mL of 514 mOsm/L.',
      steps: [{ volume: 1150 }, { volume: 1000 }],
    });
  });

  it('is the card of its line', () => {
    const source = fenced(block);
    const hover = createNoteService().work('file:///a.md', source).hover(source.indexOf('what if'));
    expect(hover?.markdown).toMatch(/alkaline with 150 mL withdrawn[\s\S]*\| 150 mL withdrawn \| 1000 \|/);
  });

  it('stands among the tables of the report', () => {
    expect(reportOf(fenced(`compare water by sodium\n${block}`)).tables.map(({ line }) => line)).toEqual([1, 5]);
  });

  it('says how far predictions have been off', () => {
    const text = html(
      cards(
        'patient adult\n  weight 70 kg\n  age 40 y\n  sex male\n  height 175 cm\n  serum sodium 120 mmol/L\ngive 1 L water over 8 h to adult\nwhat if adult weight 40 kg show predicted sodium',
      ).at(-2)!,
      { level: 2, id: 'x' },
    );
    expect(text).toMatch(/missed by 4\.8\sto 6\.4\smmol\/L: measure\./);
  });
});

describe('figures of lessons', () => {
  const figure = (kind: string, block: string) =>
    figuresOf(fenced(block)).find((found) => found.figure.kind === kind)?.figure ?? null;

  it('one bag has two labels where two claims count its sugar in two forms', () => {
    // 15 g ÷ 198.17 g/mol = 75.7 mmol, which are 13.64 g of the anhydrous sugar (180.16 g/mol).
    const sugar = 'mixture sugar\n  15 g dextrose\n  water to 1 L\n  claim dextrose 1.5 %\n';
    expect(figure('two-labels', `${sugar}  claim glucose 1.36 %`)).toMatchObject({
      labels: [
        { text: 'dextrose 1.5 %', form: 'dextrose monohydrate' },
        { text: 'glucose 1.36 %', form: 'glucose anhydrous' },
      ],
      same: 'the same 75.7 mmol/L in solution',
    });
    expect(figure('two-labels', `${sugar}  claim glucose 1.5 %`)).toBeNull();
    expect(figure('two-labels', `${sugar}  claim dextrose 15 g/L`)).toBeNull();
  });

  it('a litre of each goes where the simple rule says', () => {
    // Two thirds of free water into cells, a quarter of the rest stays in plasma: 667, 250, 83 and 0, 750, 250 mL.
    const litres = figure('litres', 'compare dextrose 5%, sodium chloride 0.9%, mannitol 20% by sodium, free water');
    expect(litres).toMatchObject({ rows: [{ name: 'dextrose 5 %' }, { name: 'sodium chloride 0.9 %' }] });
    const goes = (litres as Extract<typeof litres, { kind: 'litres' }>).rows.map((row) =>
      [row.goes.cells, row.goes.interstitium, row.goes.plasma].map(Math.round),
    );
    expect(goes[0]).toEqual([667, 250, 83]);
    expect(goes[1]!.map((share) => share + 0)).toEqual([0, 750, 250]);
    expect(litres!.sentence).toContain('mannitol 20 %: the rule does not hold for it.');
    expect(figure('litres', 'compare dextrose 5%, sodium chloride 0.9% by sodium')).toBeNull();
  });
});
