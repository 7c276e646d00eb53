import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { verifyLedger } from '../../apps/api/src/supply/cartridges/verify.ts'
import { ONE_KIND } from '../support/databases.ts'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

interface Recall {
  readonly cartridges: { code: string; shopId: string; state: string }[]
  readonly joints: { repairOrderId: string; codes: string[]; amountMl: number; appliedBy: string }[]
  readonly people: { name: string; why: string[] }[]
  readonly hiddenShops: number
}

describe.each(ONE_KIND)('hold and recall, on the %s database', (kind) => {
  let test: TestApp
  let here: Shop
  let there: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    here = await makeShop(test.owner)
    there = await makeShop(test.owner)
    await steadyAir(test.owner, here.sensorId, 23, NOON)
  })
  afterAll(() => test.end())

  const lotOf = async (cartridgeId: string) =>
    (await test.owner.read<{ lotId: string }>(`/v1/cartridges/${cartridgeId}`)).lotId

  it('finds every cartridge, every joint and everybody to tell, across shops, and as a table', async () => {
    const pieces = await receive(test.owner, here, { cartridges: 3, lotNumber: `R-${kind}` })
    const [a, b, c] = pieces
    const { orderId, jointId } = await makeJoint(test.owner, here)
    await test.owner.made(
      `/v1/joints/${jointId}/bonds`,
      application(here, a!.id, { amountMl: 200, moreCartridges: [{ cartridgeId: b!.id, amountMl: 30 }] }),
    )
    const shipment = await test.owner.made(`/v1/shops/${here.shopId}/shipments`, {
      toShopId: there.shopId,
      cartridgeIds: [c!.id],
      reason: 'They run out',
    })
    await test.owner.made(`/v1/shipments/${shipment.id}/arrival`)
    await test.owner.made('/v1/people', {
      name: 'Parts there',
      email: `parts.${kind}@test.example`,
      password: PASSWORD,
      memberships: [{ shopId: there.shopId, role: 'partsManager' }],
    })
    await test.owner.made('/v1/people', {
      name: 'Parts here',
      email: `parts.here.${kind}@test.example`,
      password: PASSWORD,
      memberships: [{ shopId: here.shopId, role: 'partsManager' }],
    })
    const lotId = await lotOf(a!.id)
    const recall = await test.owner.read<Recall>(`/v1/lots/${lotId}/recall`)
    expect(recall.cartridges.map(({ code, state, shopId }) => [code, state, shopId])).toEqual(
      expect.arrayContaining([
        [a!.code, 'empty', here.shopId],
        [b!.code, 'opened', here.shopId],
        [c!.code, 'sealed', there.shopId],
      ]),
    )
    expect(recall.joints).toMatchObject([{ repairOrderId: orderId, amountMl: 230, appliedBy: 'Owner' }])
    expect(recall.joints[0]!.codes.toSorted((x, y) => x.localeCompare(y))).toEqual(
      [a!.code, b!.code].toSorted((x, y) => x.localeCompare(y)),
    )
    // Who approved the data sheet keeps the whole chain's stock, and is told as well.
    const isApprover = ({ name }: { name: string }) => /^Parts manager \d+$/.test(name)
    const names = recall.people.filter((each) => !isApprover(each)).map(({ name }) => name)
    expect(names).toEqual(['Owner', 'Parts here', 'Parts there'])
    expect(recall.people[0]!.why).toContain('Made 1 joint with it')

    const csv = await test.owner.get(`/v1/lots/${lotId}/recall.csv`)
    expect(csv.headers['content-type']).toContain('text/csv')
    expect(csv.text.split('\r\n').filter(Boolean)).toHaveLength(1 + 3 + 1)

    const narrow = await test.signIn(`parts.${kind}@test.example`)
    const seen = await narrow.read<Recall>(`/v1/lots/${lotId}/recall`)
    expect(seen.cartridges.map(({ code }) => code)).toEqual([c!.code])
    expect(seen).toMatchObject({ joints: [], hiddenShops: 1 })
    // Who works in a shop that one does not see, or bonded there, is not told.
    const told = seen.people.filter((each) => !isApprover(each))
    expect(told.map(({ name, why }) => [name, why.length])).toEqual([
      ['Owner', 1],
      ['Parts there', 1],
    ])
  })

  it('never says that what has expired may be used, and says that it may as long as one is in date', async () => {
    const pieces = await receive(test.owner, here, { cartridges: 2, date: '2031-05-08' })
    const lotId = await lotOf(pieces[0]!.id)
    const says = async () =>
      test.owner.read<{ mayBeUsed: string; cartridges: { isExpired: boolean }[] }>(`/v1/lots/${lotId}/recall`)
    expect(await says()).toMatchObject({ mayBeUsed: 'usable' })
    test.clock.now = new Date('2031-05-09T16:00:00Z')
    const late = await says()
    expect(late.mayBeUsed).toBe('expired')
    expect(late.cartridges.map(({ isExpired }) => isExpired)).toEqual([true, true])
    for (const { id } of pieces) await test.owner.made(`/v1/cartridges/${id}/discard`, { reason: 'Expired' })
    expect((await says()).mayBeUsed).toBe('noneLeft')
    test.clock.now = NOON
  })

  it('is scrapped in every shop in one act, and nothing of it is ever used again', async () => {
    const [a, b, c] = await receive(test.owner, here, { cartridges: 3 })
    const send = async (id: string) =>
      test.owner.made(`/v1/shops/${here.shopId}/shipments`, {
        toShopId: there.shopId,
        cartridgeIds: [id],
        reason: 'They run out',
      })
    const arrived = await send(b!.id)
    await test.owner.made(`/v1/shipments/${arrived.id}/arrival`)
    const onTheWay = await send(c!.id)
    const lotId = await lotOf(a!.id)
    const early = await test.owner.post(`/v1/lots/${lotId}/scrapping`, { reason: 'Piston cracked' })
    expect(early.body.type).toBe('/problems/wrong-state')
    await test.owner.made(`/v1/lots/${lotId}/hold`, { reason: 'Piston cracked' })
    const scrapped = await test.owner.made<{ hold: { kind: string } }>(`/v1/lots/${lotId}/scrapping`, {
      reason: 'Maker says: all of it',
    })
    expect(scrapped.hold.kind).toBe('scrapped')
    for (const piece of [a, b])
      expect(await test.owner.read(`/v1/cartridges/${piece!.id}`)).toMatchObject({ state: 'discarded' })
    await test.owner.made(`/v1/shipments/${onTheWay.id}/arrival`)
    const late = await test.owner.read<{ state: string; hold: object | null }>(`/v1/cartridges/${c!.id}`)
    expect(late.hold).not.toBeNull()
    // It is scrap where it arrives as well, and never on hand.
    expect(late.state).toBe('discarded')
    const lot = await test.owner.read<{ onHand: { sealed: number; volumeMl: number }[] }>(`/v1/lots/${lotId}`)
    expect(lot.onHand.every(({ sealed, volumeMl }) => sealed === 0 && volumeMl === 0)).toBe(true)
    expect((await test.owner.post(`/v1/lots/${lotId}/holdEnd`, { reason: 'Perhaps not' })).status).toBe(409)
    expect((await test.owner.post(`/v1/cartridges/${c!.id}/opening`)).status).toBe(409)
    expect(await verifyLedger(test.database)).toEqual([])
  })

  it.runIf(kind === 'server')(
    'locks the cartridges before their lot, as readings that hold it do',
    async () => {
      const [piece] = await receive(test.owner, here)
      const lotId = await lotOf(piece!.id)
      await test.owner.made(`/v1/lots/${lotId}/hold`, { reason: 'Piston cracked' })
      const { prisma } = test.database
      const scrapping = await prisma.$transaction(async (tx) => {
        await tx.$queryRaw`select 1 from cartridge where id = ${piece!.id}::uuid for no key update`
        const answer = test.owner
          .post(`/v1/lots/${lotId}/scrapping`, { reason: 'All of it' })
          .then((each) => each)
        await expect
          .poll(async () => prisma.$queryRaw`select 1 from pg_locks where not granted limit 1`, {
            timeout: 4000,
          })
          .toHaveLength(1)
        await tx.$queryRaw`select 1 from lot where id = ${lotId}::uuid for no key update nowait`
        return { answer }
      })
      expect((await scrapping.answer).status).toBe(201)
    },
  )

  it('quarantines the cartridges that lay there, also one that moved out since, until somebody entitled decides', async () => {
    const shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const lotNumber = `Q-${kind}`
    const [stayed, movedOut] = await receive(test.owner, shop, { lotNumber, cartridges: 2 })
    const lotId = await lotOf(stayed!.id)
    const { id: shelf } = await test.owner.made(`/v1/shops/${shop.shopId}/storageLocations`, {
      name: 'Shelf',
    })
    test.clock.now = new Date(NOON.getTime() + 2 * 3_600_000)
    await test.owner.made(`/v1/shops/${shop.shopId}/moves`, {
      cartridgeIds: [movedOut!.id],
      locationId: shelf,
    })
    const [later] = await receive(test.owner, shop, { lotNumber })
    // A person held the lot meanwhile: that must not hide what the thermometer says.
    await test.owner.made(`/v1/lots/${lotId}/hold`, { reason: 'Supplier asks to wait' })
    const reading = { at: new Date(NOON.getTime() + 3_600_000).toISOString(), temperatureC: -4 }
    await test.owner.made(`/v1/sensors/${shop.storageSensorId}/readings`, { readings: [reading] })
    await test.owner.made(`/v1/lots/${lotId}/holdEnd`, { reason: 'Supplier says it is good' })
    const quarantined = async (id: string) =>
      (await test.owner.read<{ quarantine: { reason: string } | null }>(`/v1/cartridges/${id}`)).quarantine
    expect((await quarantined(stayed!.id))?.reason).toContain('was at -4.0 °C')
    expect((await quarantined(movedOut!.id))?.reason).toContain('was at -4.0 °C')
    expect(await quarantined(later!.id)).toBeNull()

    const { jointId } = await makeJoint(test.owner, shop)
    const bond = (id: string) =>
      test.owner.post(
        `/v1/joints/${jointId}/bonds`,
        application(shop, id, { overrides: [{ code: 'quarantined', reason: 'It looks good' }] }),
      )
    expect((await bond(movedOut!.id)).body.reasons).toMatchObject([
      { code: 'quarantined', overridable: false },
    ])
    expect((await test.owner.post(`/v1/cartridges/${movedOut!.id}/opening`)).status).toBe(409)
    await test.owner.made('/v1/people', {
      name: 'Hand',
      email: `hand.${kind}@test.example`,
      password: PASSWORD,
      memberships: [{ shopId: shop.shopId, role: 'technician' }],
    })
    const decide = (client: Pick<typeof test.owner, 'post'>, id: string, decision: string) =>
      client.post(`/v1/cartridges/${id}/quarantineDecision`, {
        decision,
        reason: 'Thawed, and a bead cured well',
      })
    const hand = await test.signIn(`hand.${kind}@test.example`)
    expect((await decide(hand, movedOut!.id, 'use')).status).toBe(403)
    expect((await decide(test.owner, movedOut!.id, 'use')).status).toBe(201)
    expect((await decide(test.owner, movedOut!.id, 'use')).body.type).toBe('/problems/wrong-state')
    expect((await bond(movedOut!.id)).status).toBe(201)
    expect((await decide(test.owner, stayed!.id, 'discard')).body).toMatchObject({ state: 'discarded' })
    // Sent again, the reading says nothing new; one of after the decision does.
    await test.owner.made(`/v1/sensors/${shop.storageSensorId}/readings`, { readings: [reading] })
    expect(await quarantined(movedOut!.id)).toBeNull()
    const { quarantines } = await test.owner.read<{ quarantines: object[] }>(
      `/v1/cartridges/${movedOut!.id}/storage`,
    )
    expect(quarantines).toMatchObject([
      { decision: { kind: 'use', by: 'Owner', reason: 'Thawed, and a bead cured well' } },
    ])
    expect(await verifyLedger(test.database)).toEqual([])
    test.clock.now = NOON
  })

  it('does not say yes of a lot whose cartridges are all quarantined, nor of what is only on its way', async () => {
    const shop = await makeShop(test.owner)
    const [kept, sent] = await receive(test.owner, shop, { lotNumber: `Q2-${kind}`, cartridges: 2 })
    const lotId = await lotOf(kept!.id)
    const says = async () =>
      (await test.owner.read<{ mayBeUsed: string }>(`/v1/lots/${lotId}/recall`)).mayBeUsed
    test.clock.now = new Date(NOON.getTime() + 2 * 3_600_000)
    const reading = { at: new Date(NOON.getTime() + 3_600_000).toISOString(), temperatureC: -4 }
    await test.owner.made(`/v1/sensors/${shop.storageSensorId}/readings`, { readings: [reading] })
    await test.owner.made(`/v1/lots/${lotId}/holdEnd`, { reason: 'The supplier says the rest is good' })
    expect(await says()).toBe('quarantined')
    const csv = await test.owner.get(`/v1/lots/${lotId}/recall.csv`)
    expect(csv.text.split('\r\n')[1]).toContain('sealed,no,yes')
    await test.owner.made(`/v1/cartridges/${sent!.id}/quarantineDecision`, {
      decision: 'use',
      reason: 'A bead cured well',
    })
    expect(await says()).toBe('usable')
    await test.owner.made(`/v1/shops/${shop.shopId}/shipments`, {
      toShopId: there.shopId,
      cartridgeIds: [sent!.id],
      reason: 'They run out',
    })
    expect(await says()).toBe('away')
    test.clock.now = NOON
  })

  it('says how much of its life a cartridge was measured', async () => {
    const shop = await makeShop(test.owner)
    const [piece] = await receive(test.owner, shop)
    const storage = () =>
      test.owner.read<{ measuredShare: number | null; stays: { measuredShare: number | null }[] }>(
        `/v1/cartridges/${piece!.id}/storage`,
      )
    test.clock.now = new Date(NOON.getTime() + 4 * 3_600_000)
    expect(await storage()).toMatchObject({ measuredShare: null, stays: [{ measuredShare: null }] })
    await test.owner.made(`/v1/sensors/${shop.storageSensorId}/readings`, {
      readings: [0, 0.5, 1].map((hours) => ({
        at: new Date(NOON.getTime() + hours * 3_600_000).toISOString(),
        temperatureC: 20,
      })),
    })
    expect(await storage()).toMatchObject({ measuredShare: 0.25, stays: [{ measuredShare: 0.25 }] })
    test.clock.now = NOON
  })

  it('holds by itself what lay in a cabinet while it froze, and not what came later', async () => {
    const shop = await makeShop(test.owner)
    const [before] = await receive(test.owner, shop)
    test.clock.now = new Date(NOON.getTime() + 2 * 3_600_000)
    const [after] = await receive(test.owner, shop)
    const reading = { at: new Date(NOON.getTime() + 3_600_000).toISOString(), temperatureC: -4 }
    await test.owner.made(`/v1/sensors/${shop.storageSensorId}/readings`, { readings: [reading] })
    const hold = async (id: string) =>
      (
        await test.owner.read<{ hold: { kind: string; reason: string } | null }>(
          `/v1/lots/${await lotOf(id)}`,
        )
      ).hold
    expect(await hold(before!.id)).toMatchObject({ kind: 'excursion' })
    expect((await hold(before!.id))!.reason).toContain('was at -4.0 °C')
    expect(await hold(after!.id)).toBeNull()
    await test.owner.made(`/v1/lots/${await lotOf(before!.id)}/holdEnd`, {
      reason: 'Thawed, and tested good',
    })
    // The same reading again says nothing new.
    await test.owner.made(`/v1/sensors/${shop.storageSensorId}/readings`, { readings: [reading] })
    expect(await hold(before!.id)).toBeNull()
    // Nor does one that comes late; one of after the disposal does.
    const late = (hours: number) =>
      test.owner.made(`/v1/sensors/${shop.storageSensorId}/readings`, {
        readings: [{ at: new Date(NOON.getTime() + hours * 3_600_000).toISOString(), temperatureC: -5 }],
      })
    await late(1.5)
    expect(await hold(before!.id)).toBeNull()
    test.clock.now = new Date(NOON.getTime() + 3 * 3_600_000)
    await late(2.5)
    expect(await hold(before!.id)).toMatchObject({ kind: 'excursion' })
    test.clock.now = NOON
  })
})
