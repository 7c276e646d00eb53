// Runs every suite, the browser's beside the others: a browser mostly waits for its page, so two lanes end sooner than one
// after the other. Each line of vitest names its project, so that the two can share the screen. With --long: what takes
// minutes to search, and on the embedded database what `npm test` did on the server.
import { spawn } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../..', import.meta.url))
const vitest = fileURLToPath(new URL('../../node_modules/vitest/vitest.mjs', import.meta.url))
const config = fileURLToPath(new URL('../vitest.config.ts', import.meta.url))
const given = process.argv.slice(2)

const only = (projects) => projects.flatMap((project) => ['--project', project])
const WITHOUT_BROWSER = ['unit', 'published', 'api', 'api-anew', 'database']
const usual = [
  { options: [...only(WITHOUT_BROWSER), '--tags-filter=!long'] },
  { options: [...only(['browser']), '--tags-filter=!long'] },
]
const long = [
  { options: [...only(WITHOUT_BROWSER), '--tags-filter=long'] },
  { options: [...only(['api']), ...onOneDatabase()], environment: { TEST_DATABASE: 'embedded' } },
  // What a screen shows is the same on both; the day of a technician is looked at on either.
  {
    options: [...only(['browser']), 'tests/browser/job.test.ts'],
    environment: { TEST_DATABASE: 'embedded' },
  },
]

// With options of one's own (a file, a project) there is one run.
if (given[0] === '--long') await inTurn(long)
else if (given.length > 0) await inTurn([{ options: given }])
else await Promise.all(usual.map(run))

async function inTurn(runs) {
  for (const each of runs) await run(each)
}

/** One that failed, or was killed, makes the whole fail. */
function run({ options, environment = {} }) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [vitest, 'run', '--config', config, ...options], {
      stdio: 'inherit',
      env: { ...process.env, ...environment },
    })
    child.on('close', (code) => {
      if (code !== 0) process.exitCode = 1
      resolve()
    })
  })
}

/** The files whose tests run on one database at a time. */
function onOneDatabase() {
  const folder = `${root}/tests/api`
  return readdirSync(folder)
    .filter((name) => readFileSync(`${folder}/${name}`, 'utf8').includes('describe.each(ONE_KIND)'))
    .map((name) => `tests/api/${name}`)
}
