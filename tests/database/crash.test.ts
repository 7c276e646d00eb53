import { spawn, type ChildProcess } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { connect } from '../../apps/api/src/foundation/database/connect.ts'
import { watchQueue } from '../../apps/api/src/attention/watch/watching.ts'
import { takeOver } from '../../apps/api/src/foundation/jobs/job-store.ts'
import { workOff } from '../../apps/api/src/foundation/jobs/work.ts'
import { verifyLedger } from '../../apps/api/src/supply/cartridges/verify.ts'
import { CHEAP_PASSWORD_COST } from '../support/cheap-passwords.ts'
import { createDatabase, KINDS, MIGRATIONS } from '../support/databases.ts'
import { PRODUCT } from '../support/fixtures.ts'
import { PASSWORD } from '../support/test-app.ts'

/** Each is a start of the real service. */
const EFFORTS = [
  { kills: 3, tags: [] },
  { kills: 20, tags: ['long'] },
]
const ROUNDS = EFFORTS.flatMap((effort) => KINDS.map((kind) => ({ kind, ...effort })))
/** What `npm start` runs once it has built what was missing; `npm test` has done that. */
const SERVER = fileURLToPath(new URL('../../apps/api/dist/main.js', import.meta.url))

/** The real process, killed without warning while people book stock. */
for (const { kind, kills, tags } of ROUNDS)
  describe(
    `kill -9 during a stream of stock movements, ${kills} times, on the ${kind} database`,
    { tags },
    () => {
      let dataDir: string
      let environment: NodeJS.ProcessEnv
      let databaseUrl: string | undefined
      let service: Service
      beforeAll(async () => {
        dataDir = await mkdtemp(join(tmpdir(), 'clampclock-crash-'))
        databaseUrl = kind === 'server' ? await createDatabase() : undefined
        environment = {
          ...process.env,
          PORT: '0',
          DATA_DIR: dataDir,
          LOG_LEVEL: 'warn',
          PASSWORD_COST: String(CHEAP_PASSWORD_COST),
          ...(databaseUrl ? { DATABASE_URL: databaseUrl } : {}),
        }
      })
      afterAll(() => rm(dataDir, { recursive: true, force: true }))

      it('loses nothing that was acknowledged, and the ledger adds up', { timeout: 600_000 }, async () => {
        service = await startService(environment, true)
        const { shopId, productId } = await setUp(service)
        const acknowledged: string[] = []
        for (let round = 0; round < kills; round += 1) {
          const token = await signIn(service)
          const stream = Array.from({ length: 3 }, (_, worker) =>
            keepBooking(service, token, { shopId, productId, prefix: `${round}-${worker}` }, acknowledged),
          )
          // Somewhere in the middle of it, never at the same place.
          const enough = acknowledged.length + 2 + (round % 4) * 2
          while (acknowledged.length < enough) await pause(5)
          await pause((round * 7) % 40)
          await kill(service.process)
          await Promise.all(stream)
          service = await startService(environment)
        }
        const token = await signIn(service)
        const stored = new Set<string>()
        let cursor = ''
        do {
          const page = await call<{ items: { cartridgeId: string }[]; nextCursor: string | null }>(
            service,
            token,
            `/v1/stockMovements?limit=500${cursor}`,
          )
          for (const { cartridgeId } of page.items) stored.add(cartridgeId)
          cursor = page.nextCursor ? `&cursor=${page.nextCursor}` : ''
        } while (cursor)
        await kill(service.process)

        expect(acknowledged.length).toBeGreaterThan(kills)
        expect(acknowledged.filter((id) => !stored.has(id))).toEqual([])
        const database = await connect({ dataDir, databaseUrl }, MIGRATIONS)
        try {
          expect(await verifyLedger(database)).toEqual([])
          // What is to be looked at again because of the last movement has been since, or waits.
          const [{ movedAt, watchedAt, waiting }] = await database.prisma.$queryRaw<
            [{ movedAt: Date; watchedAt: Date | null; waiting: bigint }]
          >`
            select (select max(recorded_at) from stock_movement) as "movedAt",
                   (select max(watched_at) from watch_state) as "watchedAt",
                   (select count(*) from job where queue = 'watch' and due_at <= now()) as waiting`
          expect(waiting > 0n || (watchedAt !== null && watchedAt >= movedAt)).toBe(true)
          // Killed while it was at it, another process takes it over once it is taken for dead.
          await takeOver(database)
          const worker = { database, clock: () => new Date(), log: console }
          expect((await workOff(worker, [watchQueue(worker)])) > 0).toBe(waiting > 0n)
        } finally {
          await database.close()
        }
      })
    },
  )

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms))

