import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'

const path = (relative: string) => fileURLToPath(new URL(relative, import.meta.url))

it(
  'lets a failed test fail the run, with a database server in more than one project',
  { timeout: 120_000 },
  async () => {
    const vitest = path('../../node_modules/vitest/vitest.mjs')
    const config = path('../support/exit-code/vitest.config.ts')
    const { VITEST: _, ...environment } = process.env
    const run = spawn(process.execPath, [vitest, 'run', '--config', config], {
      env: environment,
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    let output = ''
    run.stdout.on('data', (chunk: Buffer) => (output += chunk.toString()))
    run.stderr.on('data', (chunk: Buffer) => (output += chunk.toString()))
    const code = await new Promise<number | null>((resolve) => run.on('exit', resolve))
    expect(output).toContain('2 failed')
    expect(output).not.toContain('TypeError')
    expect(code).toBe(1)
  },
)
