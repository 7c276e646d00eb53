import { defineConfig } from 'vitest/config'

/** The tests that need neither a database nor a browser: what a mutant must not survive. */
export default defineConfig({
  test: {
    include: [
      'packages/cure/**/*.test.ts',
      'packages/stock/**/*.test.ts',
      'apps/api/src/cure/**/*.test.ts',
      'tests/published/maturity.test.ts',
    ],
    testTimeout: 30_000,
  },
})
