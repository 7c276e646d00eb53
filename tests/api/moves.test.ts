import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { inChain } from '../../apps/api/src/foundation/database/in-chain.ts'
import { lockedCartridges } from '../../apps/api/src/supply/cartridges/cartridge-store.ts'
import { verifyLedger } from '../../apps/api/src/supply/cartridges/verify.ts'
import { ONE_KIND } from '../support/databases.ts'
import { makeShop, receive, type Shop } from '../support/fixtures.ts'
import { NOON, PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

interface Line {
  readonly cartridgeId: string
  readonly outcome: string | null
}
interface Shipment {
  readonly id: string
  readonly onTheWay: number
  readonly lines: Line[]
  readonly warnings: string[]
}

describe.each(ONE_KIND)('moves, on the %s database', (kind) => {
  let test: TestApp
  let here: Shop
  let there: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    here = await makeShop(test.owner)
    there = await makeShop(test.owner, 'America/Los_Angeles')
  })
  afterAll(() => test.end())

  const later = (hours: number) => new Date(NOON.getTime() + hours * 3_600_000)
  const cartridge = (id: string) =>
    test.owner.read<{ state: string; shopId: string; remainingMl: number; locationName: string | null }>(
      `/v1/cartridges/${id}`,
    )
  const onHand = async (id: string) => {
    const { lotId } = await test.owner.read<{ lotId: string }>(`/v1/cartridges/${id}`)
    const lot = await test.owner.read<{
      onHand: { shopId: string; sealed: number; opened: number; volumeMl: number }[]
    }>(`/v1/lots/${lotId}`)
    const of = (shop: Shop) => {
      const row = lot.onHand.find(({ shopId }) => shopId === shop.shopId)
      return row ? [row.sealed, row.opened, row.volumeMl] : [0, 0, 0]
    }
    return { here: of(here), there: of(there) }
  }
  const send = (cartridgeIds: string[], toShopId = there.shopId) =>
    test.owner.post(`/v1/shops/${here.shopId}/shipments`, {
      toShopId,
      cartridgeIds,
      reason: 'They run out first',
    })
  const sent = async (cartridgeIds: string[]) => {
    const response = await send(cartridgeIds)
    expect(response.status, JSON.stringify(response.body)).toBe(201)
    return response.body as Shipment
  }
  const kindsOf = async (id: string) => {
    const { items } = await test.owner.read<{ items: { kind: string; by: string; reason: string }[] }>(
      `/v1/stockMovements?cartridgeId=${id}`,
    )
    for (const { by, reason } of items) expect([by, reason !== '']).toEqual(['Owner', true])
    return items.map(({ kind: each }) => each).toReversed()
  }

  it('puts cartridges on another shelf, once', async () => {
    const pieces = await receive(test.owner, here, { cartridges: 2 })
    const { id: locationId } = await test.owner.made(`/v1/shops/${here.shopId}/storageLocations`, {
      name: 'Shelf B',
    })
    const move = { cartridgeIds: pieces.map(({ id }) => id), locationId }
    await test.owner.made(`/v1/shops/${here.shopId}/moves`, move)
    await test.owner.made(`/v1/shops/${here.shopId}/moves`, move)
    expect(await cartridge(pieces[0]!.id)).toMatchObject({ locationName: 'Shelf B', state: 'sealed' })
    expect(await kindsOf(pieces[0]!.id)).toEqual(['received', 'moved'])
    const elsewhere = await test.owner.post(`/v1/shops/${here.shopId}/moves`, {
      ...move,
      locationId: there.locationId,
    })
    expect(elsewhere.body.reasons[0].field).toBe('body.locationId')
  })

  it('belongs to neither shop on its way, and to the other once it has arrived', async () => {
    const [sealed, opened] = await receive(test.owner, here, { cartridges: 2 })
    await test.owner.made(`/v1/cartridges/${opened!.id}/opening`)
    await test.owner.made(`/v1/cartridges/${opened!.id}/correction`, {
      remainingMl: 120,
      reason: 'Weighed it',
    })
    const shipment = await sent([sealed!.id, opened!.id])
    expect(await onHand(sealed!.id)).toEqual({ here: [0, 0, 0], there: [0, 0, 0] })
    expect(await cartridge(opened!.id)).toMatchObject({
      state: 'inTransit',
      remainingMl: 120,
      locationName: null,
    })
    const stock = await test.owner.read<{ items: { id: string }[] }>(`/v1/cartridges?limit=500`)
    expect(stock.items.some(({ id }) => id === sealed!.id)).toBe(false)
    expect(await verifyLedger(test.database)).toEqual([])

    await test.owner.made(`/v1/shipments/${shipment.id}/arrival`, { locationId: there.locationId })
    expect(await onHand(sealed!.id)).toEqual({ here: [0, 0, 0], there: [1, 1, 320] })
    expect(await cartridge(opened!.id)).toMatchObject({
      state: 'opened',
      shopId: there.shopId,
      remainingMl: 120,
    })
    expect(await kindsOf(sealed!.id)).toEqual(['received', 'sent', 'arrived'])
    expect(await verifyLedger(test.database)).toEqual([])
  })

  it('takes what is on hold only from somebody who says so, and it stays on hold there', async () => {
    const [piece] = await receive(test.owner, here)
    const { lotId } = await test.owner.read<{ lotId: string }>(`/v1/cartridges/${piece!.id}`)
    await test.owner.made(`/v1/lots/${lotId}/hold`, { reason: 'Piston cracked' })
    const asked = await send([piece!.id])
    expect(asked.status).toBe(422)
    expect(asked.body.reasons[0]).toMatchObject({ field: 'body.heldToo' })
    expect(asked.body.reasons[0].message).toContain('Piston cracked')
    expect(await cartridge(piece!.id)).toMatchObject({ state: 'sealed', shopId: here.shopId })
    const shipment = await test.owner.made(`/v1/shops/${here.shopId}/shipments`, {
      toShopId: there.shopId,
      cartridgeIds: [piece!.id],
      heldToo: true,
      reason: 'The maker fetches them there',
    })
    await test.owner.made(`/v1/shipments/${shipment.id}/arrival`)
    expect(await test.owner.read(`/v1/cartridges/${piece!.id}`)).toMatchObject({
      state: 'sealed',
      shopId: there.shopId,
      hold: { reason: 'Piston cracked' },
    })
  })

  it('counts a printed day to its end in the zone of the shop that it has come to', async () => {
    const [piece] = await receive(test.owner, here)
    const before = piece!.effectiveExpiryAt
    const shipment = await sent([piece!.id])
    await test.owner.made(`/v1/shipments/${shipment.id}/arrival`)
    const after = await test.owner.read<{ effectiveExpiryAt: string }>(`/v1/cartridges/${piece!.id}`)
    expect(Date.parse(after.effectiveExpiryAt) - Date.parse(before)).toBe(3 * 3_600_000)
  })

  it('is given up as lost, and may turn up all the same', async () => {
    const [a, b] = await receive(test.owner, here, { cartridges: 2 })
    const shipment = await sent([a!.id, b!.id])
    const loss = { cartridgeIds: [a!.id], reason: 'The box came open' }
    await test.owner.made(`/v1/shipments/${shipment.id}/loss`, loss)
    await test.owner.made(`/v1/shipments/${shipment.id}/loss`, loss)
    expect(await cartridge(a!.id)).toMatchObject({ state: 'missing' })
    const rest = await test.owner.made<Shipment>(`/v1/shipments/${shipment.id}/arrival`)
    expect(rest.onTheWay).toBe(0)
    expect(
      rest.lines.map(({ outcome }) => outcome).toSorted((x, y) => String(x).localeCompare(String(y))),
    ).toEqual(['arrived', 'lost'])
    expect(await onHand(a!.id)).toEqual({ here: [0, 0, 0], there: [1, 0, 200] })
    const late = await test.owner.post(`/v1/shipments/${shipment.id}/loss`, {
      ...loss,
      cartridgeIds: [b!.id],
    })
    expect(late.status).toBe(409)
    await test.owner.made(`/v1/shipments/${shipment.id}/arrival`, { cartridgeIds: [a!.id] })
    expect(await onHand(a!.id)).toEqual({ here: [0, 0, 0], there: [2, 0, 400] })
    expect(await kindsOf(a!.id)).toEqual(['received', 'sent', 'lost', 'arrived'])
    expect(await verifyLedger(test.database)).toEqual([])
  })

  it('does not take out of a newer box what an older one had lost', async () => {
    const [piece] = await receive(test.owner, here)
    const cartridgeIds = [piece!.id]
    const old = await sent(cartridgeIds)
    await test.owner.made(`/v1/shipments/${old.id}/loss`, { cartridgeIds, reason: 'Not in the box' })
    const count = await test.owner.made(`/v1/shops/${here.shopId}/stockCounts`, { locationId: null })
    await test.owner.made(`/v1/stockCounts/${count.id}/entries`, { cartridgeId: piece!.id })
    await test.owner.made(`/v1/stockCounts/${count.id}/finish`)
    await test.owner.made(`/v1/stockCounts/${count.id}/settlement`, { reason: 'Was never packed' })
    const takenIn = (id: string) => test.owner.post(`/v1/shipments/${id}/arrival`, { cartridgeIds })
    expect((await takenIn(old.id)).body.detail).toContain('has turned up elsewhere already')
    const newer = await sent(cartridgeIds)
    expect((await takenIn(old.id)).status).toBe(409)
    expect(await cartridge(piece!.id)).toMatchObject({ state: 'inTransit' })
    expect((await takenIn(newer.id)).body).toMatchObject({ onTheWay: 0, lines: [{ outcome: 'arrived' }] })
    expect(await verifyLedger(test.database)).toEqual([])
  })

  it('is told to both ends of its way, and nothing of it to anybody else', async () => {
    const [coming, theirs] = await receive(test.owner, here, { cartridges: 2 })
    const shipment = await sent([coming!.id])
    await test.owner.made('/v1/people', {
      name: 'Parts there',
      email: `parts.${kind}@test.example`,
      password: PASSWORD,
      memberships: [{ shopId: there.shopId, role: 'partsManager' }],
    })
    const narrow = await test.signIn(`parts.${kind}@test.example`)
    const scanned = await narrow.post(`/v1/shops/${there.shopId}/scans`, { text: coming!.code })
    expect(scanned.body).toMatchObject({ kind: 'cartridge', cartridge: { state: 'inTransit' } })
    expect((await narrow.get(`/v1/cartridges/${coming!.id}`)).status).toBe(200)

    expect((await narrow.get(`/v1/cartridges/${theirs!.id}`)).status).toBe(404)
    const unseen = await narrow.post(`/v1/shops/${there.shopId}/scans`, { text: theirs!.code })
    expect(unseen.body.reasons[0].field).toBe('body.text')
    const count = await narrow.made(`/v1/shops/${there.shopId}/stockCounts`, { locationId: null })
    const cartridgeIds = [theirs!.id]
    for (const [path, body] of [
      [`/v1/shops/${there.shopId}/moves`, { cartridgeIds, locationId: null }],
      [`/v1/shops/${there.shopId}/shipments`, { cartridgeIds, toShopId: here.shopId, reason: 'Theirs' }],
      [`/v1/shipments/${shipment.id}/arrival`, { cartridgeIds }],
      [`/v1/shipments/${shipment.id}/loss`, { cartridgeIds, reason: 'Not in the box' }],
      [`/v1/stockCounts/${count.id}/entries`, { cartridgeId: theirs!.id }],
    ] as const) {
      const refused = await narrow.post(path, body)
      expect([path, refused.status]).toEqual([path, 404])
      expect(refused.text).not.toContain(theirs!.code)
    }
  })

  it('locks totals in one order for everybody: a heap comes lot by lot', async () => {
    const lots = await Promise.all([1, 2].map(() => receive(test.owner, here, { cartridges: 6 })))
    const ids = lots.flat().map(({ id }) => id)
    const { id } = await test.database.prisma.organization.findFirstOrThrow()
    const rows = await inChain(test.database, id, (tx) => lockedCartridges(tx, ids))
    const order = rows.map((row) => row.lot_id)
    expect(order).toEqual(order.toSorted((a, b) => (a < b ? -1 : 1)))
  })

  it('refuses what is not there to be sent, opened or thrown away', async () => {
    const [piece] = await receive(test.owner, here)
    await sent([piece!.id])
    expect((await send([piece!.id])).body.detail).toContain('on its way to another shop')
    expect((await test.owner.post(`/v1/cartridges/${piece!.id}/opening`)).status).toBe(409)
    expect((await test.owner.post(`/v1/cartridges/${piece!.id}/discard`, { reason: 'Too old' })).status).toBe(
      409,
    )
    const [other] = await receive(test.owner, here)
    expect((await send([other!.id], here.shopId)).body.reasons[0].field).toBe('body.toShopId')
    expect((await send([other!.id, other!.id])).body.reasons[0].field).toBe('body.cartridgeIds')
  })

  it('sends one cartridge once, however many send it at once, and takes it in once', async () => {
    const [piece] = await receive(test.owner, here)
    const answers = await Promise.all(Array.from({ length: 20 }, () => send([piece!.id])))
    expect(answers.map(({ status }) => status).filter((status) => status === 201)).toHaveLength(1)
    const { id } = answers.find(({ status }) => status === 201)!.body as Shipment
    const arrivals = await Promise.all(
      Array.from({ length: 20 }, (_, i) =>
        i % 2 === 0
          ? test.owner.post(`/v1/shipments/${id}/arrival`)
          : test.owner.post(`/v1/shipments/${id}/loss`, {
              cartridgeIds: [piece!.id],
              reason: 'Cannot find it',
            }),
      ),
    )
    expect(arrivals.every(({ status }) => status === 201 || status === 409)).toBe(true)
    expect((await kindsOf(piece!.id)).filter((each) => each === 'arrived')).toHaveLength(1)
    expect(await onHand(piece!.id)).toEqual({ here: [0, 0, 0], there: [1, 0, 200] })
    expect(await verifyLedger(test.database)).toEqual([])
  })

  it('takes the warmth of each shelf for the time on that shelf, in whatever order the readings come', async () => {
    const cool = await makeShop(test.owner)
    const send33 = (sensorId: string, temperatureC: number, hours: number[]) =>
      test.owner.made(`/v1/sensors/${sensorId}/readings`, {
        readings: hours.map((hour) => ({ at: later(hour).toISOString(), temperatureC })),
      })
    const { id: warmId } = await test.owner.made(`/v1/shops/${cool.shopId}/storageLocations`, {
      name: 'Warm shelf',
    })
    const warmSensor = await test.owner.made(`/v1/shops/${cool.shopId}/sensors`, {
      name: 'Warm air',
      place: 'storage',
      locationId: warmId,
      accuracyC: 0.5,
    })
    const [piece] = await receive(test.owner, cool, { date: '2031-12-31' })
    // Twelve hours at the label's temperature, then a day ten degrees above it: 24 h of life (Q10 = 2).
    test.clock.now = later(12)
    await test.owner.made(`/v1/shops/${cool.shopId}/moves`, { cartridgeIds: [piece!.id], locationId: warmId })
    test.clock.now = later(36)
    await send33(warmSensor.id, 33, [0, 24, 36])
    await send33(cool.storageSensorId, 23, [0, 36])
    await send33(warmSensor.id, 33, [12, 6])
    const warm = await test.owner.read<{ effectiveExpiryAt: string }>(`/v1/cartridges/${piece!.id}`)
    expect(Date.parse(piece!.effectiveExpiryAt) - Date.parse(warm.effectiveExpiryAt)).toBeCloseTo(
      24 * 3_600_000,
      -3,
    )
    // Back to the cool shelf: what the warm one reads from now on is not its business, what it read before still is.
    await test.owner.made(`/v1/shops/${cool.shopId}/moves`, {
      cartridgeIds: [piece!.id],
      locationId: cool.locationId,
    })
    test.clock.now = later(60)
    await send33(warmSensor.id, 33, [48, 60])
    await send33(cool.storageSensorId, 23, [60])
    const after = await test.owner.read<{ effectiveExpiryAt: string }>(`/v1/cartridges/${piece!.id}`)
    expect(after.effectiveExpiryAt).toBe(warm.effectiveExpiryAt)
    test.clock.now = NOON
  })
})
