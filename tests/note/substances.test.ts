/** A substance of a note's own is worked with like a built-in one, or withheld whole with what is made from it. */
import { describe, expect, it } from 'vitest';
import { fenced, found, mixturesOf } from '../annotated.ts';

/** Findings but for what a fluid becomes in the body. */
function errors(block: string): readonly string[] {
  return found(fenced(block)).filter((finding) => !finding.startsWith('tonicity-falls'));
}

function substance(name: string, ...lines: readonly string[]): string {
  return [`substance ${name}`, ...lines.map((line) => `  ${line}`)].join('\n');
}

describe('ions that substances give', () => {
  it('of an ion with several charges are of the form that the others ask for', () => {
    // Sodium phosphates injection, USP label: 276 mg monobasic monohydrate (137.99 g/mol) and 142 mg dibasic anhydrous
    // (141.96 g/mol) in 1 mL give 3 mmol of phosphate and 4 mEq of sodium.
    const block = `${substance('monobasic-salt', 'molar mass 137.99 g/mol', 'gives sodium 1, phosphate 1')}
${substance('dibasic-salt', 'molar mass 141.96 g/mol', 'gives sodium 2, phosphate 1')}
stock phosphates
  monobasic-salt 276 mg/mL
  dibasic-salt 142 mg/mL
claim phosphates phosphate 3.00 mmol/mL
claim phosphates sodium 4.00 mEq/mL`;
    expect(errors(block)).toEqual([]);
  });

  it('of one name are one, whichever substance they come from', () => {
    const block = `${substance('soda-salt', 'gives sodium 2, thiosulfate 2- 1')}
${substance('potash-salt', 'gives potassium 2, thiosulfate 1')}
mixture bag
  1 L water
  10 mmol soda-salt
  10 mmol potash-salt
  claim thiosulfate 20 mmol
  claim thiosulfate 40 mEq
  claim osmolarity 60 mOsm/L`;
    expect(errors(block)).toEqual([]);
  });

  it.each([
    ['a charge that a built-in ion does not carry', ['gives sodium 2+ 1, chloride 2'], 'charge-imbalance: sodium'],
    [
      'no form that makes up for the others',
      ['gives calcium 1, magnesium 1, phosphate 1'],
      'charge-imbalance: phosphate',
    ],
    ['two charges that are not written', ['gives fooate 1, barate 1'], 'charge-imbalance: oddity'],
    ['a charge that is no whole number', ['gives sodium 1, fooate 2'], 'charge-imbalance: oddity'],
    ['charges that do not meet', ['gives sodium 1, fooate 2- 1'], 'charge-imbalance: oddity'],
    ['an ion twice', ['gives sodium 1, sodium 1, fooate 2- 1'], 'syntax: sodium'],
    ['the name of a result', ['gives sodium 1, osmolarity 1'], 'reserved-name: osmolarity'],
    ['the name of a solute', ['gives sodium 1, dextrose 1'], 'reserved-name: dextrose'],
    ['its own name', ['gives sodium 1, oddity 1'], 'reserved-name: oddity'],
    ['the name of a mixture', ['gives sodium 1, bag 1'], 'reserved-name: bag'],
  ])('are refused with %s', (_, lines, finding) => {
    const block = `${substance('oddity', 'molar mass 100 g/mol', ...lines)}\nmixture bag\n  1 g oddity in 1 L water`;
    expect(errors(block)).toEqual([finding]);
    expect(mixturesOf(block).get('bag')?.state).toBe('incomplete');
  });

  it('have one charge throughout a note', () => {
    const block = `${substance('first-salt', 'gives sodium 2, fooate 2- 1')}\n${substance('second-salt', 'gives sodium 1, fooate 1- 1')}`;
    expect(errors(block)).toEqual(['charge-imbalance: fooate']);
  });
});

describe('a whole molecule', () => {
  it('that becomes water holds none in the body', () => {
    // Glucose 5 %, Ph. Eur., 180.16 g/mol: 278 mOsm/L in the bag (label), nothing effective once it is used.
    const block = `${substance('grape-sugar', 'molar mass 180.16 g/mol', 'in the body becomes water')}
mixture bag
  1 L grape-sugar 5%
  claim osmolarity 278 mOsm/L
  claim effective osmolarity 0 mOsm/L
  claim tonicity in the body hypotonic`;
    expect(errors(block)).toEqual([]);
  });

  it('takes up the room that is declared: 100 g at 0.6 mL/g are 60 mL', () => {
    const block = `${substance('powder', 'apparent volume 0.6 mL/g')}\nmixture bag\n  100 g powder in 1 L water\n  claim volume 1060 mL`;
    expect(errors(block)).toEqual([]);
  });

  it('dissolves as far as is declared', () => {
    const block = `${substance('powder', 'solubility 10 g/L')}\nmixture bag\n  100 g powder in 1 L water`;
    expect(errors(block)).toEqual(['impossible-concentration: 100 g']);
    expect(errors(block.replace('100 g powder', '9 g powder'))).toEqual([]);
  });
});

