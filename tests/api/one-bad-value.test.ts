import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Check {
  readonly mayMove: boolean
  readonly reasons: readonly { code: string; message: string }[]
}

describe('one bad value', () => {
  let test: TestApp
  let shop: Shop
  let other: Shop
  let bondId: string
  let otherBondId: string
  beforeAll(async () => {
    test = await startTestApp('embedded')
    shop = await makeShop(test.owner)
    other = await makeShop(test.owner)
    bondId = await startBond(shop)
    otherBondId = await startBond(other)
  })
  afterAll(() => test.end())

  const run = (sql: string) => test.database.prisma.$executeRawUnsafe(sql)
  const startBond = async (where: Shop) => {
    await steadyAir(test.owner, where.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, where)
    const { jointId } = await makeJoint(test.owner, where)
    const { id } = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(where, piece!.id))
    return id
  }
  const send = (sensorId: string, temperatureC: number, at: string = NOON.toISOString()) =>
    test.owner.post(`/v1/sensors/${sensorId}/readings`, { readings: [{ at, temperatureC }] })
  const table = (sensorId: string, csv: string) =>
    test.owner.post(`/v1/sensors/${sensorId}/readingsTable`, { csv })
  const everyList = async () => {
    for (const path of [
      '/v1/overview',
      '/v1/bonds',
      `/v1/shops/${shop.shopId}/bayBoard`,
      `/v1/shops/${other.shopId}/bayBoard`,
      `/v1/repairOrders?shopId=${shop.shopId}`,
      `/v1/bonds/${bondId}`,
      `/v1/bonds/${bondId}/curve`,
      `/v1/bonds/${bondId}/record`,
      `/v1/resources/${shop.bayId}/temperature`,
    ])
      expect((await test.owner.get(path)).status, path).toBe(200)
  }

  it('is refused by name where it is no temperature of a bay or shelf', async () => {
    for (const sensorId of [shop.sensorId, shop.storageSensorId])
      for (const temperatureC of [320, 60.1, -40.1]) {
        const answer = await send(sensorId, temperatureC)
        expect([temperatureC, answer.status]).toEqual([temperatureC, 422])
        expect(answer.body.reasons[0].field).toBe('body.readings.0.temperatureC')
      }
    const answer = await table(
      shop.sensorId,
      'at,temperatureC\n2031-05-07T16:00:01Z,20\n2031-05-07T15:59:00Z,61',
    )
    expect(answer.status).toBe(422)
    expect(answer.body.reasons[0]).toMatchObject({ field: 'body.csv' })
    expect(answer.body.reasons[0].message).toMatch(/^Line 3, temperatureC: .*60 degC/)
    await everyList()
  })

  it('is refused where the air at the joint is none that anybody works in', async () => {
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop)
    const hot = application(shop, piece!.id, { airTemperatureC: 61 })
    const answer = await test.owner.post(`/v1/joints/${jointId}/bonds`, hot)
    expect(answer.status).toBe(422)
    expect(answer.body.reasons[0].field).toBe('body.airTemperatureC')
  })

  it('lets the air of an oven be as hot as ovens are, within the one range', async () => {
    const { id } = await test.owner.made(`/v1/shops/${shop.shopId}/sensors`, {
      name: 'Oven air',
      place: 'bay',
      resourceId: shop.ovenId,
      accuracyC: 2,
    })
    expect((await send(id, 180)).status).toBe(201)
    expect((await send(id, 301, '2031-05-07T15:00:00Z')).status).toBe(422)
  })

  it('is refused where an instant has no offset, in JSON and in a table', async () => {
    const json = await send(shop.sensorId, 20, '2031-05-07T15:59:00')
    expect(json.status).toBe(422)
    expect(json.body.reasons[0].field).toBe('body.readings.0.at')
    const csv = await table(shop.sensorId, 'at,temperatureC\n2031-05-07T15:59:00,20')
    expect(csv.status).toBe(422)
    expect(csv.body.reasons[0].message).toMatch(/^Line 2, at: must be an instant with an offset/)
  })

  it('that cannot be computed with reads not ready, alerts, and breaks no list', async () => {
    const owner = test.owner
    test.clock.now = new Date(NOON.getTime() + 600_000)
    await owner.made(`/v1/bonds/${bondId}/clamping`)
    await owner.made(`/v1/bonds/${otherBondId}/clamping`)
    test.clock.now = new Date(NOON.getTime() + 12 * 3_600_000)
    // Whatever slipped past: here a thermometer that is off by 50 degrees, which nothing can be computed with.
    await run('alter table sensor drop constraint if exists sensor__accuracy')
    await run(`update sensor set accuracy_c = 50 where id = '${shop.sensorId}'`)
    const check = await owner.read<Check>(`/v1/bonds/${bondId}/moveCheck`)
    expect(check.mayMove).toBe(false)
    expect(check.reasons).toMatchObject([{ code: 'cannot-compute' }])
    expect(check.reasons[0]!.message).toContain('cannot be computed: not ready')
    await everyList()
    expect((await owner.post(`/v1/bonds/${bondId}/release`, {})).status).toBe(409)

    await watchAll(test.database, test.clock.now)
    const { items } = await owner.read<{ items: { kind: string; subject: { id: string } }[] }>('/v1/alerts')
    expect(items.filter(({ kind }) => kind === 'notComputed').map(({ subject }) => subject.id)).toEqual([
      bondId,
    ])

    await run(`update sensor set accuracy_c = 0.5 where id = '${shop.sensorId}'`)
    await watchAll(test.database, test.clock.now)
    const after = await owner.read<{ items: { kind: string }[] }>('/v1/alerts')
    expect(after.items.filter(({ kind }) => kind === 'notComputed')).toEqual([])
  })
})

describe('a chain that cannot be watched', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await startTestApp('embedded')
  })
  afterAll(() => test.end())

  it('keeps no other from being watched, and says since when it is not', async () => {
    const { database, owner } = test
    const shop = await makeShop(owner)
    await watchAll(database, NOON)
    const seen = async () =>
      (await owner.read<{ watched: { at: string | null; failing: boolean } }>('/v1/overview')).watched
    expect(await seen()).toMatchObject({ at: NOON.toISOString(), failing: false })

    // A second chain, and a first that fails whenever it is looked at.
    await database.prisma.organization.create({ data: { name: 'Another chain' } })
    await database.execute(`
      create function fail_here() returns trigger language plpgsql as $$ begin raise exception 'broken'; end $$;
      create trigger broken before insert on alert for each row
        when (new.shop_id = '${shop.shopId}') execute function fail_here();`)
    await owner.made(`/v1/shops/${shop.shopId}/sensors`, {
      name: 'Never sends',
      place: 'bay',
      resourceId: shop.otherBayId,
      accuracyC: 1,
    })
    const later = new Date(NOON.getTime() + 600_000)
    test.clock.now = later
    await watchAll(database, later).catch(() => undefined)
    expect(await seen()).toMatchObject({ at: NOON.toISOString(), failing: true })
    const states = await database.prisma.watchState.findMany()
    expect(states.map(({ watchedAt, failedAt }) => [watchedAt, failedAt])).toEqual(
      expect.arrayContaining([
        [NOON, later],
        [later, null],
      ]),
    )
    const health = await test.anybody.get('/health')
    expect(health.body).toMatchObject({ status: 'ready', watching: 'failing' })

    await database.execute('drop trigger broken on alert')
    await watchAll(database, later)
    expect(await seen()).toMatchObject({ at: later.toISOString(), failing: false })
  })
})
