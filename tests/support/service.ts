import { spawn } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { TestProject } from 'vitest/node'

const START = fileURLToPath(new URL('../../apps/api/scripts/start.mjs', import.meta.url))

/** The service as `npm start` serves it, with the demo chain, on a port of its own: what the browser tests look at. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const dataDir = await mkdtemp(join(tmpdir(), 'clampclock-browser-'))
  const environment = {
    ...process.env,
    PORT: '0',
    DATA_DIR: dataDir,
    DATABASE_URL: '',
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
    await rm(dataDir, { recursive: true, force: true })
  }
}