describe('units of activity', () => {
  const INSULIN = substance('insulin');

  it('of insulin human injection, USP, 100 units/mL: 1 mL is 100 units, and 100 units are 1 mL', () => {
    const block = `${INSULIN}
mixture drawn
  1 mL insulin 100 units/mL
  claim insulin 100 units
mixture measured
  100 units insulin 100 units/mL
  claim volume 1 mL
mixture pump
  100 units insulin 100 units/mL
  sodium chloride 0.9% to 100 mL
  claim insulin 1 units/mL`;
    expect(errors(block)).toEqual([]);
  });

  it('come in a container of a stock', () => {
    const block = `${INSULIN}\nstock vial\n  insulin 100 units/mL\n  container 10 mL\nmixture pump\n  2 x vial\n  claim insulin 2000 units`;
    expect(errors(block)).toEqual([]);
  });

  it('stand beside the mass on a label, and neither is converted', () => {
    // Insulin human, USP: 100 units/mL are about 3.5 mg/mL.
    const block = `${INSULIN}\nstock vial\n  insulin 100 units/mL\n  insulin 3.5 mg/mL\nclaim vial insulin 100 units/mL\nclaim vial insulin 3.5 mg/mL`;
    expect(errors(block)).toEqual([]);
  });

  it('are asked for and found', () => {
    const block = `${INSULIN}\nmixture pump\n  ? units insulin\n  100 mL sodium chloride 0.9%\n  target insulin 1 units/mL\n  claim insulin 100 units`;
    expect(errors(block)).toEqual([]);
  });
});

describe('a wrong line of a substance', () => {
  it.each([
    ['1 L water', 'syntax: 1 L water'],
    ['weight 5 kg', 'syntax: weight 5 kg'],
    ['molar mass 5 mL', 'syntax: molar mass 5 mL'],
    ['molar mass 0 g/mol', 'syntax: 0 g/mol'],
    ['molar mass -5 g/mol', 'syntax: -5 g/mol'],
    ['molar mass 100 g/mol ± 5 %', 'syntax: ± 5 %'],
    ['solubility 0 g/L', 'syntax: 0 g/L'],
    ['apparent volume -1 mL/g', 'syntax: -1 mL/g'],
    ['in the body vanishes', 'syntax: in the body vanishes'],
  ])('%s withholds it and what is made from it, once', (line, finding) => {
    const block = `${substance('oddity', line)}
stock vial
  oddity 5 mg/mL
mixture bag
  1 g oddity in 100 mL water
  claim oddity 10 mg/mL
mixture apart
  1 L sodium chloride 0.9%
  claim oddity 10 mg/mL
  show oddity
claim vial oddity 5 mg/mL`;
    expect(errors(block)).toEqual([finding]);
    const states = [...mixturesOf(block).values()].map(({ name, state }) => [name, state]);
    expect(states).toEqual([
      ['vial', 'incomplete'],
      ['bag', 'incomplete'],
      ['apart', 'complete'],
    ]);
  });

  it('withholds its ions too', () => {
    const block = `${substance('oddity', 'gives sodium 2, fooate 3- 1')}
stock vial
  fooate 5 mmol/L
  sodium 15 mmol/L
claim vial fooate 5 mmol/L
mixture bag
  1 L water
  5 mmol fooate as sodium chloride`;
    expect(errors(block)).toEqual(['charge-imbalance: oddity']);
  });

  it('may be one line too many', () => {
    expect(errors(substance('oddity', 'molar mass 10 g/mol', 'molar mass 20 g/mol'))).toEqual(['syntax: molar mass']);
    const bodies = substance('oddity', 'in the body crosses cells', 'in the body becomes water');
    expect(errors(bodies)).toEqual(['syntax: in the body becomes water']);
    const ions = substance('oddity', 'gives sodium 1, fooate 1', 'in the body becomes water');
    expect(errors(ions)).toEqual(['syntax: in the body becomes water']);
  });

  it('may be a question about nothing', () => {
    expect(errors(substance('oddity', 'claim sodium 5 mmol/L'))).toEqual(['syntax: sodium']);
  });
});

describe('names of substances', () => {
  it('given twice are bound to neither, and reported once', () => {
    const block = `${substance('powder')}\n${substance('Powder')}\nmixture bag\n  1 g powder in 1 L water\n  claim powder 1 g/L\nmixture apart\n  1 L water\n  show powder`;
    expect(errors(block)).toEqual(['duplicate-name: Powder']);
  });

  it('are not those of solutes and ions that are built in', () => {
    expect(errors(substance('sodium chloride'))).toEqual(['reserved-name: sodium chloride']);
    expect(errors(substance('potassium'))).toEqual(['reserved-name: potassium']);
  });
});

describe('what a substance does to the freezing point', () => {
  const ions = ['molar mass 161.44 g/mol', 'gives zinc 2+ 1, sulfate 1'];

  it.each([
    ['said twice', [...ions, 'dissociation 40%', 'sodium chloride equivalent 0.2 g/g'], 'syntax'],
    ['by dissociation without its ions', ['molar mass 161.44 g/mol', 'dissociation 40%'], 'syntax: dissociation 40%'],
    ['by dissociation without a molar mass', [ions[1]!, 'dissociation 40%'], 'syntax: dissociation 40%'],
    ['dissociated by more than all of it', [...ions, 'dissociation 120%'], 'syntax: dissociation 120%'],
    ['dissociated in g/L', [...ions, 'dissociation 40 g/L'], 'syntax: dissociation 40 g/L'],
    ['at no strength', [...ions, 'freezing point depression 0.3 °C'], 'syntax: freezing point depression 0.3 °C'],
    ['at a strength of nothing', [...ions, 'freezing point depression 0.3 °C at 0%'], 'syntax'],
    ['below zero', [...ions, 'freezing point depression -0.3 °C at 1%'], 'syntax'],
  ])('is refused %s', (_, lines, finding) => {
    const [first, ...more] = errors(`${substance('oddity', ...lines)}\nmixture bag\n  1 g oddity in 1 L water`);
    expect(first).toContain(finding);
    expect(more).toEqual([]);
  });
});
