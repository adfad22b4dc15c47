import type { SyntaxProblem } from '../notation/ast.ts';
import type { FluidProblem, Misplaced } from '../note/faults.ts';
import { check, type Wording } from './check.ts';
import { either, rewritten } from './wording.ts';

type Phrases = readonly [why: string, mend: string];

const LINES: Record<SyntaxProblem, Phrases> = {
  'unknown-statement': [
    'It is neither a step, a claim nor any other line of the notation.',
    'Begin a step with an amount (10 mL potassium chloride 2 mmol/mL), or the line with a word such as mixture, withdraw, claim or show; a remark begins with #.',
  ],
  'missing-name': ['A name is expected after it.', 'Give it a name of one word, such as: mixture gastric.'],
  'bad-name': [
    'A name is one word of letters, digits and hyphens that begins with a letter.',
    'Write it as one word, such as gastric-2; a longer title goes in quotation marks after it.',
  ],
  'missing-amount': ['An amount is expected here.', 'Write the amount with its unit, such as 100 mL.'],
  'missing-unit': ['The number has no unit.', 'Write the unit after it, such as mL, g or mmol.'],
  'missing-fluid': [
    'An amount is read, but not of what.',
    'Write the fluid or solute after it, such as 10 mL sodium chloride 0.9%.',
  ],
  'missing-volume-after-to': [
    'The final volume is expected after ‘to’.',
    'Write the volume, such as: water to 500 mL.',
  ],
  'missing-for': [
    'An exchange says what goes in for what is taken out.',
    'Write both, such as: exchange 100 mL for dextrose 50%.',
  ],
  'missing-value': [
    'No value is read at its end.',
    'Write what it is held to be, with its unit, such as: claim sodium 154 mmol/L.',
  ],
  'missing-observable': ['It does not say what to look at.', 'Name it, such as sodium, osmolarity or free water.'],
  'missing-question': [
    'The question is expected here, between quotation marks.',
    'Write, for example: ask "Will it raise the sodium?" show sodium.',
  ],
  'missing-if': [
    'A line that begins with ‘what’ goes on with ‘if’.',
    'Write, for example: what if weight 40 kg, 100 kg show maintenance rate.',
  ],
  'missing-change': [
    'It does not say what is to be taken otherwise.',
    'Name it before its figures, such as: what if weight 40 kg, 100 kg show maintenance rate.',
  ],
  'missing-show': [
    'It does not say which results are meant: they stand after ‘show’.',
    'Write show and what to look at, such as: show sodium, free water.',
  ],
  'missing-by': [
    'A comparison says by what it compares.',
    'Write, for example: compare gastric, brine by sodium, free water.',
  ],
  'missing-path': ['The note to use is expected after it.', 'Write its path, such as: use ./formulary.md.'],
  'missing-title': [
    'An additive that counts only by its volume needs a name in quotation marks.',
    'Write, for example: 5 mL "Multivitamin" by volume.',
  ],
  'unclosed-string': ['The quotation mark is not closed on this line.', 'Close it with a second quotation mark.'],
  'two-strengths': ['A strength stands before the name and another after it.', 'Keep the one that is meant.'],
  'two-amounts': ['Two amounts, or two rates, are read.', 'Keep the one that is meant.'],
  'repeated-clause': ['The same detail is given twice.', 'Keep the one that is meant.'],
  'bad-clause': [
    'It is none of the details an order takes.',
    'Write for, over, by, to, from, after, every, monitored or as.',
  ],
  'unexpected-rest': ['The line already says all it can before this.', 'Leave it out, or put it on a line of its own.'],
  'negative-amount': [
    'An amount to add or take out cannot be below zero.',
    'Write it without the sign; to take out, write withdraw.',
  ],
};

const PLACES: Record<Misplaced, Phrases> = {
  'step-outside-mixture': [
    'A step belongs to a mixture, and none is open here.',
    'Put a line such as ‘mixture gastric’ above it.',
  ],
  'property-in-mixture': [
    'In a mixture the amount comes first.',
    'Write the amount, then what it is of: 1 L sodium chloride 0.9%.',
  ],
  'property-outside-entity': [
    'It belongs to a stock, a substance or a patient, and none is open here.',
    'Put a line such as ‘mixture gastric’ above it and begin this one with an amount.',
  ],
  'step-in-other-entity': [
    'A step belongs to a mixture; what is open here is something else.',
    'Begin a mixture above it.',
  ],
  'target-outside-mixture': ['A target belongs to a mixture.', 'Put it among the lines of the mixture that it is for.'],
  'accept-outside-entity': [
    'There is nothing above it whose finding could be accepted.',
    'Put it below the line that it is about.',
  ],
  'target-of-another': [
    'A target is met by the mixture that it stands in.',
    'Leave the other name out, or write a claim about it.',
  ],
  'no-property-of-a-substance': [
    'It is none of the lines that a substance takes, or its unit measures something else.',
    'Write molar mass in g/mol, gives with its ions, solubility in g/L, apparent volume in mL/g, energy in kcal/g, one of sodium chloride equivalent in g/g, freezing point depression in °C at a strength in %, or dissociation in %, or in the body with what becomes of it.',
  ],
  'dissociation-of-what': [
    'How far it dissociates counts only beside its ions and its molar mass.',
    'Add gives with its ions, and molar mass in g/mol; of a whole molecule leave the line out.',
  ],
  'body-of-ions': [
    'Ions are counted as staying outside cells; only of a whole molecule can it be said otherwise.',
    'Leave the line out, or the ions that it gives.',
  ],
  'no-line-of-a-stock': [
    'It is none of the lines that a stock takes.',
    'Write an ion or solute with its strength, container with a volume, or other ions in mEq/L, each on a line.',
  ],
  'no-line-of-a-patient': [
    'It is none of the lines that a patient takes.',
    'Write weight, height, age, sex, serum values such as serum sodium 134 mmol/L, onset, burn, urine or loss with its rate and its ions.',
  ],
  'property-in-order': [
    'An order says all it has to say on one line; what follows it is a claim, a result to show, or an acceptance.',
    'Put it on the order’s own line, or with the patient that it is about.',
  ],
  'unknown-in-order': ['An order says how many; only a mixture solves for it.', 'Write a number before x.'],
  'no-figure-to-change': [
    'It is no figure of what is named or open here that can be taken otherwise.',
    'Write a line of a patient (weight 40 kg), withdraw with a volume for a mixture, or at with a rate or over with a time for an order.',
  ],
  'several-withdrawals': [
    'Several lines of the mixture withdraw, so which of them is meant is not known.',
    'Ask it of a mixture that withdraws once or not at all.',
  ],
  'question-without-subject': [
    'Nothing is open here that it could be about, and nothing is named.',
    'Name it first, such as: claim gastric sodium 152 mmol/L.',
  ],
};

