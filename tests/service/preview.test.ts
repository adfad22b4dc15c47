/** The figures of a note as data: what they are made from, before they are drawn. */
import { describe, expect, it } from 'vitest';
import { defaultLimits } from '../../src/engine/index.ts';
import { figuresOf, previewOf } from '../../src/service/index.ts';
import type { Figure } from '../../src/text/figures.ts';
import { fenced } from '../annotated.ts';

function figure<K extends Figure['kind']>(kind: K, block: string): Extract<Figure, { kind: K }> | null {
  const found = figuresOf(fenced(block)).find(({ figure }) => figure.kind === kind);
  return (found?.figure as Extract<Figure, { kind: K }> | undefined) ?? null;
}

const limit = (id: string) => defaultLimits(null).get(id)!.value.toNumber();

describe('ion columns', () => {
  it('hold mEq/L, calcium and magnesium by their two charges', () => {
    // Label of lactated Ringer's: sodium 130, potassium 4, calcium 2.7, chloride 109, lactate 28 mEq/L.
    const { liquid } = figure('ion-columns', "mixture bag\n  1 L lactated Ringer's")!;
    const told = [...liquid.cations, ...liquid.anions].map(({ name, mEq }) => [name, Math.round(mEq)]);
    expect(Object.fromEntries(told)).toMatchObject({
      sodium: 130,
      potassium: 4,
      calcium: 3,
      chloride: 109,
      lactate: 28,
    });
  });

  it('have plasma beside them in which charges meet', () => {
    const { plasma, sentence } = figure('ion-columns', 'mixture bag\n  1 L sodium chloride 0.9%')!;
    const sum = (shares: typeof plasma.cations) => shares.reduce((all, { mEq }) => all + mEq, 0);
    expect(sum(plasma.cations)).toBe(sum(plasma.anions));
    expect(sentence).toContain('cations sodium 154; anions chloride 154. In plasma, about: cations sodium 142');
  });

  it('are left out where there is no ion', () => {
    expect(figure('ion-columns', 'mixture bag\n  1 L dextrose 5%')).toBeNull();
  });
});

describe('vessels', () => {
  it('follow each step: added, withdrawn, exchanged, made up', () => {
    const { steps, sentence } = figure(
      'vessels',
      'mixture bag\n  1 L sodium chloride 0.9%\n  withdraw 100 mL\n  exchange 200 mL for water\n  5 g dextrose\n  water to 1 L',
    )!;
    expect(steps.map(({ added, withdrawn }) => [added?.name ?? null, withdrawn])).toEqual([
      ['sodium chloride 0.9%', 0],
      [null, 100],
      ['water', 200],
      ['5 g dextrose', 0],
      ['water', 0],
    ]);
    expect(steps[1]!.volume).toBe(900);
    // 308 mOsm/L × 700 ÷ 900 = 240 mOsm/L.
    expect(steps[2]!.osmolarity).toBeCloseTo(239.6, 0);
    expect(sentence).toContain('Step 2: 100 mL withdrawn; then 900 mL of 308 mOsm/L.');
  });
});

describe('where it goes', () => {
  const give = (fluid: string, route = 'peripheral vein') =>
    figure('where-it-goes', `give 1 L ${fluid} over 8 h by ${route} as drip`);

  it('is the rule of textbooks, with basins as the body’s own water lies', () => {
    const { water, arrives, before } = give('dextrose 5%')!;
    // 667, 250 and 83 mL of a litre.
    expect([arrives.cells, arrives.interstitium, arrives.plasma].map(Math.round)).toEqual([667, 250, 83]);
    expect(arrives).toEqual(water);
    expect(before!.plasma).toBeGreaterThan(arrives.plasma);
  });

  it('is below zero where water is drawn, and not drawn outside the blood or for colloids', () => {
    expect(give('sodium chloride 3%', 'central vein')!.arrives.cells).toBeLessThan(0);
    expect(give('sodium chloride 0.9%', 'bladder irrigation')).toBeNull();
  });
});

describe('the course of the serum sodium', () => {
  const course = (sodium: number, more = '') =>
    figure(
      'sodium-course',
      `patient adult\n  weight 60 kg\n  height 170 cm\n  age 41 y\n  sex male\n  serum sodium ${sodium} mmol/L\n${more}give 1 L sodium chloride 0.9% over 24 h by peripheral vein to adult as drip\ngive 1 L dextrose 5% over 8 h by peripheral vein to adult as sugar-water`,
    );

  it('begins where it was measured and has every order of the patient, once', () => {
    const { points, orders } = course(112)!;
    expect(points[0]).toMatchObject({ hour: 0, sodium: 112 });
    expect(orders).toEqual([
      { name: 'drip', runs: [[0, 24]] },
      { name: 'sugar-water', runs: [[0, 8]] },
    ]);
  });

  it('has the limits that the findings have', () => {
    const steps = (sodium: number, more?: string) =>
      course(sodium, more)!.limit.map(({ until, sodium: at }) => [until, at]);
    expect(steps(112)).toEqual([
      [24, 112 + limit('sodium-rise-day')],
      [48, 112 + limit('sodium-rise-two-days')],
    ]);
    expect(steps(104)).toEqual([[24, 104 + limit('sodium-rise-high-risk')]]);
    expect(steps(160)).toEqual([[24, 160 - limit('sodium-fall-adult-day')]]);
    expect(steps(140)).toEqual([]);
  });

  it('is not drawn where nothing can be predicted', () => {
    expect(
      figure(
        'sodium-course',
        'patient adult\n  weight 60 kg\n\ngive 1 L sodium chloride 0.9% over 24 h by peripheral vein to adult',
      ),
    ).toBeNull();
  });
});

describe('any note', () => {
  it('has a preview, and its figures names for files', () => {
    for (const note of [
      '',
      'text',
      '```infusion',
      '```infusion\nmixture',
      '```infusion\ngive\n```',
      '\uFEFF```infusion\n1 L',
    ])
      expect(() => previewOf(note)).not.toThrow();
    const names = figuresOf(fenced('mixture a "../Ä b/c"\n  1 L water')).map(({ name }) => name);
    expect(names).toEqual(['01-b-c-vessels', '02-b-c-bag-and-body']);
  });
});
