import { spawn } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { CHEAP_PASSWORD_COST } from '../support/cheap-passwords.ts'

/** What `npm start` runs once it has built what was missing; `npm test` has done that. */
const SERVER = fileURLToPath(new URL('../../apps/api/dist/main.js', import.meta.url))

it('logs each request of a real run, and no secret of any', { timeout: 120_000 }, async () => {
  const dataDir = await mkdtemp(join(tmpdir(), 'clampclock-log-'))
  const service = spawn(process.execPath, [SERVER, '--empty'], {
    env: {
      ...process.env,
      PORT: '0',
      DATA_DIR: dataDir,
      DATABASE_URL: '',
      LOG_LEVEL: 'info',
      PASSWORD_COST: String(CHEAP_PASSWORD_COST),
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let output = ''
  service.stderr.on('data', (chunk: Buffer) => (output += chunk.toString()))
  const [, address, code] = await new Promise<RegExpExecArray>((resolve, reject) => {
    service.stdout.on('data', (chunk: Buffer) => {
      output += chunk.toString()
      const found = /(http:\S+)\/setup\?code=(\S+)/.exec(output)
      if (found) resolve(found)
    })
    service.on('exit', () => reject(new Error(`The service did not start:\n${output}`)))
  })
  const over = new Promise<void>((resolve) => service.on('exit', () => resolve()))
  const send = (path: string, body?: object, headers: Record<string, string> = {}) =>
    fetch(`${address}${path}`, {
      ...(body ? { method: 'POST', body: JSON.stringify(body) } : {}),
      headers: { 'content-type': 'application/json', ...headers },
    })

  const password = 'four plain kettles in a row'
  const email = 'owner@invented.example'
  await send(`/setup?code=${code}`, undefined, { accept: 'text/html' })
  const chain = { organizationName: 'Chain', name: 'Owner', email, password }
  const first = await send('/v1/setup', { ...chain, setupCode: code })
  expect(first.status).toBe(201)
  const cookie = first.headers.getSetCookie()[0]!.split(';', 1)[0]!
  const { token } = (await (await send('/v1/sessions', { email, password })).json()) as { token: string }
  const authorization = `Bearer ${token}`
  await send(`/v1/alerts?token=${token}`, undefined, { authorization })
  await send(`/v1/nowhere/${token}`, undefined, { cookie })
  await send('/feeds/cc_feed_inventedfeedsecretofsomelength')
  await send('/feeds/cc_feed_inventedfeedsecretofsomelength.ics')
  await send(`/v1/people?email=${email}&password=${encodeURIComponent(password)}`, undefined, {
    authorization,
  })
  service.kill('SIGTERM')
  await over

  // What is printed for who stands at the terminal is no log.
  const lines = output.split('\n').filter((line) => line.startsWith('{'))
  const paths = lines.flatMap((line) => (JSON.parse(line) as { req?: { path: string } }).req?.path ?? [])
  expect(paths).toEqual(
    expect.arrayContaining(['/setup', '/v1/setup', '/v1/alerts', '/v1/nowhere/cc_session_…', '/v1/people']),
  )
  const log = lines.join('\n')
  const secrets = [
    code!,
    token,
    cookie.split('=')[1]!,
    password,
    encodeURIComponent(password),
    'inventedfeed',
  ]
  for (const secret of secrets) expect(log).not.toContain(secret)
  await rm(dataDir, { recursive: true, force: true })
})