interface Service {
  readonly process: ChildProcess
  readonly address: string
  readonly setUpCode: string | undefined
}

async function startService(environment: NodeJS.ProcessEnv, first = false): Promise<Service> {
  const child = spawn(process.execPath, [SERVER, '--empty'], {
    env: environment,
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  return new Promise((resolve, reject) => {
    let output = ''
    const look = (chunk: Buffer) => {
      output += chunk.toString()
      const address = /ready: (http:\S+)/.exec(output)?.[1]
      const setUpCode = /setup\?code=(\S+)/.exec(output)?.[1]
      if (address && (setUpCode || !first)) resolve({ process: child, address, setUpCode })
    }
    child.stdout.on('data', look)
    child.stderr.on('data', look)
    child.on('exit', () => reject(new Error(`The service ended: ${output}`)))
  })
}

function kill(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    child.once('exit', () => resolve())
    child.kill('SIGKILL')
  })
}

async function call<Body>(service: Service, token: string, path: string, body?: object): Promise<Body> {
  const response = await fetch(`${service.address}${path}`, {
    method: body ? 'POST' : 'GET',
    headers: {
      ...(token ? { authorization: `Bearer ${token}` } : {}),
      ...(body ? { 'content-type': 'application/json' } : {}),
    },
    ...(body ? { body: JSON.stringify(body) } : {}),
  })
  // Busy with its start on a busy machine: every client asks again.
  if (response.status === 503) {
    await response.body?.cancel()
    await pause(500)
    return call(service, token, path, body)
  }
  const answer = (await response.json()) as Body
  if (!response.ok) throw new Error(JSON.stringify(answer))
  return answer
}

async function signIn(service: Service): Promise<string> {
  return (
    await call<{ token: string }>(service, '', '/v1/sessions', {
      email: 'owner@test.example',
      password: PASSWORD,
    })
  ).token
}

async function setUp(service: Service): Promise<{ shopId: string; productId: string }> {
  await call(service, '', '/v1/setup', {
    setupCode: service.setUpCode,
    organizationName: 'Chain',
    name: 'Owner',
    email: 'owner@test.example',
    password: PASSWORD,
  })
  const token = await signIn(service)
  const { id: shopId } = await call<{ id: string }>(service, token, '/v1/shops', {
    name: 'Shop',
    timeZone: 'America/New_York',
  })
  const { id: productId } = await call<{ id: string }>(service, token, '/v1/products', {
    ...PRODUCT,
    // This service runs by the clock on the wall.
    sheet: { ...PRODUCT.sheet, issuedOn: '2020-01-01' },
  })
  return { shopId, productId }
}

/** Receives, opens and discards until the service is gone; notes each cartridge whose receipt was answered. */
async function keepBooking(
  service: Service,
  token: string,
  { shopId, productId, prefix }: { shopId: string; productId: string; prefix: string },
  acknowledged: string[],
): Promise<void> {
  for (let i = 0; ; i += 1) {
    try {
      const { cartridges } = await call<{ cartridges: { id: string }[] }>(
        service,
        token,
        `/v1/shops/${shopId}/receipts`,
        {
          productId,
          lotNumber: `${prefix}-${i}`,
          printedExpiry: { date: '2099-12-31' },
          cartridges: 2,
        },
      )
      acknowledged.push(...cartridges.map(({ id }) => id))
      await call(service, token, `/v1/cartridges/${cartridges[0]!.id}/opening`, {})
      await call(service, token, `/v1/cartridges/${cartridges[1]!.id}/discard`, {
        reason: 'Fell off the shelf',
      })
    } catch {
      return
    }
  }
}
