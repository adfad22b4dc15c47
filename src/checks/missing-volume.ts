import { check } from './check.ts';

export const missingVolume = check({
  code: 'missing-volume',
  severity: 'error',
  title: 'A mixture or an order without a volume',
  faults: ['missing-volume', 'order-without-amount', 'after-endless'],
  words(fault) {
    switch (fault.code) {
      case 'order-without-amount':
        return fault.repeated
          ? {
              read: 'A rate that is repeated was read.',
              why: 'How much is given each time, or for how long it runs, does not stand in it.',
              mend: 'Write the amount of each time (100 mL), or how long it runs (over 30 min).',
            }
          : {
              read: 'An order was read.',
              why: 'Neither how much is given nor how fast stands in it.',
              mend: 'Write an amount (500 mL), a rate (at 60 mL/h), or both.',
            };
      case 'after-endless':
        return {
          read: `It is to follow ‘${fault.found}’.`,
          why: 'That order runs until it is stopped, so nothing can follow it.',
          mend: `Write for how long ‘${fault.found}’ runs, or how much of it is given.`,
        };
      case 'missing-volume':
        return {
          read: fault.name ? `‘${fault.name}’ was read.` : 'A mixture was read.',
          why: 'No line leaves any liquid in it, so nothing can be said per litre.',
          mend: 'Add the liquid it is dissolved in, or make it up with: water to 1 L.',
        };
    }
  },
  fixes(fault) {
    if (fault.code !== 'missing-volume' || !fault.last) return [];
    const title = 'Write ‘water to …’ below the last line, with a volume to be written';
    return [{ title, lines: ['water to ‹volume›'], put: 'below', at: fault.last, changesNumber: true }];
  },
  page: `A mixture holds liquid: a solution that is added, or water to a final volume. Dry solutes alone take up a little
space, but no strength follows from it. An order needs two of amount, rate and time, or the recipe that it gives whole; one with a
rate alone runs until it is stopped.`,
  wrong: [
    { block: 'mixture «bag»\n  9 g sodium chloride' },
    { block: 'give «sodium chloride 0.9%» by central vein' },
    { block: 'give «sodium chloride 0.9%» at 60 mL/h every 6 h by central vein' },
    {
      block:
        'give sodium chloride 0.9% at 80 mL/h by central vein as first\ngive 500 mL sodium chloride 0.9% over 4 h by central vein after «first»',
    },
  ],
  right: [{ block: 'mixture bag\n  9 g sodium chloride\n  water to 1 L' }],
});
