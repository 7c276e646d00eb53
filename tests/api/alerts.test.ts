import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import {
  addJoint,
  application,
  makeJoint,
  makeShop,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

const DAY = 86_400_000

describe('alerts that time brings about', () => {
  let test: TestApp
  let shop: Shop
  let owner: Client
  beforeAll(async () => {
    test = await startTestApp('embedded')
    owner = test.owner
    shop = await makeShop(owner)
    await steadyAir(test.owner, shop.sensorId, 22, NOON)
    await steadyAir(test.owner, shop.storageSensorId, 22, NOON)
  })
  afterAll(() => test.end())

  /** A session ends after a fortnight, so whoever comes back later signs in again. */
  const at = async (days: number) => {
    test.clock.now = new Date(NOON.getTime() + days * DAY)
    owner = await test.signIn('owner@test.example')
  }
  const look = async (days: number) => {
    await at(days)
    await watchAll(test.database, test.clock.now)
    const { items } = await owner.read<{ items: { id: string; kind: string; message: string }[] }>(
      '/v1/alerts?limit=500',
    )
    return items
  }
  const kinds = (items: readonly { kind: string }[]) => items.map(({ kind }) => kind).toSorted()

  it('are told once while they last, and close by themselves', async () => {
    const [piece] = await receive(owner, shop, { date: '2031-05-20', lotNumber: 'SHORT' })
    const soon = await look(0)
    expect(kinds(soon)).toEqual(['expiresSoon'])
    expect(soon[0]!.message).toBe(
      `${'Test adhesive'} ${soon[0]!.message.match(/adhesive (\d+)/)![1]}, lot SHORT: 1 cartridge to be used by the end of 20 May 2031`,
    )
    expect((await look(0))[0]!.id).toBe(soon[0]!.id)

    const dead = await look(14)
    // Nobody has sent a temperature for a fortnight either.
    expect(kinds(dead)).toEqual(['expiredOnShelf', 'sensorSilent', 'sensorSilent'])
    await owner.made(`/v1/cartridges/${piece!.id}/discard`, { reason: 'Expired: to hazardous waste' })
    expect(kinds(await look(14))).toEqual(['sensorSilent', 'sensorSilent'])
    await steadyAir(owner, shop.sensorId, 22, test.clock.now, 1)
    await steadyAir(owner, shop.storageSensorId, 22, test.clock.now, 1)
    expect(await look(14)).toEqual([])
  })

  it('tell of an opened cartridge past its open life, of a hold, and of a cabinet that was cooked', async () => {
    const [piece] = await receive(owner, shop, { date: '2032-12-31', lotNumber: 'HOT' })
    await owner.made(`/v1/cartridges/${piece!.id}/opening`)
    await at(50)
    await steadyAir(owner, shop.sensorId, 22, test.clock.now, 1)
    await steadyAir(owner, shop.storageSensorId, 41, test.clock.now, 1)
    const { items } = await owner.read<{ items: { id: string }[] }>('/v1/lots?lotNumber=HOT')
    // Nobody put it on hold: the cabinet's own readings did.
    const lot = await owner.read<{ hold: { kind: string; by: string } }>(`/v1/lots/${items[0]!.id}`)
    expect(lot.hold).toMatchObject({ kind: 'excursion', by: 'Storage watch' })
    const told = await look(50)
    expect(kinds(told)).toEqual(['lotOnHold', 'openedPastOpenLife', 'storageExcursion'])
    expect(told.map(({ message }) => message).join()).toContain(
      'was at 41.0 °C; its storage range is 5.0 °C to 30.0 °C',
    )
    await owner.made(`/v1/lots/${items[0]!.id}/holdEnd`, { reason: 'The maker says that it is fine' })
    expect(kinds(await look(50))).toEqual(['openedPastOpenLife'])
  })

  it('say the same at every look, where two bonds speak of one booking, or one lot lay in two warm places', async () => {
    await at(51)
    const busy = await makeShop(owner)
    const { id: locationId } = await owner.made(`/v1/shops/${busy.shopId}/storageLocations`, {
      name: 'Annex',
    })
    const { id: annexSensorId } = await owner.made(`/v1/shops/${busy.shopId}/sensors`, {
      name: 'Annex air',
      place: 'storage',
      locationId,
      accuracyC: 0.5,
    })
    await steadyAir(owner, busy.sensorId, 23, test.clock.now)
    const pieces = await receive(owner, busy, { cartridges: 4, date: '2032-12-31', lotNumber: 'TWICE' })
    const { orderId, jointId } = await makeJoint(owner, busy)
    const otherJointId = await addJoint(owner, busy, orderId, { name: 'Door skin, right' })
    for (const [i, id] of [jointId, otherJointId].entries())
      await owner.made(`/v1/joints/${id}/bonds`, application(busy, pieces[i]!.id))
    const soon = (minutes: number) => new Date(test.clock.now.getTime() + minutes * 60_000).toISOString()
    await owner.made('/v1/bookings', {
      resourceId: busy.otherBayId,
      repairOrderId: orderId,
      startsAt: soon(30),
      endsAt: soon(90),
    })
    await owner.made(`/v1/shops/${busy.shopId}/moves`, { cartridgeIds: [pieces[3]!.id], locationId })
    test.clock.now = new Date(soon(5))
    for (const [sensorId, temperatureC] of [
      [busy.storageSensorId, 40],
      [annexSensorId, 44],
    ] as const)
      await owner.made(`/v1/sensors/${sensorId}/readings`, {
        readings: [{ at: test.clock.now.toISOString(), temperatureC }],
      })
    const told = async () => {
      await watchAll(test.database, test.clock.now)
      const { items } = await owner.read<{ items: { kind: string; message: string }[] }>(
        `/v1/alerts?shopId=${busy.shopId}`,
      )
      return items.map(({ kind, message }) => `${kind}: ${message}`).toSorted()
    }
    const first = await told()
    expect(first.filter((each) => each.startsWith('plannedMoveBeforeReady'))).toHaveLength(1)
    expect(first.filter((each) => each.startsWith('storageExcursion'))).toEqual([
      expect.stringContaining('lot TWICE in Annex, Cabinet: was at 44.0 °C'),
    ])
    const announced = () => test.database.prisma.outboxEvent.count({ where: { topic: 'alerts' } })
    const before = await announced()
    expect(await told()).toEqual(first)
    expect(await announced()).toBe(before)
  })

  it('are acknowledged by whoever was first', async () => {
    const [alert] = await look(50)
    const first = await owner.made<{ acknowledged: { by: string; at: string } }>(
      `/v1/alerts/${alert!.id}/acknowledgement`,
    )
    test.clock.now = new Date(test.clock.now.getTime() + 60_000)
    const second = await owner.made<{ acknowledged: { by: string; at: string } }>(
      `/v1/alerts/${alert!.id}/acknowledgement`,
    )
    expect(second.acknowledged).toEqual(first.acknowledged)
  })
})
