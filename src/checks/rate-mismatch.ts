import { formatQuantity } from '../engine/index.ts';
import { check } from './check.ts';

export const rateMismatch = check({
  code: 'rate-mismatch',
  severity: 'error',
  title: 'Amount, rate and time that do not fit',
  faults: ['rate-mismatch', 'runs-overlap'],
  words(fault) {
    if (fault.code === 'runs-overlap') {
      const each = formatQuantity(fault.duration, 'h');
      const every = formatQuantity(fault.every, 'h');
      return {
        read: `A part that takes ${each} is given every ${every}.`,
        why: 'The next one would begin before the last has ended.',
        mend: `Write a time of at most ${every}, or give it less often.`,
      };
    }
    const { amount, rate, duration } = fault;
    return {
      read: `${formatQuantity(amount, 'mL')} at ${formatQuantity(rate, 'mL/h')} over ${formatQuantity(duration, 'h')} was read.`,
      why: `${formatQuantity(amount, 'mL')} at that rate take ${formatQuantity(amount.div(rate), 'h')}; in that time they run at ${formatQuantity(amount.div(duration), 'mL/h')}; that rate gives ${formatQuantity(rate.times(duration), 'mL')} in that time.`,
      mend: 'Write the two that are meant; the third follows.',
    };
  },
  page: `Two of amount, rate and time fix the third. Where all three are written they have to agree as they are rounded: the
rate and the time to half a unit of their last place (a time by at most 5 %), or all three within 1 %. Parts that are
repeated end before the next begins.`,
  wrong: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL sodium chloride 0.9% at «100 mL/h» for 8 h by peripheral vein to adult',
    },
    {
      block: '«give 3 x 100 mL sodium chloride 0.9% over 2 h every 1 h by central vein»',
    },
  ],
  right: [
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL sodium chloride 0.9% at 62 mL/h for 8 h by peripheral vein to adult',
    },
    {
      block:
        'patient adult\n  age 50 y\n  weight 70 kg\ngive 500 mL sodium chloride 0.9% over 8 h by peripheral vein to adult',
    },
  ],
});
