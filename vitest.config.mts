import { defineConfig } from 'vitest/config';

/** The tests in the extension host are run by `npm test` itself; those in `protocol` want the build. */
export default defineConfig({
  test: {
    projects: [
      { test: { name: 'unit', include: ['tests/**/*.test.ts'], exclude: ['tests/protocol/**', 'tests/editor/**'] } },
      { test: { name: 'protocol', include: ['tests/protocol/**/*.test.ts'] } },
    ],
  },
});
