import { defineConfig } from 'vitest/config'
import base from '../vitest.config.ts'
import unit from './vitest.config.ts'

/** The tests of the API that ask the gate, with the changed copy in the place of what they import. */
const API = [
  'amount-question',
  'bond-gates',
  'bond-record',
  'careful-gate',
  'doubtful-readings',
  'gate-edges',
  'joint-model',
  'joint-standing',
  'main-job',
  'moves',
  'sheet-approval',
  'slower-sheet',
  'unproven-thermometers',
  'what-would-help',
  'who-and-with-what',
].map((name) => `tests/api/${name}.test.ts`)

const api = base.test!.projects!.find(
  (project) => (project as { test: { name: string } }).test.name === 'api',
) as {
  test: object
}

export default defineConfig({
  resolve: unit.resolve!,
  test: {
    ...api.test,
    name: 'bonds',
    include: [...API, 'apps/api/src/cure/**/*.test.ts'],
    exclude: ['**/node_modules/**'],
  },
})
