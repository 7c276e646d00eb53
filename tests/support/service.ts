import { spawn } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { TestProject } from 'vitest/node'
import { startPostgres } from './start-postgres.ts'

const START = fileURLToPath(new URL('../../apps/api/scripts/start.mjs', import.meta.url))

/**
 * The service as `npm start` serves it, with the demo chain, on a port of its own: what the browser tests look at. Its
 * data are on a server, and in `npm run test:long` for some on the embedded database: what a screen shows is the same on both, and
 * the embedded one computes in the service's own process, which on two cores is what the screens wait for.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const dataDir = await mkdtemp(join(tmpdir(), 'clampclock-browser-'))
  const server = process.env['TEST_DATABASE'] === 'embedded' ? undefined : await startPostgres()
  const environment = {
    ...process.env,
    PORT: '0',
    DATA_DIR: dataDir,
    DATABASE_URL: server ? `${server.url}/postgres` : '',
    DEMO: 'true',
    LOG_LEVEL: 'warn',
    PASSWORD_COST: '1024',
  }
  const service = spawn(process.execPath, [START], { env: environment, stdio: ['ignore', 'pipe', 'inherit'] })
  const address = await new Promise<string>((resolve, reject) => {
    let output = ''
    service.stdout.on('data', (chunk: Buffer) => {
      output += chunk.toString()
      const found = /ready: (http:\S+)/.exec(output)?.[1]
      if (found) resolve(found)
    })
    service.on('exit', () => reject(new Error(`The service did not start:\n${output}`)))
  })
  project.provide('baseUrl', address)
  return async () => {
    await new Promise<void>((resolve) => {
      service.once('exit', () => resolve())
      service.kill('SIGTERM')
    })
    await server?.stop()
    await rm(dataDir, { recursive: true, force: true })
  }
}