const FLUIDS: Record<FluidProblem, (found: string, carriers: readonly string[]) => Phrases> = {
  'strength-on-fluid': (found) => [
    `‘${found}’ is a whole fluid; a strength belongs to a solute.`,
    'Leave the strength out.',
  ],
  'missing-strength': (found) => [
    `‘${found}’ has no strength here, so how much of it is in a litre is unknown.`,
    `Write its strength, such as ${found} 20 mmol/L.`,
  ],
  'two-fluids': (found) => [
    `‘${found}’ is a second whole fluid in one, and neither says how much.`,
    'Add each on a line of its own with its volume.',
  ],
  'ion-alone': (found, carriers) => [
    `‘${found}’ comes as a salt, and the salt brings its partner with it.`,
    `Write what carries it: ${found} as ${carriers.length > 0 ? either(carriers.slice(0, 3)) : 'its salt'}.`,
  ],
  'no-ion-before-as': (found) => [
    `Before ‘as’ stands the ion that is counted, and ‘${found}’ is a solute.`,
    'Write, for example: 8 mmol magnesium as magnesium sulfate.',
  ],
  'recipes-of-no-mixture': (found) => [
    `‘${found}’ is not a mixture of this note, so there is no whole recipe of it.`,
    `Write an amount: 2 x 50 mL ${found}.`,
  ],
  'negative-strength': () => ['A strength cannot be below zero.', 'Write it without the sign.'],
  'above-whole': () => ['No more than 100 % of it can be dissociated.', 'Check the number.'],
  'below-zero': () => ['It cannot be below zero.', 'Check the number and its sign.'],
  'not-above-zero': () => ['It can only be above zero.', 'Check the number and its sign.'],
  'no-count': () => [
    'So many cannot be given: it takes a number above zero, and a whole one when it is repeated.',
    'Check the number.',
  ],
  'nothing-stated': () => [
    'Its label states no ion and no solute, so what is in it is unknown.',
    'Write each with its strength on a line of its own, such as: sodium 130 mmol/L.',
  ],
};

function said(read: string, [why, mend]: Phrases): Wording {
  return { read, why, mend };
}

export const syntax = check({
  code: 'syntax',
  severity: 'error',
  title: 'A line that cannot be read',
  faults: ['syntax', 'misplaced', 'fluid', 'stray-info', 'two-unknowns', 'unknown-in-vehicle'],
  words(fault) {
    switch (fault.code) {
      case 'syntax':
        return said(fault.found ? `‘${fault.found}’ was read.` : 'Nothing was read.', LINES[fault.problem]);
      case 'misplaced':
        return said('The line was read, but not where it belongs.', PLACES[fault.where]);
      case 'fluid':
        return said(`‘${fault.found}’ was read.`, FLUIDS[fault.problem](fault.found, fault.carriers));
      case 'two-unknowns':
        return {
          read: 'Both the number and the amount are asked for.',
          why: 'Only their product could be found.',
          mend: 'Write one of them.',
        };
      case 'unknown-in-vehicle':
        return {
          read: 'An amount is asked for on a line that also adds its vehicle.',
          why: 'What is asked for stands by itself on a line.',
          mend: 'Put the vehicle on a line of its own.',
        };
      case 'stray-info':
        return {
          read: `‘${fault.found}’ was read after ‘infusion’.`,
          why: 'Only alone (a scope of its own) and skip (left alone) are known there.',
          mend: 'Leave it out.',
        };
    }
  },
  fixes: (fault) =>
    fault.code === 'syntax' && fault.problem === 'bad-clause' && fault.found === '@' ? rewritten('at') : [],
  page: `A line of an infusion block has none of the shapes of the notation, or a readable line stands where it means
nothing. The mixture it belongs to shows no results until the line is mended, since a number worked out from the other
lines alone would look right and be wrong. Other mixtures are not touched.`,
  wrong: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  «stir gently»' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  «100 mL»' },
    { block: '«10 mL sodium chloride 0.9%»' },
    { block: 'mixture bag\n  20 mmol «potassium»\n  water to 1 L' },
    { block: "mixture bag\n  1 L 0.9% «lactated Ringer's»" },
    { block: 'mixture bag\n  1 L dextrose 5% in «potassium chloride»' },
    { block: 'claim «sodium» 154 mmol/L' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim «free water»' },
  ],
  right: [{ block: 'mixture m  # stir gently\n  1 L sodium chloride 0.9%\n  100 mL water' }],
});
