/** Results under other figures: each row is what the note would say with that figure written. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_REFERENCE } from '../../src/engine/index.ts';
import { rowLabel, whatIfTable } from '../../src/service/cards/what-if-card.ts';
import { runs } from '../runs.ts';
import { faultsIn, shown, worked } from './orders/bedside.ts';

const ALKALINE = 'mixture alkaline\n  1 L dextrose 5%\n  3 x 50 mL sodium bicarbonate 8.4%\n';
const ADULT = 'patient adult\n  weight 70 kg\n  height 175 cm\n  age 40 y\n  sex male\n  serum sodium 120 mmol/L\n';
const DRIP = 'give 1 L sodium chloride 3% over 10 h by central vein to adult as drip\n';

/** The only table of a block, its head first. */
function table(block: string): readonly (readonly string[])[] {
  const { whatIfs } = worked(block);
  expect(whatIfs).toHaveLength(1);
  const tree = whatIfTable(whatIfs[0]!, DEFAULT_REFERENCE);
  if (tree.kind !== 'table') throw new Error('no table');
  return [tree.columns.map(({ title }) => title), ...tree.rows];
}

describe('a patient of another weight', () => {
  it('has the maintenance rate of that weight', () => {
    // Four, two and one mL/kg/h (Holliday and Segar 1957): 4 x 10 + 2 x 10 + 1 x 20, 50, 80.
    expect(table(`${ADULT}  what if weight 40 kg, 70 kg or 100 kg show maintenance rate`)).toEqual([
      ['', 'maintenance rate, mL/h'],
      ['40 kg', '80'],
      ['70 kg (as written)', '110'],
      ['100 kg', '140'],
    ]);
  });

  it('has the predictions of that weight, by the orders that stand', () => {
    fc.assert(
      fc.property(fc.integer({ min: 30, max: 150 }), (weight) => {
        const rewritten = ADULT.replace('70 kg', `${weight} kg`);
        const [said] = shown(`${rewritten}${DRIP}  show adult body water, drip predicted sodium`);
        const [, ...rows] = table(
          `${ADULT}${DRIP}what if adult weight ${weight} kg show body water, drip predicted sodium`,
        );
        const row = rows.at(-1)!;
        expect(said).toBe(`body water ${row[1]} L, predicted sodium ${row[2]} mmol/L (missed by 4.8 to 6.4)`);
      }),
      runs(25),
    );
  });

  it('is told of a figure that is not written as well', () => {
    expect(table('patient adult\n  age 40 y\nwhat if adult weight 40 kg show maintenance rate')).toEqual([
      ['', 'maintenance rate, mL/h'],
      ['no weight (as written)', 'weight is not written'],
      ['40 kg', '80'],
    ]);
  });

  it('takes a figure by each of its names', () => {
    const rows = table(`${ADULT}  what if length 1.75 m show body water`);
    expect(rows.map(([label]) => label)).toEqual(['', '1.75 m (as written)']);
  });
});

describe('a mixture from which is withdrawn', () => {
  it('holds the same salt in less', () => {
    // 150 mmol in 1150 mL and, since dextrose 5 % has none, in 1000 mL.
    expect(table(`${ALKALINE}  what if withdraw 150 mL show volume, sodium`)).toEqual([
      ['', 'volume, mL', 'sodium, mmol/L'],
      ['nothing withdrawn (as written)', '1150', '130'],
      ['150 mL withdrawn', '1000', '150'],
    ]);
  });

  it('is what it is with the line written after the first step', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), (volume) => {
        const rewritten = ALKALINE.replace('5%\n', `5%\n  withdraw ${volume} mL\n`);
        const [said] = shown(`${rewritten}  show volume, sodium, osmolarity`);
        const row = table(`${ALKALINE}  what if withdraw ${volume} mL show volume, sodium, osmolarity`).at(-1)!;
        expect(said).toBe(`volume ${row[1]} mL, sodium ${row[2]} mmol/L, osmolarity ${row[3]} mOsm/L`);
      }),
      runs(40),
    );
  });

  it('takes the place of what it withdraws already', () => {
    const block = `${ALKALINE.replace('5%\n', '5%\n  withdraw 150 mL\n')}  what if withdraw 0 mL, 0.15 L show volume`;
    expect(table(block).slice(1)).toEqual([
      ['nothing withdrawn', '1150'],
      ['0.15 L withdrawn (as written)', '1000'],
    ]);
  });

  it('passes on to what is made from it, and leaves the note as it is', () => {
    const block = `${ALKALINE}mixture half\n  500 mL alkaline\n  water to 1 L\nwhat if alkaline withdraw 150 mL show half sodium`;
    expect(
      table(block)
        .slice(1)
        .map(([, sodium]) => sodium),
    ).toEqual(['65.2', '75']);
    expect(shown(`${block}\nmixture more\n  show half sodium`)).toEqual(['65.2 mmol/L']);
  });

  it('says in its row why there are no results', () => {
    const [, , row] = table(`${ALKALINE}  what if withdraw 1500 mL show volume, sodium`);
    expect(row).toEqual([
      '1500 mL withdrawn: no results. 1500 mL is to be taken out. At this step the mixture holds 1000 mL.',
      '–',
      '–',
    ]);
    expect(faultsIn(`${ALKALINE}  what if withdraw 1500 mL show volume, sodium`)).toEqual([]);
  });
});

