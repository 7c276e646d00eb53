import { execFile } from 'node:child_process'
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const run = promisify(execFile)

/** What somebody else's program would be like: strict, and told by the document alone what it may ask and gets. */
const PROGRAM = `
import createClient from 'openapi-fetch'
import type { components, paths } from './clampclock.ts'

const api = createClient<paths>({ baseUrl: 'http://127.0.0.1:3000', headers: { authorization: 'Bearer …' } })

export async function mayItMove(bondId: string): Promise<components['schemas']['MoveCheck']> {
  const { data, error } = await api.GET('/v1/bonds/{bondId}', { params: { path: { bondId } } })
  if (!data) throw new Error(error.reasons.map(({ code, message }) => code + ': ' + message).join(', '))
  return data.moveCheck
}

export async function dewPoint(airTemperatureC: number, relativeHumidityPercent: number): Promise<number> {
  const { data } = await api.POST('/v1/calculations/dewPoint', { body: { airTemperatureC, relativeHumidityPercent } })
  return data?.dewPointC ?? NaN
}
`
/** Refused: a route that there is not, a body without what it must have, and an answer that has no such field. */
const WRONG = `
import createClient from 'openapi-fetch'
import type { paths } from './clampclock.ts'

const api = createClient<paths>()
// @ts-expect-error
export const nowhere = api.GET('/v1/nowhere')
// @ts-expect-error
export const halfABody = api.POST('/v1/calculations/dewPoint', { body: { airTemperatureC: 20 } })
const { data } = await api.GET('/v1/me')
// @ts-expect-error
export const invented = data!.invented
`

describe('a client generated from docs/openapi.json', () => {
  let folder: string
  beforeAll(async () => {
    const cache = join(ROOT, 'node_modules/.cache')
    await mkdir(cache, { recursive: true })
    folder = await mkdtemp(join(cache, 'api-client-'))
    // The generator writes with TypeScript's API, which TypeScript 7 does not have.
    const generator = [
      '--import',
      './tests/layers/old-typescript.mjs',
      'node_modules/openapi-typescript/bin/cli.js',
    ]
    await run(process.execPath, [...generator, 'docs/openapi.json', '-o', join(folder, 'clampclock.ts')], {
      cwd: ROOT,
    })
  })
  afterAll(() => rm(folder, { recursive: true, force: true }))

  it.each([
    ['compiles, with a program that uses it', PROGRAM],
    ['refuses what the service would', WRONG],
  ])('%s', async (_, program) => {
    const file = join(folder, 'program.ts')
    await writeFile(file, program)
    const options = [
      '--strict',
      '--noEmit',
      '--skipLibCheck',
      '--allowImportingTsExtensions',
      '--ignoreConfig',
    ]
    const target = [
      '--target',
      'es2023',
      '--module',
      'esnext',
      '--moduleResolution',
      'bundler',
      '--types',
      '',
    ]
    const compiled = run(process.execPath, ['node_modules/typescript/bin/tsc', ...options, ...target, file], {
      cwd: ROOT,
    })
    await expect(
      compiled.catch(({ stdout }: { stdout: string }) => Promise.reject(new Error(stdout))),
    ).resolves.toBeDefined()
  })
})
