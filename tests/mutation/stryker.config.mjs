// Whether the tests would notice: each file is changed in one place at a time, and a change that no test notices has
// survived. `npm run mutation -- --mutate 'packages/cure/src/joint/joint-state.ts'` looks at one file.

/** What says yes or no to a person: a survivor here needs a reason in docs/mutation.md. */
const GATE_FILES = [
  'packages/cure/src/joint/joint-state.ts',
  'packages/cure/src/readings/told-late.ts',
  'packages/cure/src/readings/air-at-joint.ts',
  'packages/cure/src/readings/proof.ts',
  'packages/cure/src/oven/bake-limits.ts',
  'packages/cure/src/joint/application.ts',
  'packages/stock/src/usability.ts',
]

export default {
  testRunner: 'vitest',
  vitest: { configFile: 'tests/mutation/vitest.config.ts', related: true },
  plugins: ['@stryker-mutator/vitest-runner'],
  coverageAnalysis: 'perTest',
  mutate:
    process.env['MUTATION'] === 'all'
      ? [
          'packages/cure/src/**/*.ts',
          'packages/stock/src/**/*.ts',
          'apps/api/src/work/joints/**/*.ts',
          'apps/api/src/cure/{bonds,dispositions,estimates}/**/*.ts',
          '!**/*.test.ts',
          '!**/testing.ts',
          '!**/index.ts',
        ]
      : GATE_FILES,
  ignorePatterns: ['data', 'apps/*/dist', 'docs', 'tests/browser', 'tests/api', 'tests/bench'],
  // TypeScript 7 has no interface to rewrite its configuration by, and the tests need none.
  tsconfigFile: 'none.json',
  tempDirName: '.stryker-tmp',
  concurrency: 2,
  timeoutMS: 20_000,
  reporters: ['clear-text', 'progress', 'json'],
  jsonReporter: { fileName: 'reports/mutation.json' },
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
  thresholds: { high: 95, low: 85, break: process.env['MUTATION'] === 'all' ? 85 : 95 },
  allowEmpty: false,
}
