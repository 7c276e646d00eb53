// Runs every suite, the browser's beside the others: a browser mostly waits for its page, so two lanes end sooner than one
// after the other. Each line of vitest names its project, so that the two can share the screen.
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'

const vitest = fileURLToPath(new URL('../../node_modules/vitest/vitest.mjs', import.meta.url))
const config = fileURLToPath(new URL('../vitest.config.ts', import.meta.url))
const given = process.argv.slice(2)
const lanes = [['unit', 'published', 'api', 'database'], ['browser']]

/** Answers the exit code of one run; one that was killed has failed. */
function run(options) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [vitest, 'run', '--config', config, ...options], {
      stdio: 'inherit',
    })
    child.on('close', (code) => resolve(code ?? 1))
  })
}

// With options of one's own (a file, a project) there is one lane.
const codes =
  given.length > 0
    ? [await run(given)]
    : await Promise.all(lanes.map((projects) => run(projects.flatMap((project) => ['--project', project]))))
process.exitCode = Math.max(...codes)
