// Runs every suite, the browser's beside the others: a browser mostly waits for its page, so two lanes end sooner than one
// after the other. What each says is printed whole when it ends, so that the two don't mingle.
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'

const vitest = fileURLToPath(new URL('../../node_modules/vitest/vitest.mjs', import.meta.url))
const config = fileURLToPath(new URL('../vitest.config.ts', import.meta.url))
const given = process.argv.slice(2)
const lanes = [['unit', 'published', 'api', 'database'], ['browser']]

/** Answers the exit code of one run. */
function run(options, stdio) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [vitest, 'run', '--config', config, ...options], { stdio })
    const output = []
    child.stdout?.on('data', (chunk) => output.push(chunk))
    child.stderr?.on('data', (chunk) => output.push(chunk))
    child.on('close', (code) => {
      process.stdout.write(Buffer.concat(output))
      resolve(code ?? 1)
    })
  })
}

// With options of one's own (a file, a project) there is one lane, and it speaks at once.
const codes =
  given.length > 0
    ? [await run(given, 'inherit')]
    : await Promise.all(
        lanes.map((projects) =>
          run(
            projects.flatMap((project) => ['--project', project]),
            ['ignore', 'pipe', 'pipe'],
          ),
        ),
      )
process.exitCode = Math.max(...codes)
