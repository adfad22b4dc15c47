import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';
import { claimed, rangeText, valueText } from './wording.ts';

export const claimMismatch = check({
  code: 'claim-mismatch',
  severity: 'error',
  title: 'A claim that the arithmetic does not bear out',
  faults: ['claim-mismatch', 'tonicity-mismatch'],
  words(fault) {
    if (fault.code === 'tonicity-mismatch') {
      const place = fault.observable.kind === 'tonicity-bag' ? 'in the bag' : 'in the body';
      return {
        read: `‘${fault.name}’ is claimed to be ${fault.claimed} ${place}.`,
        why: `At ${formatQuantity(fault.osmolarity, 'mOsm/L')} it is ${fault.found} ${place}.`,
        mend: `Write ${fault.found}, or change the mixture.`,
      };
    }
    const { name, observable, claimedText, found, range, unit } = fault.claim;
    return {
      read: `${observable.name} of ‘${name}’ is claimed to be ${claimedText}.`,
      why: `It works out at ${valueText(found, unit)}${rangeText(range, unit?.symbol ?? '')}.${fault.slip ? ` The two differ by ${fault.slip.words}.` : ''}`,
      mend: 'Correct the claim or the mixture, or write a tolerance after ‘within’ if the difference is meant.',
    };
  },
  fixes(fault) {
    if (fault.code === 'claim-mismatch') return claimed(fault.claim);
    return [{ title: `Write ‘${fault.found}’, as it works out`, replace: fault.found, changesNumber: true }];
  },
  page: `A claim is held against what the mixture works out at. It holds when the result lies within half a unit of the
last place written (77 mmol/L: 76.5 to 77.5), or within the tolerance after \`within\`. When the difference is one of the
usual factors the message names it: ten, a thousand (g and mg), the charge (mmol and mEq), a hydrate, per bag and per
litre, sixty or twenty-four.`,
  wrong: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium «145 mmol/L»' },
    { block: 'mixture bag\n  1 L sodium chloride 0.45%\n  claim tonicity in the body «isotonic»' },
  ],
  right: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 154 mmol/L' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 145 mmol/L within 10 %' },
  ],
});
