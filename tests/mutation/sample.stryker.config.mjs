// A sample of all of it, where the whole would take days: `SHARE=0.1 SEED=1 PART=cure npm run mutation:sample`.
import whole from './stryker.config.mjs'
import { sampled } from './sample.mjs'

const PARTS = {
  cure: ['packages/cure/src'],
  careful: ['packages/cure/src/careful', 'packages/cure/src/estimate', 'packages/cure/src/temperature'],
  stock: ['packages/stock/src'],
  bonds: [
    'apps/api/src/cure/bonds',
    'apps/api/src/cure/dispositions',
    'apps/api/src/cure/estimates',
    'apps/api/src/work/joints',
  ],
}
const part = process.env['PART'] ?? 'cure'
const isBonds = part === 'bonds'

export default {
  ...whole,
  mutate: sampled(PARTS[part], Number(process.env['SHARE'] ?? 0.1), Number(process.env['SEED'] ?? 1)),
  // What decides in a transaction is held by the tests of the API: they need a database each.
  vitest: { configFile: `tests/mutation/${isBonds ? 'bonds.' : ''}vitest.config.ts`, related: !isBonds },
  // Words are not looked at there: a sentence is another one in the next language.
  mutator: { excludedMutations: isBonds ? ['StringLiteral'] : [] },
  ignorePatterns: ['data', 'apps/*/dist', 'docs', 'tests/browser', 'tests/bench'],
  ignoreStatic: true,
  concurrency: 1,
  timeoutMS: isBonds ? 60_000 : 20_000,
  dryRunTimeoutMinutes: 20,
  thresholds: { high: 95, low: 85, break: 85 },
}
