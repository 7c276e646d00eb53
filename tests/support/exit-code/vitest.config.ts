import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('.', import.meta.url))
const postgres = fileURLToPath(new URL('../postgres.ts', import.meta.url))

/** Two projects with a server each, and a test that fails: what tests/database/exit-code.test.ts runs. */
const project = (name: string) => ({ test: { name, root, include: ['fails.ts'], globalSetup: [postgres] } })

export default defineConfig({ root, test: { root, projects: [project('one'), project('two')] } })
