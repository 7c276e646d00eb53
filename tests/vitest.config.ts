import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('..', import.meta.url))

/** A suite that needs servers or a browser gets its own project, so that `--project unit` stays quick. */
export default defineConfig({
  root,
  test: {
    root,
    projects: [
      {
        test: {
          name: 'unit',
          root,
          include: ['packages/**/*.test.ts', 'apps/**/*.test.{ts,tsx}'],
        },
      },
      { test: { name: 'published', root, include: ['tests/published/**/*.test.ts'], testTimeout: 60_000 } },
    ],
  },
})
