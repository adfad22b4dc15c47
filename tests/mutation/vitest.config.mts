import { defineConfig } from 'vitest/config';

/** `engine`, `notation` or `checks`: the tests of one room alone, which are quick enough to be run for each mutant. */
const room = process.env.ROOM ?? '*';
const folders = { engine: ['engine'], notation: ['notation'], checks: ['checks'] }[room] ?? [
  'engine',
  'notation',
  'note',
  'checks',
];

/** Of time, which a mutant's instruments change anyway; of texts as long as can be; of the same examples in every place. */
const SLOW = [
  'growth',
  'in proportion',
  'over the bound stands for the rest',
  'a block of more lines than are read',
  'wrapped as (?!plain)',
  'wherever the block stands',
].join('|');

/** The tests that mutants have to survive: those that need no bundle and no browser, with few runs of each property. */
export default defineConfig({
  test: {
    include: folders.map((folder) => `tests/${folder}/**/*.test.ts`),
    testNamePattern: new RegExp(`^(?!.*(?:${SLOW}))`, 'su'),
    testTimeout: 120_000,
    env: { FUZZ: '0.03' },
  },
});
