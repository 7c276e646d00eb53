import { inspect } from 'node:util'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { digestQueue } from '../../apps/api/src/attention/notifications/digest.ts'
import { watchQueue } from '../../apps/api/src/attention/watch/watching.ts'
import { buildApp } from '../../apps/api/src/app.ts'
import { connect } from '../../apps/api/src/foundation/database/connect.ts'
import { inChain } from '../../apps/api/src/foundation/database/in-chain.ts'
import { wakeEveryChain } from '../../apps/api/src/foundation/jobs/job-store.ts'
import { workOff } from '../../apps/api/src/foundation/jobs/work.ts'
import { queuesOf } from '../../apps/api/src/queues.ts'
import { MIGRATIONS, ONE_KIND } from '../support/databases.ts'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

const MINUTE = 60_000
const later = (minutes: number) => new Date(NOON.getTime() + minutes * MINUTE)

interface Alert {
  readonly kind: string
  readonly message: string
  readonly openedAt: string
}

/** Another chain with a shop and a thermometer that spoke last at this instant. */
async function addChain({ database }: TestApp, name: string, spokeAt: Date) {
  const { prisma } = database
  const { id: organizationId } = await prisma.organization.create({ data: { name } })
  const { id: shopId } = await prisma.shop.create({ data: { organizationId, name, timeZone: 'UTC' } })
  const resource = await prisma.resource.create({
    data: { organizationId, shopId, kind: 'bay', name: 'Bay', capacity: 1 },
  })
  const sensor = await prisma.sensor.create({
    data: {
      organizationId,
      shopId,
      name: 'Bay air',
      place: 'bay',
      resourceId: resource.id,
      accuracyC: 0.5,
      temperatureReadings: { create: [{ at: spokeAt, temperatureC: 20 }] },
    },
  })
  return { organizationId, shopId, sensorId: sensor.id }
}

describe.each(ONE_KIND)('a chain whose every job fails, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())

  it('keeps no other from its alerts, and its own people and /health say so, for an hour', async () => {
    const { database, owner, app } = test
    const queues = queuesOf(app)
    const { organizationId } = await database.prisma.shop.findUniqueOrThrow({ where: { id: shop.shopId } })
    await database.execute(`
      create function fail_here() returns trigger language plpgsql as $$ begin raise exception 'broken'; end $$;
      create trigger broken before insert or update on watch_state for each row
        when (new.organization_id = '${organizationId}') execute function fail_here();`)
    // Others whose thermometers fall silent one after the other: three hours after they spoke.
    const others: { organizationId: string; silentFrom: Date }[] = []
    for (let i = 0; i < 6; i += 1) {
      const silentFrom = later(5 + i * 9)
      const chain = await addChain(test, `Other ${i}`, new Date(silentFrom.getTime() - 180 * MINUTE))
      others.push({ ...chain, silentFrom })
    }
    await wakeEveryChain(database, 'watch')
    for (let minute = 0; minute <= 60; minute += 1) {
      test.clock.now = later(minute)
      // Each minute something changes in the broken one too.
      await owner.made(`/v1/sensors/${shop.sensorId}/readings`, {
        readings: [{ at: later(minute).toISOString(), temperatureC: 21 }],
      })
      await workOff(app, queues)
    }
    for (const { organizationId: id, silentFrom } of others) {
      const [alert] = await database.prisma.alert.findMany({
        where: { organizationId: id, kind: 'sensorSilent' },
      })
      const lateMs = alert!.openedAt.getTime() - silentFrom.getTime()
      expect(lateMs).toBeGreaterThan(0)
      expect(lateMs).toBeLessThanOrEqual(MINUTE)
    }

    const { body } = await test.anybody.get('/health')
    expect(body).toMatchObject({ status: 'ready', queues: { watch: { failing: 1 } } })
    expect(body.queues.watch.oldestSeconds).toBeGreaterThan(0)
    const read = async () => (await owner.read<{ items: Alert[] }>('/v1/alerts?kind=workFails')).items
    const [told, ...more] = await read()
    expect(more).toEqual([])
    expect(told!.message).toContain('Nobody looks after the alerts')
    expect(Date.parse(told!.openedAt)).toBeLessThanOrEqual(later(10).getTime())
    expect(await database.prisma.alert.count({ where: { kind: 'workFails' } })).toBe(1)

    await database.execute('drop trigger broken on watch_state')
    test.clock.now = later(71)
    await workOff(app, queues)
    expect(await read()).toEqual([])
    expect((await test.anybody.get('/health')).body).toMatchObject({ queues: { watch: { failing: 0 } } })
  })
})

