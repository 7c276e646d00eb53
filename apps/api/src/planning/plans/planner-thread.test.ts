import { existsSync, readFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'

const BUILT = fileURLToPath(new URL('../../../dist/planner-worker.js', import.meta.url))

/** The file and all of ours that it loads. */
function loadedBy(file: string, known = new Set<string>()): Set<string> {
  known.add(file)
  for (const [, to] of readFileSync(file, 'utf8').matchAll(/^import .*?"(\.\/[^"]+)";$/gm)) {
    const next = resolve(dirname(file), to!)
    if (!known.has(next)) loadedBy(next, known)
  }
  return known
}

// A thread is started for a plan and has to be quick: through the wrong face it would load the database client as well.
it.runIf(existsSync(BUILT))('loads no database client into the thread that plans', () => {
  const files = [...loadedBy(BUILT)]
  expect(files.length).toBeGreaterThan(1)
  const withClient = files.filter((file) => readFileSync(file, 'utf8').includes('PrismaClient'))
  expect(withClient).toEqual([])
})
