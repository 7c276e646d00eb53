import { pdfText } from '../support/pdf-text.ts'
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

interface BondRecord {
  readonly application: Record<string, unknown> | null
  readonly entries: readonly {
    readonly sequence: number
    readonly kind: string
    readonly by: string
    readonly facts: Record<string, unknown>
    readonly hash: string
    readonly previousHash: string
  }[]
  readonly chain: { readonly intact: boolean; readonly fault: string | null }
  readonly cautions: readonly string[]
  readonly curve: { readonly points: readonly object[] }
}

const AT_ONCE = 20

describe.each(ONE_KIND)('the bond record, on the %s database', (kind) => {
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
    const { jointId, orderId } = await makeJoint(test.owner, shop)
    const bond = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id, changes))
    return { bondId: bond.id, jointId, orderId, code: piece!.code }
  }
  const record = (bondId: string) => test.owner.read<BondRecord>(`/v1/bonds/${bondId}/record`)
  const faults = async () => (await verifyRecords(test.database)).faults
  /** As somebody who owns the database could: past the triggers. */
  const meddle = (sql: string) =>
    test.database.execute(
      `alter table bond_record_entry disable trigger user; ${sql}; alter table bond_record_entry enable trigger user`,
    )

  it('holds all that happened, as it was known then, each entry chained to the one before', async () => {
    const { id: instrumentId } = await test.owner.made(`/v1/shops/${shop.shopId}/instruments`, {
      kind: 'metalProbe',
      name: 'Probe',
      serialNumber: 'P-1',
      accuracyC: 0.3,
      calibratedUntil: '2031-12-31',
    })
    const { bondId, jointId, code } = await start({
      panel: { temperatureC: 23, source: 'metalProbe', instrumentId },
    })
    at(70)
    await test.owner.made(`/v1/bonds/${bondId}/clamping`, { note: 'Clamp was stuck' })
    at(80)
    await test.owner.made(`/v1/bonds/${bondId}/readings`, { temperatureC: 22, instrumentId })
    await test.owner.made(`/v1/bonds/${bondId}/release`, { alreadyHappened: true, reason: 'Tow truck came' })
    at(49 * 60)
    const { incidents } = await test.owner.read<{ incidents: { id: string }[] }>(`/v1/bonds/${bondId}`)
    const accepted = await acceptance(test.owner, incidents[0]!.id)
    await test.owner.made(`/v1/incidents/${incidents[0]!.id}/disposition`, accepted)
    // What is edited later leaves the record as it was.
    await test.owner.put(`/v1/joints/${jointId}/procedure`, {
      document: 'Another manual',
      revision: 'Z',
      lookedUpOn: '2031-05-08',
    })
    await test.owner.patch(`/v1/instruments/${instrumentId}`, { calibratedUntil: '2020-01-01' }, 1)

    const told = await record(bondId)
    expect(told.chain).toMatchObject({ intact: true, fault: null })
    expect(told.application).toMatchObject({
      by: 'Owner',
      safetyClass: 'S3',
      procedure: { document: 'Body manual', revision: 'C', lookedUpOn: '2030-06-03' },
      qualification: null,
      product: { sheetRevision: 'A' },
      cartridges: [{ code, amountMl: 50, printedExpiry: '2031-12-31' }],
      dispenser: 'Gun',
      bay: expect.stringContaining('Bay'),
      prepared: { surfaces: true, dryFit: true, skimCoat: true },
      panel: {
        accuracyC: 0.3,
        instrument: {
          name: 'Probe',
          serialNumber: 'P-1',
          calibratedUntil: '2031-12-31',
          inCalibration: true,
        },
      },
      air: { relativeHumidityPercent: 40, hygrometer: null },
    })
    expect(told.entries.map((entry) => entry.kind)).toEqual([
      'applied',
      'clamped',
      'incident',
      'reading',
      'released',
      'incident',
      'inspection',
      'disposition',
    ])
    for (const [i, entry] of told.entries.entries()) {
      expect(entry.by).toBe('Owner')
      if (i > 0) expect(entry.previousHash).toBe(told.entries[i - 1]!.hash)
    }
    expect(told.entries[2]!.facts).toMatchObject({ incident: 'clampedAfterWorkTime' })
    expect(told.entries[4]!.facts['conservativeProgress']).toBeGreaterThan(0.3)
    expect(told.curve.points.length).toBeGreaterThan(50)
    expect(told.cautions).toContain('Handling strength is not driving strength.')
    expect(await faults()).toEqual([])
  })

  it('is chained too for a vehicle that is moved, and for an attempt that is abandoned', async () => {
    const moved = await start()
    at(5)
    await test.owner.made(`/v1/repairOrders/${moved.orderId}/move`, {
      alreadyHappened: true,
      reason: 'Bay was needed',
    })
    const given = await start()
    at(5)
    await test.owner.made(`/v1/bonds/${given.bondId}/abandonment`, { reason: 'Lifted apart' })
    const kinds = async (bondId: string) => (await record(bondId)).entries.map((entry) => entry.kind)
    expect(await kinds(moved.bondId)).toEqual(['applied', 'released', 'incident'])
    expect(await kinds(given.bondId)).toEqual(['applied', 'abandoned', 'incident'])
    expect(await faults()).toEqual([])
  })

  it('prints as a PDF', async () => {
    const { bondId } = await start()
    const response = await test.owner
      .get(`/v1/bonds/${bondId}/record.pdf`)
      .buffer(true)
      .parse((stream, done) => {
        const chunks: Buffer[] = []
        stream.on('data', (chunk: Buffer) => chunks.push(chunk))
        stream.on('end', () => done(null, Buffer.concat(chunks)))
      })
    expect(response.status).toBe(200)
    expect(response.headers['content-type']).toBe('application/pdf')
    const pdf = (response.body as Buffer).toString('latin1')
    expect(pdf).toMatch(/^%PDF-1\./)
    expect(pdf.trimEnd()).toMatch(/%%EOF$/)
    expect(pdf.match(/\/Type \/Page\b/g)!.length).toBeGreaterThanOrEqual(2)
    const nowhere = await test.owner.get('/v1/bonds/00000000-0000-4000-8000-000000000000/record.pdf')
    expect(nowhere.body.type).toBe('/problems/not-found')
  })

  it('prints in the words and units of whoever asks, on the clock of the shop, which it names', async () => {
    const { bondId } = await start()
    at(5)
    await test.owner.made(`/v1/bonds/${bondId}/readings`, { temperatureC: 21.5, confirmed: [] })
    const printed = async (accepted: string) => {
      const response = await test.owner
        .get(`/v1/bonds/${bondId}/record.pdf`)
        .set('accept-language', accepted)
        .buffer(true)
        .parse((stream, done) => {
          const chunks: Buffer[] = []
          stream.on('data', (chunk: Buffer) => chunks.push(chunk))
          stream.on('end', () => done(null, Buffer.concat(chunks)))
        })
      expect(response.headers['content-language']).toBe(accepted.slice(0, 2))
      return pdfText(response.body as Buffer).replaceAll(/\s+/g, ' ')
    }
    const [english, spanish] = [await printed('en-US'), await printed('es-ES')]
    expect(english).toContain('Bond record')
    expect(english).toContain('Times are on the clock of the shop (America/New_York).')
    expect(english).toMatch(/Panel at \d+\.\d °F/)
    expect(spanish).toContain('Registro de pegado')
    expect(spanish).toContain('Las horas son del reloj del taller (America/New_York).')
    expect(spanish).toMatch(/Panel a \d+,\d °C/)
    expect(spanish).toContain('Resistencia de manipulación no es resistencia para circular.')
    expect(spanish).not.toMatch(/Cautions|Handling strength|applied by/i)
  })

  it('chains and does not fork when twenty happen at once', async () => {
    const bonds = []
    for (let i = 0; i < AT_ONCE; i += 1) bonds.push(await start({ bayId: null }))
    const before = (await verifyRecords(test.database)).entries
    at(10)
    const answers = await Promise.all(
      bonds.map(({ bondId }, i) =>
        i % 2 === 0
          ? test.owner.post(`/v1/bonds/${bondId}/clamping`)
          : test.owner.post(`/v1/bonds/${bondId}/readings`, { temperatureC: 22 }),
      ),
    )
    expect(answers.map(({ status }) => status)).toEqual(Array.from({ length: AT_ONCE }, () => 201))
    expect(await verifyRecords(test.database)).toMatchObject({ entries: before + AT_ONCE, faults: [] })
  })

  it('cannot be changed through the database by the service, nor by its owner without going out of their way', async () => {
    for (const sql of [
      `update bond_record_entry set payload = '{}'`,
      'delete from bond_record_entry',
      'truncate bond_record_entry',
    ])
      await expect(test.database.execute(sql)).rejects.toThrow(/append-only/)
    expect(await faults()).toEqual([])
  })

  it('shows one changed byte, a removed entry, a tail cut off, and a bond that was changed beside it', async () => {
    const { bondId } = await start()
    at(10)
    await test.owner.made(`/v1/bonds/${bondId}/clamping`)
    const [applied, clamped] = (await record(bondId)).entries
    const where = (sequence: number) => `where shop_id = '${shop.shopId}' and sequence = ${sequence}`
    const change = (from: string, to: string) =>
      meddle(
        `update bond_record_entry set payload = replace(payload, '${from}', '${to}') ${where(applied!.sequence)}`,
      )

    await change('"attempt":1', '"attempt":2')
    expect(await faults()).toMatchObject([
      {
        shopId: shop.shopId,
        sequence: BigInt(applied!.sequence),
        bondId,
        what: 'was changed after it had been written',
      },
    ])
    expect((await record(bondId)).chain).toMatchObject({
      intact: false,
      fault: `Entry ${applied!.sequence} was changed after it had been written`,
    })
    await change('"attempt":2', '"attempt":1')
    expect(await faults()).toEqual([])

    await test.database.execute(
      `create table kept as select * from bond_record_entry ${where(applied!.sequence)}`,
    )
    await meddle(`delete from bond_record_entry ${where(applied!.sequence)}`)
    expect((await faults())[0]).toMatchObject({
      sequence: BigInt(clamped!.sequence),
      what: `entry ${applied!.sequence} is missing before it`,
    })
    await meddle('insert into bond_record_entry select * from kept')
    await test.database.execute('drop table kept')
    expect(await faults()).toEqual([])

    await test.database.execute(
      `update bond set clamped_at = clamped_at - interval '9 minutes' where id = '${bondId}'`,
    )
    expect(await faults()).toMatchObject([
      { sequence: null, bondId, what: expect.stringContaining('bond.clamped_at: the record says') },
    ])
    await test.database.execute(
      `update bond set clamped_at = clamped_at + interval '9 minutes' where id = '${bondId}'`,
    )

    await meddle(`delete from bond_record_entry ${where(clamped!.sequence)}`)
    expect(await faults()).toMatchObject([{ sequence: null, bondId }])
  })
})
