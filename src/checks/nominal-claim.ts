import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';
import { claimed, rangeText, valueText } from './wording.ts';

export const nominalClaim = check({
  code: 'nominal-claim',
  severity: 'information',
  title: 'A claim rounded as labels are',
  faults: ['nominal-claim'],
  words: ({ claim: { name, observable, claimedText, found, range, unit, offBy } }) => ({
    read: `${observable.name} of ‘${name}’ is claimed to be ${claimedText}.`,
    why: `It works out at ${valueText(found, unit)}${rangeText(range, unit?.symbol ?? '')}, ${formatQuantity(offBy, '%', 2)} away: printed labels round so.`,
    mend: `Write ${valueText(found, unit)}, or state the tolerance after ‘within’.`,
  }),
  fixes: ({ claim }) => claimed(claim),
  page: `Labels print rounded numbers: 3 mEq/L of calcium for 2.7, 150 mmol/L of sodium for 154. A claim that is off by at
most 5 % (or what [local policy](../policy.md) sets) is taken as such a number. It is worth knowing, and no error. With
a tolerance of its own the claim is held to that instead.`,
  wrong: [{ block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium «150 mmol/L»' }],
  right: [
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 154 mmol/L' },
    { block: 'mixture bag\n  1 L sodium chloride 0.9%\n  claim sodium 150 mmol/L within 5 %' },
  ],
});
