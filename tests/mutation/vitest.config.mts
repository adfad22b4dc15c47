import { defineConfig } from 'vitest/config';

/** `engine`, `notation` or `checks`: the tests of one room alone, which are quick enough to be run for each mutant. */
const room = process.env.ROOM ?? '*';
const folders = { engine: ['engine'], notation: ['notation'], checks: ['checks'] }[room] ?? [
  'engine',
  'notation',
  'note',
  'checks',
];

/** The tests that mutants have to survive: those that need no bundle and no browser. */
export default defineConfig({
  test: {
    include: folders.map((folder) => `tests/${folder}/**/*.test.ts`),
    testTimeout: 120_000,
  },
});
