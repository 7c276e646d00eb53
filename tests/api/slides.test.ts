import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { verifyRecords } from '../../apps/api/src/cure/records/verify.ts'
import { ONE_KIND } from '../support/databases.ts'
import {
  acceptance,
  application,
  freshBay,
  makeJoint,
  makeShop,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Bond {
  readonly slidAt: string | null
  readonly slidBy: string | null
  readonly incidents: readonly { readonly id: string; readonly kind: string; readonly reason: string }[]
  readonly moveCheck: { readonly mayMove: boolean; readonly reasons: readonly { readonly code: string }[] }
}
interface BondRecord {
  readonly application: { readonly preparation: readonly string[] | null }
  readonly entries: readonly { readonly kind: string; readonly facts: Record<string, unknown> }[]
  readonly chain: { readonly intact: boolean }
}

describe.each(ONE_KIND)('panels that are slid, on the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
  })
  afterAll(() => test.end())

  const at = (minutes: number) => {
    test.clock.now = new Date(NOON.getTime() + minutes * 60_000)
  }
  const start = async (changes: object = {}) => {
    at(0)
    shop = await freshBay(test.owner, shop, NOON)
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop)
    const { id } = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id, changes))
    return `/v1/bonds/${id}`
  }
  const record = (bond: string) => test.owner.read<BondRecord>(`${bond}/record`)
  const kinds = async (bond: string) => (await record(bond)).entries.map((entry) => entry.kind)

  it('are written down while the work time runs, before the clamps and under them', async () => {
    const bond = await start()
    at(5)
    const slid = await test.owner.made<Bond>(`${bond}/slides`)
    expect(slid).toMatchObject({ slidAt: test.clock.now.toISOString(), slidBy: 'Owner', incidents: [] })
    await test.owner.made(`${bond}/clamping`)
    at(10)
    await test.owner.made(`${bond}/slides`, { reason: 'A gap at the front' })
    expect(await kinds(bond)).toEqual(['applied', 'slid', 'clamped', 'slid'])
    const told = await record(bond)
    expect(told.entries.at(-1)!.facts).toMatchObject({ by: 'Owner', reason: 'A gap at the front' })
    expect(told.chain.intact).toBe(true)
    // It changes no clock and holds nothing: what stands against the move is the cure alone.
    const { moveCheck } = await test.owner.read<Bond>(bond)
    expect(moveCheck.reasons.map(({ code }) => code)).toEqual(['handling-strength'])
  })

  it('are refused once the work time may be over, and nothing is written', async () => {
    const bond = await start()
    await test.owner.made(`${bond}/clamping`)
    at(70)
    const refused = await test.owner.post(`${bond}/slides`, {})
    expect(refused.body).toMatchObject({
      type: '/problems/bond-refused',
      status: 409,
      reasons: [{ code: 'work-time-over' }],
    })
    // Nobody entered in time either what is told a quarter of an hour later.
    const told = await test.owner.post(`${bond}/slides`, { at: NOON.toISOString() })
    expect(told.body).toMatchObject({ type: '/problems/bond-refused' })
    expect(await kinds(bond)).toEqual(['applied', 'clamped'])
  })

  it('hold the joint where it happened all the same, until somebody entitled has looked at it', async () => {
    const bond = await start()
    await test.owner.made(`${bond}/clamping`)
    at(70)
    const unsaid = await test.owner.post(`${bond}/slides`, { alreadyHappened: true })
    expect(unsaid.body).toMatchObject({ type: '/problems/invalid-request' })
    const reason = 'The door was pushed against it'
    const moved = await test.owner.made<Bond>(`${bond}/slides`, { alreadyHappened: true, reason })
    expect(moved.incidents).toMatchObject([{ kind: 'movedAfterWorkTime', reason }])
    const { items } = await test.owner.read<{ items: { kind: string }[] }>(`/v1/alerts?shopId=${shop.shopId}`)
    expect(items.map((alert) => alert.kind)).toContain('movedAfterWorkTime')
    at(48 * 60)
    // Long past handling strength, and held all the same.
    const held = await test.owner.read<Bond>(bond)
    expect(held.moveCheck.mayMove).toBe(false)
    expect(held.moveCheck.reasons.map(({ code }) => code)).toContain('clamped-late')
    const accepted = await acceptance(test.owner, moved.incidents[0]!.id)
    await test.owner.made(`/v1/incidents/${moved.incidents[0]!.id}/disposition`, accepted)
    expect(await kinds(bond)).toEqual(['applied', 'clamped', 'slid', 'incident', 'inspection', 'disposition'])
    const { moveCheck } = await test.owner.read<Bond>(bond)
    expect(moveCheck.reasons.map(({ code }) => code)).not.toContain('clamped-late')
  })

  it('hold the vehicle after the release too, whenever it is said to have been', async () => {
    const released = async () => {
      const bond = await start()
      await test.owner.made(`${bond}/clamping`)
      at(20 * 60)
      await steadyAir(test.owner, shop.sensorId, 23, test.clock.now, 19)
      await test.owner.made(`${bond}/release`)
      expect((await test.owner.read<Bond>(bond)).moveCheck.mayMove).toBe(true)
      return bond
    }
    const bond = await released()
    const unsaid = await test.owner.post(`${bond}/slides`, {})
    expect(unsaid.body).toMatchObject({
      type: '/problems/bond-refused',
      reasons: [{ code: 'work-time-over' }],
    })
    expect((await test.owner.read<Bond>(bond)).moveCheck.mayMove).toBe(true)
    const reason = 'Came away at the rear when it was pushed out'
    const moved = await test.owner.made<Bond>(`${bond}/slides`, { alreadyHappened: true, reason })
    expect(moved.incidents).toMatchObject([{ kind: 'movedAfterWorkTime', reason }])
    expect(moved.moveCheck).toMatchObject({ mayMove: false, reasons: [{ code: 'clamped-late' }] })
    const faults = (await verifyRecords(test.database)).faults.map(({ what }) => what)
    expect(faults).toEqual([])

    const other = await released()
    const before = new Date(NOON.getTime() + 15 * 60 * 60_000).toISOString()
    const told = await test.owner.made<Bond>(`${other}/slides`, { at: before, alreadyHappened: true, reason })
    expect(told.moveCheck.mayMove).toBe(false)
  })

  it('are of a bond that runs, after it went on, and not in the future', async () => {
    const bond = await start()
    at(5)
    const before = await test.owner.post(`${bond}/slides`, { at: '2031-01-01T00:00:00Z' })
    expect(before.body).toMatchObject({ reasons: [{ field: 'body.at' }] })
    const future = await test.owner.post(`${bond}/slides`, { at: '2031-12-01T00:00:00Z' })
    expect(future.body).toMatchObject({ reasons: [{ field: 'body.at' }] })
    await test.owner.made(`${bond}/abandonment`, { reason: 'Lifted apart', wasLifted: true })
    const over = await test.owner.post(`${bond}/slides`, {})
    expect(over.body).toMatchObject({ type: '/problems/wrong-state' })
  })

  it('stand in the table as the record says, and a preparation step by step in the record', async () => {
    const steps = ['bareMetal', 'solventWiped', 'flashedOff', 'dryFit', 'skimCoat']
    const bond = await start({ preparation: steps })
    at(5)
    await test.owner.made(`${bond}/slides`)
    expect((await record(bond)).application.preparation).toEqual(steps)
    const untold = await start()
    expect((await record(untold)).application.preparation).toBeNull()
    const faults = async () => (await verifyRecords(test.database)).faults.map(({ what }) => what).join()
    expect(await faults()).toBe('')
    await test.database.execute(`update bond set slid_by = 'Nobody' where id = '${bond.split('/').at(-1)}'`)
    expect(await faults()).toContain('bond.slid_by')
    await test.database.execute(`update bond set slid_by = 'Owner' where id = '${bond.split('/').at(-1)}'`)
    expect(await faults()).toBe('')
  })

  it('name a step of the preparation once', async () => {
    at(0)
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop)
    const twice = await test.owner.post(
      `/v1/joints/${jointId}/bonds`,
      application(shop, piece!.id, { preparation: ['dryFit', 'dryFit'] }),
    )
    expect(twice.body).toMatchObject({ reasons: [{ field: 'body.preparation' }] })
  })
})
