import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { TestProject } from 'vitest/node'
import { connect } from '../../apps/api/src/foundation/database/connect.ts'

declare module 'vitest' {
  interface ProvidedContext {
    embeddedTemplate: string
  }
}

/** Making and migrating an embedded database takes seconds, copying one does not: each test file gets a copy of this. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const dataDir = await mkdtemp(join(tmpdir(), 'clampclock-template-'))
  const migrations = new URL('../../prisma/migrations', import.meta.url).pathname
  const database = await connect({ dataDir, databaseUrl: undefined }, migrations)
  await database.close()
  project.provide('embeddedTemplate', dataDir)
  return () => rm(dataDir, { recursive: true, force: true })
}
