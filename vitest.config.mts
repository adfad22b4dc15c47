import { defineConfig } from 'vitest/config';

/** The tests in the extension host are run by `npm test` itself; those in `protocol` want the build. */
export default defineConfig({
  test: {
    // Long enough for a slow machine that does other work beside; no test is about time.
    testTimeout: 120_000,
    projects: [
      { extends: true, test: { name: 'unit', include: ['tests/**/*.test.ts'], exclude: ['tests/protocol/**', 'tests/editor/**'] } },
      { extends: true, test: { name: 'protocol', include: ['tests/protocol/**/*.test.ts'] } },
    ],
  },
});
