import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { wakeEveryChain } from '../../apps/api/src/foundation/jobs/job-store.ts'
import { workOff } from '../../apps/api/src/foundation/jobs/work.ts'
import { queuesOf } from '../../apps/api/src/queues.ts'
import { verifyRecords } from '../../apps/api/src/cure/records/verify.ts'
import { KINDS } from '../support/databases.ts'
import { application, freshBay, makeJoint, makeShop, receive, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

const MINUTE = 60_000
const HOUR = 60 * MINUTE
const DAY = 24 * HOUR
const daysAgo = (days: number) => new Date(NOON.getTime() - days * DAY)

describe.each(KINDS)('what grows with time, in the %s database', (kind) => {
  let test: TestApp
  let organizationId: string
  let stranger: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    const { prisma } = test.database
    organizationId = (await prisma.organization.findFirstOrThrow()).id
    stranger = (await prisma.organization.create({ data: { name: 'Another chain' } })).id
  })
  afterAll(() => test.end())
  const retention = () => queuesOf(test.app).filter(({ name }) => name === 'retention')

  it('is taken out of the chain whose turn it is once it is old enough, and nothing else', async () => {
    const { prisma } = test.database
    const personId = (await prisma.person.findFirstOrThrow()).id
    const webhook = await prisma.webhook.create({
      data: {
        organizationId,
        name: 'Board',
        url: 'http://127.0.0.1:9/',
        secret: 's',
        createdAt: NOON,
        createdBy: 'O',
      },
    })
    await prisma.outboxEvent.deleteMany()
    for (const chain of [organizationId, stranger]) {
      await prisma.outboxEvent.createMany({
        data: [6, 8].map((days) => ({ organizationId: chain, topic: `${days}`, createdAt: daysAgo(days) })),
      })
      await prisma.idempotencyKey.createMany({
        data: [29, 31].map((days) => ({
          organizationId: chain,
          actorId: personId,
          key: `${days}`,
          requestHash: '',
          createdAt: daysAgo(days),
        })),
      })
    }
    await prisma.signInSession.createMany({
      data: [-1, 1].map((days) => ({
        secretHash: `ends ${days}`,
        organizationId,
        personId,
        createdAt: daysAgo(20),
        expiresAt: daysAgo(days),
      })),
    })
    const message = { organizationId, webhookId: webhook.id, payload: '{}', nextAttemptAt: NOON }
    await prisma.delivery.createMany({
      data: [
        { ...message, messageId: 'young', createdAt: daysAgo(89), deliveredAt: daysAgo(89) },
        { ...message, messageId: 'arrived', createdAt: daysAgo(91), deliveredAt: daysAgo(91) },
        { ...message, messageId: 'given up', createdAt: daysAgo(91), givenUpAt: daysAgo(90) },
        { ...message, messageId: 'still to be sent', createdAt: daysAgo(91) },
      ],
    })
    await prisma.job.create({ data: { organizationId, queue: 'retention' } })
    expect(await workOff(test.app, retention())).toBe(1)

    const events = await prisma.outboxEvent.findMany({ orderBy: { topic: 'asc' } })
    const mine = <Row extends { organizationId: string }>(rows: Row[]) =>
      rows.filter((row) => row.organizationId === organizationId)
    expect(mine(events).map(({ topic }) => topic)).toEqual(['6'])
    expect(events).toHaveLength(3)
    const keys = await prisma.idempotencyKey.findMany()
    expect(mine(keys).map(({ key }) => key)).toEqual(['29'])
    expect(keys).toHaveLength(3)
    const sessions = await prisma.signInSession.findMany({ where: { secretHash: { startsWith: 'ends' } } })
    expect(sessions.map(({ secretHash }) => secretHash)).toEqual(['ends -1'])
    const deliveries = await prisma.delivery.findMany({ orderBy: { messageId: 'asc' } })
    expect(deliveries.map(({ messageId }) => messageId)).toEqual(['still to be sent', 'young'])
    // And again tomorrow.
    const [next] = await prisma.job.findMany({ where: { organizationId, queue: 'retention' } })
    expect(next!.dueAt).toEqual(new Date(NOON.getTime() + DAY))
  })
})

