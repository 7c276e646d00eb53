import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { ONE_KIND } from '../support/databases.ts'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Kept {
  readonly items: { cartridgeId: string; code: string; amountMl: number; neededAt: string; madeBy: string }[]
}
/** About 130 mL: one cartridge of 200 mL holds it once. */
const LONG = { lengthMm: 8000 }

describe.each(ONE_KIND)('reservations, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
  })
  afterAll(() => test.end())
  const later = (days: number) => new Date(NOON.getTime() + days * 86_400_000).toISOString()
  const fresh = async () => {
    shop = await makeShop(test.owner)
    return shop
  }
  const reserve = (jointId: string, body: object = {}) =>
    test.owner.post(`/v1/joints/${jointId}/reservation`, body)
  const kept = async (jointId: string, body: object = {}) => {
    const response = await reserve(jointId, body)
    expect(response.status, JSON.stringify(response.body)).toBe(201)
    return (response.body as Kept).items
  }
  const book = (orderId: string, startsAt: string, hours = 2) =>
    test.owner.made('/v1/bookings', {
      resourceId: shop.bayId,
      repairOrderId: orderId,
      startsAt,
      endsAt: new Date(Date.parse(startsAt) + hours * 3_600_000).toISOString(),
    })
  const needOf = async (orderId: string) => {
    const { joints } = await test.owner.read<{ joints: { amountNeededMl: number }[] }>(
      `/v1/repairOrders/${orderId}`,
    )
    return joints[0]!.amountNeededMl
  }
  const alerts = async () => {
    await watchAll(test.database, test.clock.now)
    const { items } = await test.owner.read<{ items: { message: string; repairOrderId: string }[] }>(
      '/v1/alerts?kind=reservedDies',
    )
    return items
  }

  it('keeps what dies first of what is alive on the day of use, an opened one that suffices before all', async () => {
    await fresh()
    const [tooEarly] = await receive(test.owner, shop, { date: '2031-05-10' })
    const [first] = await receive(test.owner, shop, { date: '2031-06-30' })
    const [last] = await receive(test.owner, shop, { date: '2031-12-31' })
    const { orderId, jointId } = await makeJoint(test.owner, shop, LONG)
    await book(orderId, later(7))
    const [one] = await kept(jointId)
    expect(one).toMatchObject({ cartridgeId: first!.id, neededAt: later(7), madeBy: 'Owner' })
    // Asked again, it is the same.
    expect((await kept(jointId))[0]!.cartridgeId).toBe(first!.id)

    await test.owner.made(`/v1/cartridges/${last!.id}/opening`)
    const other = await makeJoint(test.owner, shop, LONG)
    await book(other.orderId, later(8))
    expect((await kept(other.jointId))[0]!.cartridgeId).toBe(last!.id)
    expect(tooEarly!.id).not.toBe(first!.id)
  })

  it('tells who has it when there is no more, and gives back what is released', async () => {
    await fresh()
    const [piece] = await receive(test.owner, shop)
    const a = await makeJoint(test.owner, shop, LONG)
    const b = await makeJoint(test.owner, shop, LONG)
    await kept(a.jointId)
    const refused = await reserve(b.jointId)
    expect(refused.body.type).toBe('/problems/stock-short')
    expect(refused.body.detail).toContain(`of ${piece!.code}, reserved by Owner`)
    await test.owner.delete(`/v1/joints/${a.jointId}/reservation`)
    expect((await kept(b.jointId))[0]!.cartridgeId).toBe(piece!.id)
  })

  it('stops others at the nozzle, and ends with the bond', async () => {
    await fresh()
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const a = await makeJoint(test.owner, shop, LONG)
    const b = await makeJoint(test.owner, shop)
    await kept(a.jointId)
    const taken = await test.owner.post(
      `/v1/joints/${b.jointId}/bonds`,
      application(shop, piece!.id, { amountMl: 100 }),
    )
    expect(taken.body.reasons.map(({ code }: { code: string }) => code)).toEqual(['reserved'])
    // The rest of it is free for all.
    await test.owner.made(`/v1/joints/${b.jointId}/bonds`, application(shop, piece!.id, { amountMl: 43 }))
    await test.owner.made(
      `/v1/joints/${a.jointId}/bonds`,
      application(shop, piece!.id, { amountMl: 147, bayId: shop.otherBayId }),
    )
    expect((await test.owner.read<Kept>(`/v1/reservations?shopId=${shop.shopId}`)).items).toEqual([])
  })

  it('never refuses to a joint what is kept for it, written in whole millilitres, nor leaves the other short', async () => {
    await fresh()
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const a = await makeJoint(test.owner, shop)
    const b = await makeJoint(test.owner, shop, LONG)
    const needs = await Promise.all([a, b].map(({ orderId }) => needOf(orderId)))
    expect(needs.every((ml) => !Number.isInteger(ml))).toBe(true)
    await test.owner.made(`/v1/cartridges/${piece!.id}/opening`)
    await test.owner.made(`/v1/cartridges/${piece!.id}/correction`, {
      remainingMl: Math.round((needs[0]! + needs[1]!) * 1000) / 1000,
      reason: 'Weighed',
    })
    await kept(a.jointId)
    await kept(b.jointId)
    for (const [i, { jointId }] of [a, b].entries())
      await test.owner.made(
        `/v1/joints/${jointId}/bonds`,
        application(shop, piece!.id, {
          amountMl: Math.ceil(needs[i]!),
          bayId: i === 0 ? shop.bayId : shop.otherBayId,
        }),
      )
    expect(await test.owner.read(`/v1/cartridges/${piece!.id}`)).toMatchObject({ state: 'empty' })
  })

  it('keeps another when the kept one will not do, and says so; and says when nothing is left', async () => {
    await fresh()
    const [first] = await receive(test.owner, shop, { date: '2031-06-30' })
    const [second] = await receive(test.owner, shop, { date: '2031-08-31' })
    const { orderId, jointId } = await makeJoint(test.owner, shop, LONG)
    await book(orderId, later(3))
    await kept(jointId)
    await test.owner.made(`/v1/cartridges/${first!.id}/discard`, { reason: 'Fell off the shelf' })
    const [told] = await alerts()
    expect(told).toMatchObject({ repairOrderId: orderId })
    expect(told!.message).toContain(
      `The cartridge ${first!.code} is discarded. Reserved instead: ${second!.code}`,
    )
    expect((await test.owner.read<Kept>(`/v1/reservations?jointId=${jointId}`)).items[0]!.cartridgeId).toBe(
      second!.id,
    )
    const { lotId } = await test.owner.read<{ lotId: string }>(`/v1/cartridges/${second!.id}`)
    test.clock.now = new Date(NOON.getTime() + 60_000)
    await test.owner.made(`/v1/lots/${lotId}/hold`, { reason: 'Supplier asks to wait' })
    const messages = (await alerts()).map(({ message }) => message).join()
    expect(messages).toContain('is on hold: Supplier asks to wait. Nothing else here suffices')
    await receive(test.owner, shop)
    await kept(jointId)
    test.clock.now = NOON
  })

  it('follows the booking: what is dead on the new day is given up', async () => {
    await fresh()
    const [early] = await receive(test.owner, shop, { date: '2031-05-20' })
    const [late] = await receive(test.owner, shop, { date: '2031-12-31' })
    const { orderId, jointId } = await makeJoint(test.owner, shop, LONG)
    const booking = await book(orderId, later(5))
    expect((await kept(jointId))[0]!.cartridgeId).toBe(early!.id)
    await test.owner.patch(`/v1/bookings/${booking.id}`, { startsAt: later(20), endsAt: later(21) }, 1)
    await alerts()
    expect((await test.owner.read<Kept>(`/v1/reservations?jointId=${jointId}`)).items).toMatchObject([
      { cartridgeId: late!.id, neededAt: later(20), madeBy: 'The plan' },
    ])
  })

  const reservations = async (jointId: string) =>
    (await test.owner.read<Kept>(`/v1/reservations?jointId=${jointId}`)).items

  it('ends with the job, whoever reaches for it meanwhile, and nothing is kept for what is done or bonded', async () => {
    await fresh()
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const [piece] = await receive(test.owner, shop)
    const done = (orderId: string) => test.owner.patch(`/v1/repairOrders/${orderId}`, { state: 'done' }, 1)
    const a = await makeJoint(test.owner, shop, LONG)
    await kept(a.jointId)
    expect((await done(a.orderId)).status).toBe(200)
    expect(await reservations(a.jointId)).toEqual([])
    expect((await reserve(a.jointId)).body.type).toBe('/problems/wrong-state')

    const b = await makeJoint(test.owner, shop, LONG)
    await Promise.all([
      ...Array.from({ length: 5 }, () => reserve(b.jointId)),
      done(b.orderId),
      ...Array.from({ length: 5 }, () => reserve(b.jointId)),
    ])
    expect(await reservations(b.jointId)).toEqual([])

    const other = await makeJoint(test.owner, shop)
    await test.owner.made(`/v1/joints/${other.jointId}/bonds`, application(shop, piece!.id))
    const bonded = await reserve(other.jointId)
    expect(bonded.body).toMatchObject({ type: '/problems/wrong-state' })
  })

  it('gives back what is still kept for a job that was done before', async () => {
    await fresh()
    await receive(test.owner, shop, { cartridges: 2 })
    const { orderId, jointId } = await makeJoint(test.owner, shop, LONG)
    const [one] = await kept(jointId)
    await test.database.prisma.repairOrder.update({ where: { id: orderId }, data: { state: 'done' } })
    await test.owner.made(`/v1/cartridges/${one!.cartridgeId}/discard`, { reason: 'Fell off the shelf' })
    expect((await alerts()).filter(({ repairOrderId }) => repairOrderId === orderId)).toEqual([])
    expect(await reservations(jointId)).toEqual([])
  })

  it('opens no cartridge so early that it is dead for somebody to whom it is promised', async () => {
    await fresh()
    const [piece] = await receive(test.owner, shop)
    const a = await makeJoint(test.owner, shop)
    const b = await makeJoint(test.owner, shop)
    // It counts for 30 days once opened.
    await kept(a.jointId, { neededAt: later(40) })
    const refused = await reserve(b.jointId, { neededAt: later(5) })
    expect(refused.body.type).toBe('/problems/stock-short')
    await kept(b.jointId, { neededAt: later(15) })
    await book(b.orderId, later(5))
    await receive(test.owner, shop)
    const told = (await alerts()).find(({ repairOrderId }) => repairOrderId === a.orderId)
    expect(told!.message).toContain(
      `The cartridge ${piece!.code} has expired. Opened on 2031-05-12, and counts for 30 days once opened`,
    )
    expect((await reservations(a.jointId))[0]!.cartridgeId).not.toBe(piece!.id)
    expect((await reservations(b.jointId))[0]!.cartridgeId).toBe(piece!.id)
  })

  it('is needed when somebody said, until a booking says otherwise', async () => {
    await fresh()
    await receive(test.owner, shop)
    const { orderId, jointId } = await makeJoint(test.owner, shop, LONG)
    await kept(jointId, { neededAt: later(9) })
    await alerts()
    expect(await reservations(jointId)).toMatchObject([{ neededAt: later(9) }])
    await book(orderId, later(4))
    await alerts()
    expect(await reservations(jointId)).toMatchObject([{ neededAt: later(4) }])
  })

  it('gives what a cartridge holds to who needs it first, and tries again for the others once more has come', async () => {
    await fresh()
    const [piece] = await receive(test.owner, shop)
    const a = await makeJoint(test.owner, shop)
    const b = await makeJoint(test.owner, shop, LONG)
    await kept(a.jointId, { neededAt: later(3) })
    const [ofB] = await kept(b.jointId, { neededAt: later(2) })
    await test.owner.made(`/v1/cartridges/${piece!.id}/opening`)
    await test.owner.made(`/v1/cartridges/${piece!.id}/correction`, {
      remainingMl: ofB!.amountMl,
      reason: 'Weighed it',
    })
    const ofA = async () => (await alerts()).find(({ repairOrderId }) => repairOrderId === a.orderId)
    const all = ofB!.amountMl.toFixed(0)
    expect((await ofA())!.message).toContain(
      `The cartridge ${piece!.code} holds ${all} mL: ${all} mL go to who needs it before`,
    )
    expect([await reservations(a.jointId), await reservations(b.jointId)]).toMatchObject([
      [],
      [{ cartridgeId: piece!.id }],
    ])
    const [more] = await receive(test.owner, shop)
    expect((await ofA())!.message).toContain(`Reserved instead: ${more!.code}`)
    expect(await reservations(a.jointId)).toMatchObject([
      { cartridgeId: more!.id, neededAt: later(3), madeBy: 'The plan' },
    ])
  })

  it('serves the plan in the order in which it is needed, and names who goes short', async () => {
    await fresh()
    await receive(test.owner, shop)
    const a = await makeJoint(test.owner, shop, LONG)
    const b = await makeJoint(test.owner, shop, LONG)
    await book(a.orderId, later(2))
    await book(b.orderId, later(1))
    const plan = await test.owner.made<{ made: { jointId: string }[]; short: { jointId: string }[] }>(
      `/v1/shops/${shop.shopId}/planReservations`,
    )
    expect(plan.made.map(({ jointId }) => jointId)).toEqual([b.jointId])
    expect(plan.short.map(({ jointId }) => jointId)).toEqual([a.jointId])
  })
})

describe('a hundred people who reach for the last cartridge at once, on a real PostgreSQL', () => {
  it('one gets it, ninety-nine are told who has it', async () => {
    const test = await startTestApp('server')
    try {
      const shop = await makeShop(test.owner)
      const [piece] = await receive(test.owner, shop)
      const joints = await Promise.all(Array.from({ length: 100 }, () => makeJoint(test.owner, shop, LONG)))
      const answers = await Promise.all(
        joints.map(({ jointId }) => test.owner.post(`/v1/joints/${jointId}/reservation`)),
      )
      const won = answers.filter(({ status }) => status === 201)
      const lost = answers.filter(({ status }) => status !== 201)
      expect(won).toHaveLength(1)
      const { repairOrderNumber } = (won[0]!.body as { items: { repairOrderNumber: string }[] }).items[0]!
      for (const { body } of lost) {
        expect(body.type).toBe('/problems/stock-short')
        expect(body.detail).toContain(`${repairOrderNumber}, `)
        expect(body.detail).toContain(`of ${piece!.code}, reserved by Owner`)
      }
      expect(lost).toHaveLength(99)
    } finally {
      await test.end()
    }
  })
})
