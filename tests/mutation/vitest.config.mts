import { defineConfig } from 'vitest/config';

/** The tests that mutants of engine, notation and checks have to survive: those that need no bundle and no browser. */
export default defineConfig({
  test: {
    include: ['tests/{engine,notation,note,checks}/**/*.test.ts', 'tests/quiet.test.ts'],
    testTimeout: 120_000,
  },
});