describe('an order at another rate or over another time', () => {
  it('is told like the order with that figure', () => {
    expect(table(`${ADULT}${DRIP}  what if over 5 h or 600 min show rate`)).toEqual([
      ['', 'rate, mL/h'],
      ['5 h', '200'],
      ['600 min (as written)', '100'],
    ]);
    const rate = 'give 1 L dextrose 5% at 100 mL/h as slow\nwhat if slow at 50 mL/h show duration';
    expect(table(rate).slice(1)).toEqual([
      ['100 mL/h (as written)', '10'],
      ['50 mL/h', '20'],
    ]);
  });

  it('says so where the figures then contradict each other', () => {
    const [, , row] = table(`${ADULT}${DRIP}  what if at 50 mL/h show rate`);
    expect(row![0]).toMatch(/^50 mL\/h: no results\. 1000 mL at 50 mL\/h over 10 h was read\./);
  });
});

describe('what cannot be read', () => {
  it.each([
    ['what if bob weight 40 kg show sodium', 'unknown-name: bob'],
    ['what if adult wight 40 kg show body water', 'misplaced: adult wight'],
    ['what if alkaline weight 40 kg show sodium', 'misplaced: weight'],
    ['what if weight 40 kg show sodium', 'misplaced: weight'],
    ['what if adult weight 40 mL show body water', 'wrong-dimension: 40 mL'],
    ['what if adult weight 40 kg show sodium', 'not-of-this: sodium'],
    ['what if adult weight 40 kg show wetness', 'unknown-observable: wetness'],
    ['what if adult urine 40 mL/h show body water', 'misplaced: adult urine'],
    ['what if drip over 5 kg show rate', 'wrong-dimension: 5 kg'],
    ['what if twice withdraw 10 mL show volume', 'misplaced: withdraw'],
    ['what if adult weight 1 kg, 2 kg, 3 kg, 4 kg, 5 kg, 6 kg, 7 kg, 8 kg, 9 kg show body water', 'over-limit: 9 kg'],
  ])('%s is said once and withholds nothing else', (line, fault) => {
    const twice = 'mixture twice\n  1 L water\n  withdraw 10 mL\n  withdraw 20 mL\n';
    const block = `${ALKALINE}${ADULT}${DRIP}${twice}compare water by sodium\n${line}`;
    expect(faultsIn(block)).toEqual([fault]);
    const { mixtures, patients, orders, whatIfs } = worked(block);
    expect(whatIfs).toEqual([]);
    expect([...mixtures, ...patients, ...orders].filter(({ state }) => state !== 'complete')).toEqual([]);
  });

  it('is told where it comes from, once, when what is asked about is withheld', () => {
    const block = 'mixture broken\n  1 L sodum chloride 0.9%\n  what if withdraw 10 mL show volume';
    expect(faultsIn(block)).toEqual(['unknown-name: sodum chloride']);
    expect(worked(block).whatIfs).toEqual([]);
  });

  it('is bounded in a note', () => {
    const block = `${ALKALINE}${'  what if withdraw 10 mL show volume\n'.repeat(25)}`;
    expect(worked(block).whatIfs).toHaveLength(20);
    expect(faultsIn(block)).toEqual(['over-limit: what if withdraw 10 mL show volume']);
  });
});

it('names the rows of a patient, a mixture and an order apart', () => {
  const [whatIf] = worked(`${ALKALINE}  what if withdraw 150 mL show volume`).whatIfs;
  expect(whatIf!.rows.map((row) => rowLabel(whatIf!, row))).toEqual([
    'nothing withdrawn (as written)',
    '150 mL withdrawn',
  ]);
});
