import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ONE_KIND } from '../support/databases.ts'
import { application, freshBay, makeJoint, makeShop, receive, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Bond {
  readonly id: string
  readonly amountMl: number
  readonly shortAmount: { neededMl: number; by: string; reason: string } | null
  readonly estimate: object
  readonly moveCheck: { readyAt: object }
}

describe.each(ONE_KIND)('less adhesive than the joint needs, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())

  const at = (minutes: number) => {
    test.clock.now = new Date(NOON.getTime() + minutes * 60_000)
  }
  const job = async () => {
    at(0)
    shop = await freshBay(test.owner, shop, NOON)
    const [piece] = await receive(test.owner, shop)
    const { jointId, orderId } = await makeJoint(test.owner, shop)
    const { joints } = await test.owner.read<{ joints: { amountNeededMl: number }[] }>(
      `/v1/repairOrders/${orderId}`,
    )
    const send = (changes: object, path = 'bonds') =>
      test.owner.post(`/v1/joints/${jointId}/${path}`, application(shop, piece!.id, changes))
    return { jointId, piece: piece!, neededMl: joints[0]!.amountNeededMl, send }
  }
  const REASON = 'The bead was laid on half of the flange, as the manual draws it'

  it('is asked about with both figures, checked or started, and nothing is booked meanwhile', async () => {
    const { jointId, piece, neededMl, send } = await job()
    expect(Math.ceil(neededMl)).toBe(43)
    const question = {
      code: 'belowNeed',
      field: 'body.amountMl',
      message: '30 mL recorded, this joint needs 43 mL',
    }
    expect((await send({ amountMl: 30 }, 'bondChecks')).body).toMatchObject({
      mayStart: true,
      questions: [question],
    })
    const asked = await send({ amountMl: 30 })
    expect(asked.status).toBe(409)
    expect(asked.body).toMatchObject({ type: '/problems/amount-questioned', reasons: [question] })
    expect(await test.owner.read(`/v1/cartridges/${piece.id}`)).toMatchObject({
      state: 'sealed',
      remainingMl: 200,
    })
    // A reason that says nothing is none.
    const empty = await send({ amountMl: 30, shortAmount: { reason: ' ok ' } })
    expect(empty.body.reasons[0]).toMatchObject({ field: 'body.shortAmount.reason' })
    expect(
      (await send({ amountMl: 30, shortAmount: { reason: REASON } }, 'bondChecks')).body.questions,
    ).toEqual([])

    const bond = await test.owner.made<Bond>(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece.id, { amountMl: 30, shortAmount: { reason: REASON } }),
    )
    expect(bond).toMatchObject({ amountMl: 30, shortAmount: { by: 'Owner', reason: REASON } })
    expect(bond.shortAmount!.neededMl).toBeCloseTo(neededMl, 2)
    const { application: recorded, chain } = await test.owner.read<{ application: object; chain: object }>(
      `/v1/bonds/${bond.id}/record`,
    )
    expect(recorded).toMatchObject({ by: 'Owner', amount: { shortBecause: REASON } })
    expect(chain).toMatchObject({ intact: true, fault: null })
    // What the joint needs is edited later: the record keeps what it needed then.
    await test.database.execute(`update joint set length_mm = 100 where id = '${jointId}'`)
    expect((await test.owner.read<Bond>(`/v1/bonds/${bond.id}`)).shortAmount!.neededMl).toBeCloseTo(
      neededMl,
      2,
    )
    await test.database.execute(
      `update bond set short_amount_reason = 'All was well' where id = '${bond.id}'`,
    )
    expect((await test.owner.read<{ chain: object }>(`/v1/bonds/${bond.id}/record`)).chain).toMatchObject({
      intact: false,
      fault: expect.stringContaining('short_amount_reason'),
    })
  })

  it('counts all the cartridges, whole millilitres as they are read, and keeps no reason where none was asked', async () => {
    const { jointId, piece, send } = await job()
    const [other] = await receive(test.owner, shop)
    const more = [{ cartridgeId: other!.id, amountMl: 12 }]
    expect((await send({ amountMl: 30, moreCartridges: more })).body.reasons[0].message).toBe(
      '42 mL recorded, this joint needs 43 mL',
    )
    const bond = await test.owner.made<Bond>(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece.id, {
        amountMl: 30.1,
        moreCartridges: more,
        shortAmount: { reason: REASON },
      }),
    )
    expect(bond.shortAmount).toBeNull()
  })

  it('makes no joint ready sooner, nor later', async () => {
    const full = await job()
    const enough = (await full.send({ amountMl: 50 })).body as Bond
    const short = (await (await job()).send({ amountMl: 20, shortAmount: { reason: REASON } })).body as Bond
    for (const minutes of [60, 240, 600]) {
      at(minutes)
      const [a, b] = await Promise.all(
        [enough, short].map(({ id }) => test.owner.read<Bond>(`/v1/bonds/${id}`)),
      )
      expect(b!.moveCheck).toEqual(a!.moveCheck)
      expect(b!.estimate).toEqual(a!.estimate)
    }
  })

  it('is recorded, not refused, where the adhesive is on already: with what happened as the reason', async () => {
    const { send } = await job()
    const happened = {
      amountMl: 20,
      prepared: { surfaces: true, dryFit: false, skimCoat: true },
      alreadyHappened: true,
      reason: 'The gun ran empty, and the panel was on by then',
    }
    const { status, body } = await send(happened)
    expect(status).toBe(201)
    expect(body.shortAmount).toMatchObject({ reason: happened.reason, by: 'Owner' })
  })
})