describe('a reading that changes a cure', () => {
  let test: TestApp
  let shop: Shop
  let asked: string[]
  beforeAll(async () => {
    test = await startTestApp('server')
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())
  beforeEach(() => {
    asked = []
  })

  it('costs the same work however many other chains there are, and none of it for them', async () => {
    const { owner, database } = test
    await steadyAir(owner, shop.sensorId, 23, NOON)
    const { jointId } = await makeJoint(owner, shop)
    const [piece] = await receive(owner, shop)
    await owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
    const counted = database.prisma.$extends({
      query: {
        $allOperations: ({ args, query }) => {
          asked.push(inspect(args, { depth: 9, maxArrayLength: null }))
          return query(args)
        },
      },
    })
    const worker = {
      database: { ...database, prisma: counted as unknown as typeof database.prisma },
      clock: () => test.clock.now,
      log: { error: (about: object) => expect(about).toBeUndefined() },
    }
    const read = async (minute: number) => {
      test.clock.now = later(minute)
      await owner.made(`/v1/sensors/${shop.sensorId}/readings`, {
        readings: [{ at: later(minute).toISOString(), temperatureC: 22 + minute / 100 }],
      })
      asked = []
      const jobs = await workOff(worker, [watchQueue(worker)])
      return { jobs, statements: asked.length }
    }
    await read(1)
    const alone = await read(2)
    const others: { organizationId: string }[] = []
    for (let i = 0; i < 40; i += 1) others.push(await addChain(test, `Other ${i}`, NOON))
    await wakeEveryChain(database, 'watch')
    await database.prisma.$executeRaw`
      update job set due_at = ${later(60)}::timestamptz where organization_id = any (${others.map(({ organizationId }) => organizationId)}::uuid[])`
    const among = await read(3)
    expect(alone).toMatchObject({ jobs: 1 })
    expect(alone.statements).toBeGreaterThan(10)
    expect(among).toEqual(alone)
    for (const { organizationId } of others)
      expect(asked.filter((statement) => statement.includes(organizationId))).toEqual([])
    expect(await database.prisma.watchState.count()).toBe(1)
  })
})

describe.each(ONE_KIND)('what time brings about, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())
  afterEach(() => {
    test.clock.now = NOON
  })

  it('is looked at when it comes, without any cause, and seldom before', async () => {
    const { owner, app } = test
    await steadyAir(owner, shop.sensorId, 23, NOON)
    await workOff(app, queuesOf(app))
    const [{ at }] = await test.database.prisma.$queryRaw<[{ at: Date }]>`
      select min(last) as at from (select max(at) as last from temperature_reading group by sensor_id) as spoke`
    const silentFrom = new Date(at.getTime() + 180 * MINUTE)
    const silent = async () =>
      (await owner.read<{ items: Alert[] }>('/v1/alerts?kind=sensorSilent')).items.length
    const before = await silent()
    let looks = 0
    for (let ms = NOON.getTime(); ms <= silentFrom.getTime(); ms += MINUTE) {
      test.clock.now = new Date(ms)
      looks += await workOff(app, queuesOf(app))
    }
    expect(await silent()).toBe(before)
    expect(looks).toBeLessThanOrEqual((silentFrom.getTime() - NOON.getTime()) / (5 * MINUTE) + 2)
    test.clock.now = new Date(silentFrom.getTime() + 1)
    await workOff(app, queuesOf(app))
    expect(await silent()).toBeGreaterThan(before)
  })

  it('is done after a start that came too late: a daily mail whose hour no process saw', async () => {
    const { app, owner, database } = test
    const mailing = { database, config: { ...app.config, smtpUrl: 'smtp://127.0.0.1:1' } }
    const { organizationId } = await database.prisma.shop.findUniqueOrThrow({ where: { id: shop.shopId } })
    await database.prisma.alert.create({
      data: {
        organizationId,
        shopId: shop.shopId,
        kind: 'bayClash',
        severity: 'warning',
        code: 'alert.asWritten',
        params: { text: 'Something to tell' },
        subjectKind: 'booking',
        subjectId: shop.shopId,
        openedAt: NOON,
      },
    })
    const mails = () => database.prisma.delivery.count({ where: { webhookId: null } })
    // Noon in New York; the hour that is chosen comes at 13:00.
    await owner.put('/v1/me/digest', { hour: 13 })
    await workOff(app, [digestQueue(mailing)])
    expect(await mails()).toBe(0)
    test.clock.now = later(59)
    expect(await workOff(app, [digestQueue(mailing)])).toBe(0)
    // Nothing ran between 12:59 and 14:20.
    test.clock.now = later(140)
    expect(await workOff(app, [digestQueue(mailing)])).toBe(1)
    expect(await mails()).toBe(1)
    // Once a day, and again the next.
    test.clock.now = later(24 * 60)
    expect(await workOff(app, [digestQueue(mailing)])).toBe(0)
    test.clock.now = later(25 * 60)
    expect(await workOff(app, [digestQueue(mailing)])).toBe(1)
    expect(await mails()).toBe(2)
  })
})

it('a process that ends between a cause and its job: the job runs after the next start', async () => {
  const test = await startTestApp('server')
  const shop = await makeShop(test.owner)
  await receive(test.owner, shop, { date: '2031-05-01' })
  // No job ever ran here; this process ends, and another is started on the same database.
  await test.end()
  const database = await connect({ dataDir: '', databaseUrl: test.url }, MIGRATIONS)
  const app = await buildApp({ config: test.app.config, database, clock: () => NOON })
  try {
    const alerts = () =>
      inChainOf(shop.shopId, (tx) => tx.alert.findMany({ where: { kind: 'expiredOnShelf' } }))
    const inChainOf = async <Result>(id: string, what: Parameters<typeof inChain<Result>>[2]) => {
      const { organizationId } = await database.prisma.shop.findUniqueOrThrow({ where: { id } })
      return inChain(database, organizationId, what)
    }
    expect(await alerts()).toEqual([])
    await workOff(app, queuesOf(app))
    expect(await alerts()).toHaveLength(1)
  } finally {
    await app.close()
    await database.close()
  }
})
