import { describe, expect, it } from 'vitest';
import { createNoteService, reportOf } from '../../src/service/index.ts';
import { fenced } from '../annotated.ts';

const WARD = `mixture gastric "Gastric replacement"
  1 L sodium chloride 0.9%
  10 mL potassium chloride 2 mmol/mL
substance norepinephrine
mixture pressor
  4 mg norepinephrine
  dextrose 5% to 250 mL
patient adult "Bed 4"
  weight 70 kg
  height 175 cm
  age 40 y
  sex male
  serum sodium 134 mmol/L
  serum bicarbonate 10 mmol/L
  burn 20 % of body surface
  urine 40 mL/h
  loss drain 20 mL/h sodium 100 mmol/L
patient child
  weight 20 kg
  age 6 y
patient newborn
  weight 3 kg
  age 2 d
give gastric at 60 mL/h for 16 h by peripheral vein to adult as replacement
give pressor at 0.1 mcg/kg/min of norepinephrine by central vein to adult as drip
give 1 L sodium chloride 0.9% over 12 h through the dialysis circuit
give 500 mL sodium chloride 3% over 24 h by peripheral vein to adult as strong
give 2 L haemofilter "unread"
give dextrose 5% in sodium chloride 0.9% at 30 mL/h by peripheral vein to child as slow
give 100 mL mannitol 20% over 1 h by central vein to child as osmotic`;

function card(word: string, block = WARD): string {
  const source = fenced(block);
  const note = createNoteService().work('file:///a.md', source);
  const markdown = note.hover(source.indexOf(word) + 1)?.markdown ?? '';
  return markdown.replaceAll('&#8199;', '').replaceAll('\\', '');
}

describe('the card of an order', () => {
  const text = card('give gastric');

  it('says what arrives per hour and in all', () => {
    expect(text).toContain('**replacement** · 960 mL over 16 h');
    expect(text).toContain('gastric at 60 mL/h by peripheral vein to ‘adult’.');
    expect(text).toContain('| sodium | 9.15 mmol | 146 mmol |');
    expect(text).toContain('Potassium 1.19 mmol/h = 0.017 mmol/kg/h.');
    expect(text).toContain('One bag of 1010 mL lasts 16.8 h, 1.43 bags a day.');
  });

  it('sets sodium and chloride beside what is usual', () => {
    expect(text).toMatch(
      /In the first 24 h sodium 2\.09 mmol\/kg and chloride 2\.36 mmol\/kg; usually about 1 mmol\/kg and 1 mmol\/kg \(/,
    );
  });

  // 9 g of sodium chloride by CIAAW atomic weights are 153.996 mmol, and 154 mmol/L are counted as isotonic.
  it('tells the trace of free water in 0.9 % saline as none, per hour, in all, in cells and in a show line', () => {
    const saline = `give 1 L sodium chloride 0.9% over 12 h through the dialysis circuit as rinse
give 960 mL sodium chloride 0.9% over 12 h by peripheral vein as drip
  show free water, cells`;
    expect(card('give 960', saline)).toContain('| electrolyte-free water | 0 mL | 0 mL |');
    expect(card('give 960', saline)).toContain('interstitium 720 mL, cells 0 mL.');
    expect(reportOf(fenced(saline)).shown.map(({ text: shown }) => shown)).toEqual([
      'drip: free water 0 mL, cells 0 mL',
    ]);
    const hypotonic = 'give 960 mL sodium chloride 0.45% over 12 h by peripheral vein as drip';
    expect(card('give', hypotonic)).toContain('| electrolyte-free water | 40 mL | 480 mL |');
  });

  it('says where it goes, and that the rule is a simple one', () => {
    expect(text).toContain('by the simple rule: plasma 259 mL, interstitium 777 mL, cells -76 mL.');
    expect(card('give dextrose 5%')).toContain('Before its dextrose is used:');
    expect(card('give 100 mL mannitol')).toContain('Where it goes is not told');
  });

  it('tells a prediction with the error of such predictions, and what is counted of losses', () => {
    expect(text).toMatch(/134 now, .* at 16 h|134 now, .* at 24 h/);
    expect(text).toContain('Such predictions missed by 4.79 to 6.37 mmol/L');
    expect(text).toContain('Counted as lost: drain.');
    expect(text).toContain('Left out, their sodium and potassium not being written: urine.');
    expect(text).toContain('A water diuresis can more than double a rise');
  });

  it('holds its strong ions against 24 mEq/L and this patient’s bicarbonate', () => {
    expect(text).toContain(
      'below 24 mEq/L, so it acidifies by dilution, and below this patient’s bicarbonate of 10 mmol/L',
    );
  });

  it('sets doses beside the rates that give them', () => {
    expect(card('give pressor')).toContain('| 0.1 mcg/kg/min | 26.2 mL/h |');
    expect(card('give pressor')).toContain('| 0.2 mcg/kg/min | 52.5 mL/h |');
  });

  it('warns of a leak by a peripheral vein', () => {
    expect(card('give 500 mL sodium chloride 3%')).toContain('it harms the tissue if it leaks');
    expect(text).not.toContain('leaks');
  });

  it('sets the rate of a child’s order beside 4-2-1', () => {
    expect(card('give dextrose 5%')).toContain('4-2-1 gives 60 mL/h at 20 kg; this order runs at 50 % of it.');
  });

  it('ends with what was taken and the caution', () => {
    expect(text.trimEnd().split('\n').at(-1)).toBe('*Check against local policy and the product label before use.*');
    expect(card('give pressor')).toContain('no amount is written: all of the recipe is given');
  });

  it('names the line in the way of an order that is withheld', () => {
    expect(card('give', 'give 500 mL sodum chloride 0.9% over 4 h')).toContain('Nothing is worked out until line 2');
  });
});

describe('the card of a patient', () => {
  const text = card('patient adult');

  it('says how the body water was estimated, and how far off that is', () => {
    // Watson's formula, American Journal of Clinical Nutrition 1980: 40.97 L, SD 3.76 L
    expect(text).toContain('Body water 41 L ± 3.8 L (Total body water volumes for adult males and females');
  });

  it('adds up what all orders bring in 24 h beside what is usual', () => {
    expect(text).toMatch(/\| volume \| 1710 mL \| 24.4 mL\/kg \| 1750 mL to 2100 mL \|/);
    expect(card('patient child')).toMatch(/\| volume \| 820 mL \| 41 mL\/kg \| 1500 mL \|/);
  });

  it('tells a bicarbonate deficit with the spaces that differ', () => {
    // 0.5 × 70 × (24 − 10): Garella's assumption of half of the weight
    expect(text).toContain('Bicarbonate deficit 490 mmol');
    expect(text).toContain('a space of 0.66 L/kg here');
  });

  it('tells what burn formulas begin with, and that urine output decides', () => {
    expect(text).toContain('Burn of 20 % of body surface: formulas begin at 2800 mL to 5600 mL in the first 24 h');
    expect(text).toContain('then by urine output');
  });

  it('guesses nothing of a newborn or of one whose age is not written', () => {
    expect(card('patient newborn', `${WARD}\ngive dextrose 10% at 9 mL/h by peripheral vein to newborn`)).toContain(
      'In the first 28 days no maintenance is told',
    );
    expect(card('patient plain', 'patient plain\n  weight 60 kg')).toContain(
      'Without an age nothing is said of what is usual.',
    );
    expect(card('patient plain', 'patient plain\n  age 60 y')).toContain('Without a weight nothing is told per kg.');
  });
});
