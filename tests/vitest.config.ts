import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('..', import.meta.url))
const support = (name: string) => fileURLToPath(new URL(`support/${name}.ts`, import.meta.url))
const databases = {
  globalSetup: [support('postgres'), support('embedded-template')],
  setupFiles: [support('cheap-passwords'), support('checked-rows')],
}

/** A suite that needs servers or a browser has its own project, so that `npm test -- --project unit` stays quick. */
const suite = (name: string, include: string[], more: object = {}) => ({
  // The files of a worker share what they have loaded: no test replaces a module, and to load the service anew for each
  // file takes longer than most files do.
  test: { name, root, include, isolate: false, ...more },
})
/**
 * These load the service anew within a test, to compute by modules that have kept nothing. A worker that has two copies
 * of every contract tells one from the other only by luck: each of these files has a worker of its own.
 */
const LOADED_ANEW = ['tests/api/kept-estimates.test.ts']
/** Loading the demo takes half a minute on a quiet machine. */
const slow = { testTimeout: 60_000, hookTimeout: 300_000 }

export default defineConfig({
  root,
  test: {
    // Two cores: more workers than that only wait for each other.
    maxWorkers: 2,
    tags: [
      { name: 'long', description: 'Searches for minutes: left out of npm test, run by npm run test:long' },
    ],
    reporters: ['default', fileURLToPath(new URL('run/where-time-goes.mjs', import.meta.url))],
    projects: [
      suite('unit', ['packages/**/*.test.ts', 'apps/**/*.test.{ts,tsx}', 'tests/docs/**/*.test.ts'], {
        setupFiles: [support('words')],
        testTimeout: 30_000,
      }),
      suite('published', ['tests/published/**/*.test.ts'], slow),
      suite('api', ['tests/api/**/*.test.ts'], { ...slow, ...databases, exclude: LOADED_ANEW }),
      suite('api-anew', LOADED_ANEW, { ...slow, ...databases, isolate: true }),
      suite('database', ['tests/database/**/*.test.ts'], { ...slow, ...databases }),
      // One file after the other: they share one service, and signing in is limited.
      suite('browser', ['tests/browser/**/*.test.ts'], {
        ...slow,
        // Each closes its browser at its end.
        isolate: true,
        // One of them opens every screen there is, and looks at each for faults of accessibility.
        testTimeout: 300_000,
        // What is looked for again and again may take as long as what is waited for otherwise.
        expect: { poll: { timeout: 20_000 } },
        fileParallelism: false,
        globalSetup: [support('service')],
      }),
    ],
  },
})
