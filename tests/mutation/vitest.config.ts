import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

/** The changed copy lies elsewhere, while the links in node_modules lead to what was not changed. */
const alias = Object.fromEntries(
  ['cure', 'stock', 'contracts', 'planner', 'quantities'].map((name) => [
    `@clampclock/${name}`,
    fileURLToPath(new URL(`../../packages/${name}/src/index.ts`, import.meta.url)),
  ]),
)

/** The tests that need neither a database nor a browser: what a mutant must not survive. */
export default defineConfig({
  resolve: {
    alias: [
      ...Object.entries(alias).map(([find, replacement]) => ({ find, replacement })),
      { find: /^fast-check$/, replacement: fileURLToPath(new URL('fewer-runs.ts', import.meta.url)) },
    ],
  },
  test: {
    tags: [{ name: 'long', description: 'Searches for minutes', skip: true }],
    include: [
      'packages/cure/**/*.test.ts',
      'packages/stock/**/*.test.ts',
      'apps/api/src/cure/**/*.test.ts',
      'tests/published/**/*.test.ts',
    ],
    exclude: ['tests/published/planner-*.test.ts', 'tests/published/forecast.test.ts', '**/node_modules/**'],
    testTimeout: 30_000,
    hookTimeout: 120_000,
  },
})
