// Faults that once no test noticed. Each is put into the program while it is loaded, and the tests beside it must fail.
// `npm run mutation:named` tries all of them; with `-- WORDS` those whose names hold the words.
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'

const changes = JSON.parse(readFileSync(new URL('named-changes.json', import.meta.url), 'utf8'))

/** @returns {'noticed' | 'survived' | 'not tried'} */
function tried({ name, project, tests }) {
  const run = spawnSync(
    process.execPath,
    [
      'node_modules/vitest/vitest.mjs',
      'run',
      '--config',
      'tests/mutation/named.config.ts',
      '--project',
      project,
      '--bail=1',
      ...tests,
    ],
    { env: { ...process.env, NAMED_CHANGE: name }, encoding: 'utf8' },
  )
  const out = run.stdout + run.stderr
  if (process.env['SHOW'] === '1') process.stdout.write(out)
  if (!out.includes(`put in: ${name}`)) return 'not tried'
  if (run.status === 0) return 'survived'
  return / failed/.test(out) ? 'noticed' : 'not tried'
}

const wanted = process.argv[2] ?? ''
const results = changes
  .filter(({ name }) => name.includes(wanted))
  .map((change) => {
    const result = tried(change)
    process.stdout.write(`${result.padEnd(10)} ${change.name}\n`)
    return result
  })
process.exitCode = results.length > 0 && results.every((result) => result === 'noticed') ? 0 : 1
