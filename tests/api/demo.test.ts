import { AlertKind } from '@clampclock/contracts'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { loadDemo } from '../../apps/api/src/demo/load.ts'
import { verifyRecords } from '../../apps/api/src/cure/records/verify.ts'
import { verifyLedger } from '../../apps/api/src/supply/cartridges/verify.ts'
import { freshDatabase, type TestDatabase } from '../support/databases.ts'
import { NOON } from '../support/test-app.ts'

describe('the demo chain', () => {
  let test: TestDatabase
  beforeAll(async () => {
    test = await freshDatabase('embedded')
    await loadDemo(test.database, NOON)
  })
  afterAll(() => test.end())

  it('has bonds of every class, made by people and instruments that its rules ask for', async () => {
    const bonds = await test.database.prisma.bond.findMany({
      include: { joint: true, panelReadings: { include: { instrument: true } } },
    })
    expect(new Set(bonds.map(({ joint }) => joint.safetyClass))).toEqual(new Set(['S1', 'S2', 'S3']))
    expect(bonds.flatMap(({ panelReadings }) => panelReadings).every(({ instrument }) => instrument)).toBe(
      true,
    )
    const moved = bonds.filter(({ joint, state }) => joint.safetyClass === 'S1' && state === 'released')
    expect(moved.length).toBeGreaterThan(0)
    expect(moved.every(({ panelReadings }) => panelReadings.length >= 2)).toBe(true)
  })

  it('has a qualification that has run out, and an instrument due for calibration', async () => {
    const { prisma } = test.database
    const expired = await prisma.qualification.findMany({ where: { validUntil: { lt: NOON } } })
    expect(expired).toHaveLength(1)
    expect(await prisma.qualification.count()).toBeGreaterThan(5)
    expect(await prisma.instrument.count({ where: { calibratedUntil: { lt: NOON } } })).toBe(1)
  })

  it('has boxes that came and are on their way, a count that differs, and cartridges kept for the week', async () => {
    const { prisma } = test.database
    const outcomes = await prisma.shipmentLine.groupBy({ by: ['outcome'], _count: true })
    expect(new Set(outcomes.map(({ outcome }) => outcome))).toEqual(new Set(['arrived', 'lost', null]))
    expect(await prisma.stockCountDifference.findMany({ select: { kind: true } })).toEqual([
      { kind: 'notFound' },
    ])
    expect(await prisma.productGtin.count()).toBe(await prisma.product.count())
    expect(await prisma.reservation.count({ where: { endedAt: null } })).toBeGreaterThan(5)
    expect(await verifyLedger(test.database)).toEqual([])
  })

  it('has an open alert of every kind', async () => {
    const open = await test.database.prisma.alert.findMany({
      where: { closedAt: null },
      select: { kind: true },
      distinct: ['kind'],
    })
    // A bond that cannot be computed and work that is not done are faults of the service, and none to show.
    const shown = AlertKind.options.filter((kind) => kind !== 'notComputed' && kind !== 'workFails')
    expect(open.map(({ kind }) => kind).toSorted()).toEqual(shown.toSorted())
  })

  it('has an unbroken record of every bond', async () => {
    const { entries, faults } = await verifyRecords(test.database)
    expect(faults).toEqual([])
    expect(entries).toBeGreaterThan(await test.database.prisma.bond.count())
    expect(await test.database.prisma.bond.count({ where: { bondRecordEntries: { none: {} } } })).toBe(0)
  })
})
