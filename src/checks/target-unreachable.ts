import { type Decimal, formatDecimal, formatQuantity } from '../engine/index.ts';
import type { Unreachable } from '../note/faults.ts';
import { check } from './check.ts';

function reasonOf(reason: Unreachable, observable: string): string {
  switch (reason.kind) {
    case 'undetermined':
      return 'The targets do not tell the unknown amounts apart: no amounts meet them, or very many do.';
    case 'no-room':
      return 'The amounts that would meet it are more than is there, or than there is room for.';
    case 'negative':
      return `It would take ${formatQuantity(reason.value, reason.unit ?? 'containers')}, and less than nothing cannot be added.`;
    case 'outside': {
      const { from, to, unit } = reason;
      const told = (value: Decimal) => (unit ? formatQuantity(value, unit) : formatDecimal(value));
      const none = from ? `With none of it ${observable} is ${told(from)}` : 'Without it there is no volume';
      return `${none}, and with as much as there is room for ${to ? told(to) : 'no volume is left'}: no amount between reaches it.`;
    }
  }
}

export const targetUnreachable = check({
  code: 'target-unreachable',
  severity: 'error',
  title: 'A target that no amount meets',
  faults: ['target-unreachable', 'no-target'],
  words(fault) {
    const { observable } = fault;
    if (fault.code === 'no-target') {
      return {
        read: `${observable} is written as a target.`,
        why: 'It does not grow in proportion to the amounts, so they cannot be solved for it.',
        mend: 'Take a concentration, a total or a volume as the target, and write this as a claim.',
      };
    }
    return {
      read: `${observable} is to come to ${fault.wanted}.`,
      why: reasonOf(fault.reason, observable),
      mend: 'Change the target, or take a fluid on the other side of it.',
    };
  },
  page: `Mixing gives what lies between the fluids mixed: between sodium chloride 0.45 % and 0.9 % no mixture reaches 3 %.
When the amount that would meet a target is below zero, or does not fit, the range that can be reached is given.`,
  wrong: [
    { block: 'mixture bag\n  500 mL sodium chloride 0.45%\n  ? mL sodium chloride 0.9%\n  target sodium «513 mmol/L»' },
    {
      block:
        'mixture bag\n  ? mL sodium chloride 0.9%\n  ? mL sodium chloride 0.9%\n  target sodium «154 mmol/L»\n  target volume 1 L',
    },
  ],
  right: [
    { block: 'mixture bag\n  500 mL sodium chloride 0.45%\n  ? mL sodium chloride 23.4%\n  target sodium 513 mmol/L' },
  ],
});
