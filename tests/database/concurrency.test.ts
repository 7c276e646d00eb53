import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { verifyLedger } from '../../apps/api/src/supply/cartridges/verify.ts'
import { KINDS } from '../support/databases.ts'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

const AT_ONCE = 50

describe.each(KINDS)(`${AT_ONCE} at once, on the %s database`, (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
  })
  afterAll(() => test.end())

  const everybody = <Result>(act: (i: number) => Promise<Result>) =>
    Promise.all(Array.from({ length: AT_ONCE }, (_, i) => act(i)))
  const tally = (values: (number | string)[]) =>
    values.reduce<Record<string, number>>(
      (counts, value) => ({ ...counts, [value]: (counts[value] ?? 0) + 1 }),
      {},
    )

  it('shut each other out: one owner of the chain is left', async () => {
    const owners = await Promise.all(
      Array.from({ length: 5 }, async (_, i) => {
        const email = `owner-${i}@test.example`
        const memberships = [{ shopId: null, role: 'owner' }]
        const body = { name: `Owner ${i}`, email, password: PASSWORD, memberships }
        const { id } = await test.owner.made('/v1/people', body)
        return { id, client: await test.signIn(email) }
      }),
    )
    const me = await test.owner.read<{ id: string }>('/v1/me')
    await owners[0]!.client.patch(
      `/v1/people/${me.id}`,
      { memberships: [{ shopId: null, role: 'viewer' }] },
      1,
    )
    // Each shuts out the next one, round in a circle.
    const answers = await Promise.all(
      owners.map(({ client }, i) =>
        client.patch(`/v1/people/${owners[(i + 1) % owners.length]!.id}`, { disabled: true }, 1),
      ),
    )
    expect(answers.every(({ status }) => status === 200)).toBe(false)
    const { items } = await test.owner.read<{ items: { id: string; disabledAt: string | null }[] }>(
      '/v1/people',
    )
    const left = owners.filter(({ id }) => items.find((each) => each.id === id)!.disabledAt === null)
    expect(left.length).toBeGreaterThan(0)
    await left[0]!.client.patch(`/v1/people/${me.id}`, { memberships: [{ shopId: null, role: 'owner' }] }, 1)
  })

  it('book one bay: one gets it, the others are told that it is taken', async () => {
    const { orderId } = await makeJoint(test.owner, shop)
    const answers = await everybody((i) =>
      test.owner.post('/v1/bookings', {
        resourceId: shop.bayId,
        repairOrderId: orderId,
        startsAt: new Date(NOON.getTime() + 86_400_000 + i * 60_000).toISOString(),
        endsAt: new Date(NOON.getTime() + 90_000_000 + i * 60_000).toISOString(),
      }),
    )
    expect(tally(answers.map(({ status }) => status))).toEqual({ 201: 1, 409: AT_ONCE - 1 })
    expect(tally(answers.filter(({ status }) => status === 409).map(({ body }) => body.type))).toEqual({
      '/problems/booking-taken': AT_ONCE - 1,
    })
    // Every loser is told who has it.
    const winner = answers.find(({ status }) => status === 201)!.body as { repairOrderNumber: string }
    for (const { status, body } of answers) {
      if (status === 409) expect(body.detail).toContain(`for ${winner.repairOrderNumber}`)
    }
  })

  it('take counted clamp sets: never more than there are', async () => {
    const { orderId } = await makeJoint(test.owner, shop)
    const answers = await everybody(() =>
      test.owner.post('/v1/bookings', {
        resourceId: shop.clampSetId,
        repairOrderId: orderId,
        startsAt: '2031-05-09T08:00:00Z',
        endsAt: '2031-05-09T10:00:00Z',
      }),
    )
    expect(tally(answers.map(({ status }) => status))).toEqual({ 201: 3, 409: AT_ONCE - 3 })
  })

  it('squeeze one cartridge: what is handed out is what it held', async () => {
    const [piece] = await receive(test.owner, shop)
    const joints = []
    for (let i = 0; i < AT_ONCE; i += 1) joints.push(await makeJoint(test.owner, shop))
    // 200 mL at 45 mL each: four of them, and 20 mL left.
    const answers = await Promise.all(
      joints.map(({ jointId }) =>
        test.owner.post(
          `/v1/joints/${jointId}/bonds`,
          application(shop, piece!.id, { amountMl: 45, bayId: null }),
        ),
      ),
    )
    expect(tally(answers.map(({ status }) => status))).toEqual({ 201: 4, 409: AT_ONCE - 4 })
    const losers = answers.filter(({ status }) => status === 409)
    expect(
      tally(losers.flatMap(({ body }) => body.reasons.map(({ code }: { code: string }) => code))),
    ).toEqual({ 'too-little': AT_ONCE - 4 })
    expect(await test.owner.read(`/v1/cartridges/${piece!.id}`)).toMatchObject({
      state: 'opened',
      remainingMl: 20,
    })
    expect(await verifyLedger(test.database)).toEqual([])
  })

  it('move one vehicle while others take its clamps off: every bond is released once', async () => {
    const [piece] = await receive(test.owner, shop)
    const { orderId, jointId } = await makeJoint(test.owner, shop)
    const bond = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
    await test.owner.made(`/v1/bonds/${bond.id}/clamping`)
    const pulled = { alreadyHappened: true, reason: 'It was in the way' }
    const answers = await everybody((i) =>
      i % 2 === 0
        ? test.owner.post(`/v1/repairOrders/${orderId}/move`, pulled)
        : test.owner.post(`/v1/bonds/${bond.id}/release`, pulled),
    )
    expect(answers.every(({ status }) => status === 201 || status === 409)).toBe(true)
    const { entries } = await test.owner.read<{ entries: { kind: string }[] }>(`/v1/bonds/${bond.id}/record`)
    expect(entries.filter(({ kind: each }) => each === 'released')).toHaveLength(1)
    const after = await test.owner.read<{ incidents: object[] }>(`/v1/bonds/${bond.id}`)
    expect(after.incidents).toHaveLength(1)
  })

  it('edit one repair order from the same version: one does, the others are told', async () => {
    const { orderId } = await makeJoint(test.owner, shop)
    const answers = await everybody((i) =>
      test.owner.patch(`/v1/repairOrders/${orderId}`, { note: `Note ${i}` }, 1),
    )
    expect(tally(answers.map(({ status }) => status))).toEqual({ 200: 1, 412: AT_ONCE - 1 })
  })
})
