import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import {
  application,
  approveSheets,
  freshBay,
  makeJoint,
  makeShop,
  receive,
  sheetTimes,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

interface Line {
  readonly progress: { readonly conservative: number }
  readonly readyAt: Record<'earliest' | 'conservative', { readonly kind: string; readonly at: string }>
}
interface Bond {
  readonly id: string
  readonly sheet: { readonly revision: string }
  readonly judgedBy: readonly { readonly revision: string }[]
  readonly estimate: {
    readonly workTime: Line
    readonly handlingStrength: Line
    readonly notes: readonly { readonly kind: string; readonly message: string }[]
  }
  readonly moveCheck: { readonly mayMove: boolean }
  readonly incidents: readonly { readonly kind: string; readonly reason: string }[]
}

const HOUR_MS = 3_600_000
const after = (hours: number) => new Date(NOON.getTime() + hours * HOUR_MS)

describe('a revision that is approved later', () => {
  let test: TestApp
  let owner: Client
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp('embedded')
    owner = test.owner
  })
  beforeEach(async () => {
    test.clock.now = NOON
    shop = await freshBay(owner, await makeShop(owner), NOON)
  })
  afterAll(() => test.end())

  const revise = async (sheet: object) => {
    await owner.made(`/v1/products/${shop.productId}/sheets`, sheet)
    await approveSheets(owner, shop.productId)
  }
  const read = (id: string) => owner.read<Bond>(`/v1/bonds/${id}`)
  const ready = ({ estimate }: Bond) => Date.parse(estimate.handlingStrength.readyAt.conservative.at)
  const workEnd = ({ estimate }: Bond) => Date.parse(estimate.workTime.readyAt.earliest.at)
  const alerts = async (kind: string) => {
    const { items } = await owner.read<{
      items: { kind: string; message: string; subject: { id: string } }[]
    }>(`/v1/alerts?shopId=${shop.shopId}&kind=${kind}`)
    return items
  }
  const start = async (): Promise<Bond> => {
    const [piece] = await receive(owner, shop)
    const { jointId } = await makeJoint(owner, shop)
    const bond = await owner.made<Bond>(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))
    test.clock.now = after(0.25)
    return owner.made<Bond>(`/v1/bonds/${bond.id}/clamping`)
  }
  /** Measured an hour before, so that the careful line knows the metal. */
  const measure = (id: string) =>
    owner.made(`/v1/bonds/${id}/readings`, { temperatureC: 23, accuracyC: 0.5, source: 'metalProbe' })

  it('and is slower holds a running bond back, and tells', async () => {
    const bond = await start()
    await revise(sheetTimes(1.5, 'B'))
    const held = await read(bond.id)
    expect(held.sheet.revision).toBe('A')
    expect(held.judgedBy.map(({ revision }) => revision)).toEqual(['A', 'B'])
    // 180 min at 23 degC become 270.
    expect(ready(held) - ready(bond)).toBeGreaterThan(60 * 60_000)
    expect(workEnd(held)).toBe(workEnd(bond))
    expect(held.estimate.notes[0]?.message).toContain('Revision B of the data sheet of Test adhesive')
    const told = await alerts('sheetSlower')
    expect(told.map(({ subject }) => subject.id)).toEqual([bond.id])
    expect(told[0]?.message).toContain('is slower than revision A, by which it was made')
    await watchAll(test.database, test.clock.now)
    expect(await alerts('sheetSlower')).toHaveLength(1)
  })

  it('and is faster never speeds one up, and shortens only its work time', async () => {
    const bond = await start()
    await revise(sheetTimes(0.6, 'B'))
    const same = await read(bond.id)
    expect(ready(same)).toBe(ready(bond))
    expect(workEnd(same)).toBeLessThan(workEnd(bond))
    expect(await alerts('sheetSlower')).toEqual([])
  })

  it('counts for a running bond from its day on', async () => {
    const bond = await start()
    await revise(sheetTimes(1.5, 'B', { validFrom: '2031-05-08' }))
    expect(ready(await read(bond.id))).toBe(ready(bond))
    await watchAll(test.database, test.clock.now)
    expect(await alerts('sheetSlower')).toEqual([])
    // 8 May begins at 4:00 UTC in New York; nobody measured, so it is not ready by then by either.
    test.clock.now = new Date('2031-05-08T03:59:57Z')
    expect((await read(bond.id)).judgedBy).toHaveLength(1)
    // What was computed a moment ago is shown for a while, and not beyond the day that it was computed for.
    test.clock.now = new Date('2031-05-08T04:00:01Z')
    expect((await read(bond.id)).judgedBy).toHaveLength(2)
    test.clock.now = new Date('2031-05-08T04:30:00Z')
    await watchAll(test.database, test.clock.now)
    expect((await alerts('sheetSlower')).map(({ subject }) => subject.id)).toEqual([bond.id])
  })

  /** Four hours at 23 degC, the air sent each hour, the metal measured twice. */
  const cure = async (bondId: string) => {
    for (const hour of [1, 2, 3, 4]) {
      test.clock.now = after(hour)
      await steadyAir(owner, shop.sensorId, 23, after(hour), 1)
      if (hour % 2 === 0) await measure(bondId)
    }
  }

  it('finds a release of the last month that was too early by it, once, and holds the joint', async () => {
    const bond = await start()
    await cure(bond.id)
    const released = await owner.made<Bond>(`/v1/bonds/${bond.id}/release`)
    expect(released.incidents).toEqual([])
    test.clock.now = after(24 * 10)
    await test.signIn('owner@test.example')
    await revise(sheetTimes(2, 'B'))
    const found = await read(bond.id)
    expect(found.incidents).toMatchObject([{ kind: 'earlyRelease' }])
    expect(found.incidents[0]?.reason).toMatch(
      /^By what was learned afterwards, it was at \d\d % of handling/,
    )
    expect(found.moveCheck.mayMove).toBe(false)
    expect(await alerts('earlyRelease')).toHaveLength(1)
    await watchAll(test.database, test.clock.now)
    expect((await read(bond.id)).incidents).toHaveLength(1)
  })

  it('finds it on the day from which the revision counts, and not before', async () => {
    const bond = await start()
    await cure(bond.id)
    await owner.made<Bond>(`/v1/bonds/${bond.id}/release`)
    await revise(sheetTimes(2, 'B', { validFrom: '2031-05-08' }))
    const early = () =>
      test.database.prisma.incident.count({ where: { bondId: bond.id, kind: 'earlyRelease' } })
    await watchAll(test.database, new Date('2031-05-08T03:55:00Z'))
    expect(await early()).toBe(0)
    // 8 May begins at 4:00 UTC in New York.
    await watchAll(test.database, new Date('2031-05-08T04:05:00Z'))
    expect(await early()).toBe(1)
    await watchAll(test.database, new Date('2031-05-08T04:10:00Z'))
    expect(await early()).toBe(1)
  })

  it('says nothing of what was released more than a month before, nor when it is faster', async () => {
    const bond = await start()
    await cure(bond.id)
    await owner.made<Bond>(`/v1/bonds/${bond.id}/release`)
    await revise(sheetTimes(0.6, 'B'))
    expect((await read(bond.id)).incidents).toEqual([])
    await revise(sheetTimes(2, 'C', { issuedOn: '2031-05-01', validFrom: '2031-06-20' }))
    await watchAll(test.database, new Date('2031-06-21T16:00:00Z'))
    const rows = await test.database.prisma.incident.count({ where: { bondId: bond.id } })
    expect(rows).toBe(0)
  })
})
