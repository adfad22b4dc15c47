import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';
import { both } from './wording.ts';

export const chargeImbalance = check({
  code: 'charge-imbalance',
  severity: 'error',
  title: 'Charges that do not meet',
  faults: ['charge-imbalance', 'substance-charges'],
  words(fault) {
    if (fault.code === 'charge-imbalance') {
      const { name, cations, anions, allowed } = fault;
      return {
        read: `The label of ‘${name}’ gives ${formatQuantity(cations, 'mEq/L')} of cations and ${formatQuantity(anions, 'mEq/L')} of anions.`,
        why: `In a solution they are equal; its digits leave ${formatQuantity(allowed, 'mEq/L', 2)} open.`,
        mend: 'Check the label’s figures and units, or write what it leaves out, such as: other ions 5 mEq/L.',
      };
    }
    const { name, fault: charges } = fault;
    const mend = 'Check the ions, their charges and how many of each one unit gives.';
    switch (charges.problem) {
      case 'charge-imbalance':
        return {
          read: `One unit of ‘${name}’ gives ions.`,
          why: `Their charges add up to ${charges.sum}, and a substance has none.`,
          mend,
        };
      case 'charges-missing':
        return {
          read: `One unit of ‘${name}’ gives ions.`,
          why: `The charges of ${both(charges.particles)} are not written, and only one can follow from the others.`,
          mend: 'Write a charge behind the name, such as thiosulfate 2-.',
        };
      case 'charge-impossible':
        return {
          read: `One unit of ‘${name}’ gives ions.`,
          why: `The charge left over for ${charges.particle} is no whole number.`,
          mend,
        };
    }
  },
  page: `In any solution the positive and the negative charges are equal. A stock's label may miss that by what its digits
leave open (half a unit of the last place of each figure, times its charge), and no more: beyond it a figure or a unit is
wrong, or something is left out. \`other ions\` closes what a label leaves out on purpose. Albumin and amino acids carry
charges that labels do not print; with them nothing is compared.`,
  wrong: [
    { block: 'stock «bag»\n  sodium 130 mEq/L\n  potassium 4 mEq/L\n  chloride 109 mEq/L' },
    { block: 'substance «oddate»\n  molar mass 100 g/mol\n  gives sodium 2, chloride 1' },
  ],
  right: [
    {
      block:
        'stock bag\n  sodium 130 mEq/L\n  potassium 4 mEq/L\n  calcium 2.7 mEq/L\n  chloride 109 mEq/L\n  lactate 28 mEq/L',
    },
    { block: 'stock bag\n  sodium 130 mEq/L\n  chloride 109 mEq/L\n  other ions 21 mEq/L' },
  ],
});
