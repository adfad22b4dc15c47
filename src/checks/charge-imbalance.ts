import { type Decimal, formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';
import { both, either } from './wording.ts';

/** With the digits that tell two sums apart. */
const charges = (value: Decimal) => formatQuantity(value, 'mEq/L', 6);

/** As it is written behind an ion: `2-`. */
const signed = (charge: number) => `${Math.abs(charge)}${charge > 0 ? '+' : '-'}`;

export const chargeImbalance = check({
  code: 'charge-imbalance',
  severity: 'error',
  title: 'Charges that do not meet',
  faults: ['charge-imbalance', 'substance-charges', 'ion-charge'],
  words(fault) {
    if (fault.code === 'charge-imbalance') {
      const { name, others } = fault;
      const [cations, anions, apart] = [charges(fault.cations), charges(fault.anions), charges(fault.apart)];
      const here = others
        ? `With ${charges(others.abs())} of other ${others.isNegative() ? 'anions' : 'cations'}`
        : 'Here';
      return {
        read: `The label of ‘${name}’ gives ${cations} of cations and ${anions} of anions.`,
        why: `In a solution they are equal. ${here} they are ${apart} apart, and the digits written leave ${charges(fault.allowed)} open.`,
        mend: others
          ? 'Check the label’s figures and units, and what is written as other ions.'
          : 'Check the label’s figures and units, or write what it leaves out, such as: other ions 5 mEq/L.',
      };
    }
    if (fault.code === 'ion-charge') {
      const { ion, charge } = fault;
      const unmet = charge === null ? ', which does not make up for the other charges' : '';
      return {
        read: `‘${charge === null ? ion : `${ion} ${signed(charge)}`}’ was read.`,
        why: `Here ${ion} carries ${either(fault.charges.map(signed))}${unmet}.`,
        mend: 'Check the charges and how many of each ion one unit gives; an ion that is meant to differ takes another name.',
      };
    }
    const { name, fault: definition } = fault;
    const mend = 'Check the ions, their charges and how many of each one unit gives.';
    switch (definition.problem) {
      case 'charge-imbalance':
        return {
          read: `One unit of ‘${name}’ gives ions.`,
          why: `Their charges add up to ${definition.sum}, and a substance has none.`,
          mend,
        };
      case 'charges-missing':
        return {
          read: `One unit of ‘${name}’ gives ions.`,
          why: `The charges of ${both(definition.particles)} are not written, and only one can follow from the others.`,
          mend: 'Write a charge behind the name, such as thiosulfate 2-.',
        };
      case 'charge-impossible':
        return {
          read: `One unit of ‘${name}’ gives ions.`,
          why: `The charge left over for ${definition.particle} is no whole number.`,
          mend,
        };
    }
  },
  page: `In any solution the positive and the negative charges are equal. A stock's label may miss that by what its digits
leave open (half a unit of the last place of each figure, times its charge), and no more: beyond it a figure or a unit is
wrong, or something is left out. \`other ions\` closes what a label leaves out on purpose, and results that could
rest on what was left out are then not given. Albumin and amino acids carry charges that labels do not print; with them
nothing is compared. The ions of a substance add up to no charge at all, and an ion has one charge throughout a note.`,
  wrong: [
    { block: 'stock «bag»\n  sodium 130 mEq/L\n  potassium 4 mEq/L\n  chloride 109 mEq/L' },
    { block: 'stock «bag»\n  sodium 154 mEq/L\n  chloride 100 mEq/L\n  other ions 5 mEq/L' },
    { block: 'substance «oddate»\n  molar mass 100 g/mol\n  gives sodium 2, chloride 1' },
    { block: 'substance oddate\n  gives «sodium» 2+ 1, chloride 2' },
  ],
  right: [
    {
      block:
        'stock bag\n  sodium 130 mEq/L\n  potassium 4 mEq/L\n  calcium 2.7 mEq/L\n  chloride 109 mEq/L\n  lactate 28 mEq/L',
    },
    { block: 'stock bag\n  sodium 130 mEq/L\n  chloride 109 mEq/L\n  other ions 21 mEq/L' },
  ],
});
