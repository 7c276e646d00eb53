import type { TestProject } from 'vitest/node'
import { startPostgres } from './start-postgres.ts'

declare module 'vitest' {
  interface ProvidedContext {
    postgresUrl: string
  }
}

/** A server for the suites that need many connections; gone afterwards. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const { url, stop } = await startPostgres()
  project.provide('postgresUrl', url)
  return stop
}