describe.each(KINDS)('the readings of a bay, in the %s database', (kind) => {
  /** Every five minutes over six days; the bond is made after the third. */
  const START = new Date(NOON.getTime() - 3 * DAY)
  const COUNT = 6 * 24 * 12
  let test: TestApp
  let shop: Shop
  let running: Shop
  let owner: Client
  let bondId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    owner = test.owner
    shop = await makeShop(owner)
    running = await freshBay(owner, shop, NOON, 23, 1)
    for (const sensorId of [shop.sensorId, running.sensorId, shop.storageSensorId]) await fill(sensorId)
    bondId = await bond(shop)
    await bond(running)
    at(10)
    await owner.made(`/v1/bonds/${bondId}/clamping`)
    at(30 * 60)
    await owner.made(`/v1/bonds/${bondId}/release`)
  }, 60_000)
  afterAll(() => test.end())

  const at = (minutes: number) => {
    test.clock.now = new Date(NOON.getTime() + minutes * MINUTE)
  }
  const fill = async (sensorId: string) => {
    const { prisma } = test.database
    const { organizationId } = await prisma.sensor.findUniqueOrThrow({ where: { id: sensorId } })
    await prisma.temperatureReading.createMany({
      data: Array.from({ length: COUNT }, (_, i) => ({
        organizationId,
        sensorId,
        at: new Date(START.getTime() + i * 5 * MINUTE),
        temperatureC: 23 + Math.sin(i / 5) + i / 10_000,
        relativeHumidityPercent: 40,
      })),
      skipDuplicates: true,
    })
  }
  const bond = async (where: Shop) => {
    const { jointId } = await makeJoint(owner, where)
    const [piece] = await receive(owner, where)
    return (await owner.made(`/v1/joints/${jointId}/bonds`, application(where, piece!.id))).id
  }
  const readings = (sensorId: string) =>
    test.database.prisma.temperatureReading.findMany({ where: { sensorId }, orderBy: { at: 'asc' } })

  it('are thinned once they are old, to the coldest and the warmest of each hour, and the record stands', async () => {
    const before = await readings(shop.sensorId)
    // Sessions have run out by then.
    test.clock.now = new Date(NOON.getTime() + 420 * DAY)
    owner = await test.signIn('owner@test.example')
    const record = await owner.read<object>(`/v1/bonds/${bondId}/record`)
    const [others, stored] = [await readings(running.sensorId), await readings(shop.storageSensorId)]

    await wakeEveryChain(test.database, 'retention')
    const queues = queuesOf(test.app).filter(({ name }) => name === 'retention')
    await workOff(test.app, queues)
    test.clock.now = new Date(test.clock.now.getTime() + 2000)
    await workOff(test.app, queues)

    const after = await readings(shop.sensorId)
    expect(after.length).toBeLessThan(before.length * 0.6)
    const [from, until] = [NOON.getTime() - 3 * HOUR, NOON.getTime() + 31 * HOUR]
    const hours = new Map<number, number[]>()
    for (const { at: read, temperatureC } of before) {
      const hour = Math.floor(read.getTime() / HOUR)
      hours.set(hour, [...(hours.get(hour) ?? []), temperatureC])
    }
    for (const [hour, values] of hours) {
      const kept = after.filter((row) => Math.floor(row.at.getTime() / HOUR) === hour)
      if (hour * HOUR >= from && (hour + 1) * HOUR <= until) expect(kept).toHaveLength(values.length)
      else if ((hour + 1) * HOUR <= from || hour * HOUR > until) expect(kept.length).toBeLessThanOrEqual(2)
      const left = kept.map(({ temperatureC }) => temperatureC)
      expect([Math.min(...left), Math.max(...left)]).toEqual([Math.min(...values), Math.max(...values)])
    }
    // A bond that is not ended, and cartridges that may still be used, need every one.
    const hour = (rows: typeof after) => rows.filter((row) => row.at >= NOON)
    expect(hour(await readings(running.sensorId))).toEqual(hour(others))
    expect(hour(await readings(shop.storageSensorId))).toEqual(hour(stored))

    expect(await owner.read<object>(`/v1/bonds/${bondId}/record`)).toEqual(record)
    expect((await verifyRecords(test.database)).faults).toEqual([])
    // Once more takes nothing.
    await wakeEveryChain(test.database, 'retention')
    test.clock.now = new Date(test.clock.now.getTime() + DAY)
    owner = await test.signIn('owner@test.example')
    await workOff(test.app, queues)
    expect(await readings(shop.sensorId)).toEqual(after)
  })
})
