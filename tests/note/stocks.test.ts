/** A stock is its label: what it states counts once, is held against itself, and is withheld whole when a line is wrong. */
import { describe, expect, it } from 'vitest';
import { createNoteService } from '../../src/service/index.ts';
import { reportOf } from '../../src/service/report.ts';
import { fenced, findings, found, mixturesOf } from '../annotated.ts';

/** Lactated Ringer's, the label of its USP monograph: 130/4/2.7/109/28 mEq/L. */
const RINGER = ['sodium 130', 'potassium 4', 'calcium 2.7', 'chloride 109', 'lactate 28'];

function stock(...lines: readonly string[]): string {
  return `stock ward\n${lines.map((line) => `  ${line}`).join('\n')}`;
}

function inMEq(...lines: readonly string[]): string {
  return stock(...lines.map((line) => `${line} mEq/L`));
}

describe('the charges of a label', () => {
  it('of lactated Ringer’s meet within its digits: 136.7 of cations, 137 of anions', () => {
    expect(found(fenced(inMEq(...RINGER)))).toEqual([]);
  });

  it('do not at 130/4/3/109/38, and the finding tells both sums, what parts them and what the digits allow', () => {
    const [finding] = findings(fenced(inMEq('sodium 130', 'potassium 4', 'calcium 3', 'chloride 109', 'lactate 38')));
    expect(finding?.code).toBe('charge-imbalance');
    // By hand: 130 + 4 + 3 and 109 + 38; half a mEq for each of five figures.
    for (const figure of ['137 mEq/L of cations', '147 mEq/L of anions', '10 mEq/L apart', 'leave 2.5 mEq/L open'])
      expect(finding?.message).toContain(figure);
  });

  it('may be closed by other ions, whose own digits count, and are named when they do not close them', () => {
    expect(found(fenced(inMEq('sodium 154.0', 'chloride 130.6', 'other ions 24')))).toEqual([]);
    const [finding] = findings(fenced(inMEq('sodium 154', 'chloride 100', 'other ions 5')));
    expect(finding?.message).toContain('With 5 mEq/L of other anions they are 49 mEq/L apart');
  });

  it('are exact in fractions', () => {
    expect(found(fenced(inMEq('sodium 1/2', 'chloride 1/4')))).toEqual(['charge-imbalance: ward']);
  });

  it('are closed by albumin and amino acids, and by no drug of the note’s own', () => {
    expect(found(fenced(stock('albumin 5 %', 'sodium 145 mmol/L')))).toEqual([]);
    expect(found(fenced(stock('amino acids 10 %', 'sodium 70 mmol/L', 'acetate 10 mmol/L')))).toEqual([]);
    const drug = `${stock('heparin-x 5 mg/mL', 'sodium 154 mmol/L', 'chloride 10 mmol/L')}\nsubstance heparin-x`;
    expect(found(fenced(drug))).toEqual(['charge-imbalance: ward']);
  });
});

describe('what a label leaves out', () => {
  it('is not known: chloride beside albumin, as of the built-in solution', () => {
    const chloride = 'claim ward chloride 145 mmol/L';
    expect(found(fenced(`${stock('albumin 5 %', 'sodium 145 mmol/L')}\n${chloride}`))).toEqual([
      'not-known: 145 mmol/L',
    ]);
    expect(found(fenced('claim albumin 5% chloride 145 mmol/L'))).toEqual(['not-known: 145 mmol/L']);
  });

  it('keeps back a strong ion difference that rests on other ions', () => {
    const block = `${inMEq('sodium 154', 'chloride 100', 'other ions 54')}\nclaim ward strong ion difference 54 mEq/L`;
    const [finding] = findings(fenced(block));
    expect(finding?.code).toBe('not-known');
    expect(finding?.message).toContain('rests on other ions');
  });
});

describe('a label that prints its salts and their ions', () => {
  it('counts them once', () => {
    // Sodium chloride injection 0.9 %, USP label: 154 mEq/L of each ion, 308 mOsm/L.
    const block = stock('sodium chloride 0.9 %', 'sodium 154 mEq/L', 'chloride 154 mEq/L', 'osmolarity 308 mOsm/L');
    expect(found(fenced(`${block}\nclaim ward sodium 154 mmol/L`))).toEqual([]);
  });

  it('is held to what its salts give', () => {
    expect(found(fenced(stock('sodium 145 mEq/L', 'sodium chloride 0.9 %')))).toEqual(['claim-mismatch: 145 mEq/L']);
  });
});

describe('a stock beside a built-in fluid', () => {
  it('written from the label of lactated Ringer’s comes to the same osmolarity and tonicity', () => {
    // The label: 273 mOsm/L, calculated; from its own rounded ions 272.35.
    const block = `${inMEq(...RINGER)}
claim ward osmolarity 273 mOsm/L within 0.5 %
claim lactated Ringer's osmolarity 273 mOsm/L within 0.5 %
claim ward tonicity in the bag isotonic
claim lactated Ringer's tonicity in the bag isotonic`;
    expect(found(fenced(block))).toEqual([]);
  });
});

describe('tolerances of a label', () => {
  const LIMITS = stock('sodium 130 mmol/L ± 5 %', 'chloride 130 mmol/L');

  it('of one ion alone leave it its whole range: 123.5 to 136.5 mmol/L by hand', () => {
    expect(found(fenced(`${LIMITS}\nclaim ward sodium 136.5 mmol/L\nclaim ward sodium 123.5 mmol/L`))).toEqual([]);
    expect(found(fenced(`${LIMITS}\nclaim ward sodium 138 mmol/L within 0 %`))).toEqual(['claim-mismatch: 138 mmol/L']);
    expect(mixturesOf(LIMITS).get('ward')?.extremes).toHaveLength(2);
  });

  it('count in its own checks', () => {
    // 253.5 to 266.5 mOsm/L.
    expect(found(fenced(`${LIMITS}\n  osmolarity 266 mOsm/L`))).toEqual([]);
    expect(found(fenced(`${LIMITS}\n  osmolarity 268 mOsm/L`))).toEqual(['nominal-claim: 268 mOsm/L']);
  });

  it('are followed to a bound, and that is said', () => {
    // 8 + 1 mEq/L of cations, 1 + 1 + 1 + 1 + 3 + 2 of anions; eight ions and the container.
    const ions = ['potassium', 'chloride', 'lactate', 'acetate', 'gluconate', 'citrate', 'sulfate'];
    const lines = ['sodium 8', ...ions.map((ion) => `${ion} 1`)].map((line) => `${line} mmol/L ± 1 %`);
    expect(found(fenced(stock(...lines)))).toEqual([]);
    expect(found(fenced(stock(...lines, 'container 1 L ± 1 %')))).toEqual(['over-limit: ward']);
  });
});

describe('a wrong line', () => {
  const GOOD = ['sodium 5 mmol/L', 'chloride 5 mmol/L'];
  const MADE = '\nmixture bag\n  1 L ward\n  claim sodium 99 mmol/L';

  it.each([
    ['1 L sodium chloride 0.9%', 'syntax: 1 L sodium chloride 0.9%'],
    ['target sodium 5 mmol/L', 'syntax: target sodium 5 mmol/L'],
    ['gives sodium 1, chloride 1', 'syntax: gives sodium 1, chloride 1'],
    ['stir gently', 'syntax: stir gently'],
    ['free water', 'syntax: free water'],
    ['weight 5 kg', 'unknown-observable: weight'],
    ['potassium 9 g/L', 'wrong-dimension: 9 g/L'],
    ['lactate -5 mmol/L', 'syntax: -5 mmol/L'],
    ['mannitol -5 %', 'syntax: -5 %'],
    ['albumin -5 %', 'syntax: -5 %'],
    ['sodium 5 mmol/L', 'syntax: sodium'],
    ['container 0 mL', 'syntax: 0 mL'],
    ['container 5 mmol', 'wrong-dimension: 5 mmol'],
    ['other ions 5 mmol/L', 'wrong-dimension: 5 mmol/L'],
    ['mannitol 60 %', 'impossible-concentration: 60 %'],
    ['dextrose 200 %', 'no-water: 200 %'],
  ])('%s withholds the stock and what is made from it, once', (line, finding) => {
    const block = stock(...GOOD, line) + MADE;
    expect(found(fenced(block))).toEqual([finding]);
    expect([...mixturesOf(block).values()].map(({ state }) => state)).toEqual(['incomplete', 'incomplete']);
  });

  it('that only checks withholds nothing', () => {
    const block = `${stock(...GOOD, 'osmolarity 20 mOsm/L')}\nmixture bag\n  1 L ward`;
    expect(found(fenced(block))).toEqual(['claim-mismatch: 20 mOsm/L']);
    expect(mixturesOf(block).get('bag')?.state).toBe('complete');
  });

  it('is missing where the label states nothing', () => {
    expect(found(fenced(stock('container 500 mL') + MADE))).toEqual(['syntax: ward']);
  });
});

describe('a stock in the editor and in reports', () => {
  const BLOCK = `${stock('dextrose 5 %', 'sodium 77 mmol/L', 'chloride 77 mmol/L', 'osmolarity 406 mOsm/L')}\nmixture bag\n  2 x ward`;
  const source = fenced(BLOCK);
  const card = (words: string) =>
    createNoteService()
      .work('note', source)
      .hover(source.indexOf(words) + 1)?.markdown ?? '';

  it('has a card on its ions, on its checks and on its name, which says what was assumed', () => {
    expect(card('sodium 77')).toContain('Molar mass 22.99 g/mol');
    // Dextrose 5 % in sodium chloride 0.45 %, USP label: 406 mOsm/L.
    expect(card('osmolarity')).toContain('The claim holds');
    expect(card('ward')).toContain('dextrose as dextrose monohydrate');
  });

  it('is a recipe of a litre, and no mixture of the report', () => {
    const { mixtures } = reportOf(source);
    expect(mixtures.map(({ name, volume }) => [name, volume?.value])).toEqual([['bag', '2000']]);
  });
});
