import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { queueAllDigests } from '../support/digests.ts'
import { keptHeads } from '../../apps/api/src/cure/records/kept-heads.ts'
import { verifyRecords } from '../../apps/api/src/cure/records/verify.ts'
import {
  acceptance,
  application,
  makeJoint,
  makeShop,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

interface Entry {
  readonly kind: string
  readonly hash: string
  readonly facts: Record<string, unknown>
}
interface BondRecord {
  readonly application: {
    readonly vehicle: string
    readonly vin: string | null
    readonly plate: string | null
  }
  readonly entries: readonly Entry[]
  readonly chain: {
    readonly intact: boolean
    readonly fault: string | null
    readonly head: { readonly sequence: number; readonly hash: string }
  }
}

/** What somebody who owns the database can change, past every trigger, and what the verifier then names. */
const MEDDLING: readonly (readonly [name: string, table: string, set: string, named: string])[] = [
  ['a temperature', 'panel_reading', 'temperature_c = temperature_c + 9', 'temperature_c'],
  ['an accuracy', 'panel_reading', 'accuracy_c = 0.1', 'accuracy_c'],
  ['who read it', 'panel_reading', `recorded_by = 'Nobody'`, 'recorded_by'],
  [
    'whether it was in doubt',
    'panel_reading',
    `quality = 'suspect', findings = '[{"kind": "outOfCalibration"}]'`,
    '.quality',
  ],
  ['what was found about it', 'panel_reading', `findings = '[{"kind": "outOfCalibration"}]'`, '.findings'],
  ['when it was entered', 'panel_reading', `recorded_at = recorded_at + interval '1 minute'`, '.recorded_at'],
  ['whose account read it', 'panel_reading', 'recorded_by_id = gen_random_uuid()', '.recorded_by_id'],
  [
    'when the application was entered',
    'bond',
    `applied_recorded_at = applied_recorded_at + interval '1 minute'`,
    'bond.applied_recorded_at',
  ],
  [
    'when the clamping was entered',
    'bond',
    `clamped_recorded_at = clamped_recorded_at + interval '1 minute'`,
    'bond.clamped_recorded_at',
  ],
  ['when it was applied', 'bond', `applied_at = applied_at - interval '3 hours'`, 'bond.applied_at'],
  ['who applied it', 'bond', `applied_by = 'Nobody'`, 'bond.applied_by'],
  ['who slid it', 'bond', `slid_by = 'Nobody'`, 'bond.slid_by'],
  ['who clamped it', 'bond', `clamped_by = 'Nobody'`, 'bond.clamped_by'],
  ['who released it', 'bond', `released_by = 'Nobody'`, 'bond.released_by'],
  ['the amount', 'bond', 'amount_ul = amount_ul + 20000', 'bond.amount_ul'],
  ['the air', 'bond', 'relative_humidity_percent = 20', 'bond.relative_humidity_percent'],
  ['the procedure', 'bond', `procedure_revision = 'Z'`, 'bond.procedure_revision'],
  ['how fast the panel follows', 'bond', 'panel_tau_minutes = 1', 'bond.panel_tau_minutes'],
  ['the safety class', 'joint', `safety_class = 'S4'`, 'joint.safety_class'],
  ['the incident', 'incident', `reason = 'Nothing happened'`, '.reason'],
  [
    'what the service said of the incident',
    'incident',
    `said = '{"code": "problem.signIn", "params": {}}'`,
    '.said',
  ],
  ['the fraction reached', 'incident', 'fraction_reached = 0.99', '.fraction_reached'],
  ['why it was accepted', 'disposition', `reason = 'No reason at all'`, '.reason'],
  [
    'words put before why it was accepted',
    'disposition',
    `said = '{"code": "problem.signIn", "params": {}}'`,
    '.said',
  ],
  ['who accepted it', 'disposition', `recorded_by = 'Nobody'`, '.recorded_by'],
  ['who inspected it', 'inspection', `inspector_name = 'Nobody'`, '.inspector_name'],
  ['what the inspection found', 'inspection', `result = 'Nothing to see'`, '.result'],
  ['what was used', 'stock_movement', `volume_change_ul = -1000`, '.volume_change_ul'],
  ['the printed expiry', 'lot', `printed_expiry = '2039-12-31'`, '.printed_expiry'],
  ['the expiry of the cartridge', 'cartridge', `expires_at = '2039-12-31'`, '.expires_at'],
  [
    'who approved the sheet',
    'product_sheet_decision',
    "decided_by_name = 'Another person'",
    'product_sheet.approved_by',
  ],
  ['the figures of the sheet', 'product_sheet_point', 'handling_time_minutes = 1', 'product_sheet.figures'],
  ['the car', 'repair_order', `vehicle = 'Another car'`, 'repair_order.vehicle'],
  ['the plate', 'repair_order', `plate = 'XX 1'`, 'repair_order.plate'],
  ['the number of the order', 'repair_order', `number = 'RO-X'`, 'repair_order.number'],
]

describe('the record, against who owns the database', () => {
  let test: TestApp
  let shop: Shop
  let bondId: string
  let orderId: string
  let folder: string

  const at = (minutes: number) => {
    test.clock.now = new Date(NOON.getTime() + minutes * 60_000)
  }
  const record = (id = bondId) => test.owner.read<BondRecord>(`/v1/bonds/${id}/record`)
  const faults = async (kept?: readonly string[]) => (await verifyRecords(test.database, kept)).faults
  const meddle = async (table: string, sql: string) => {
    await test.database.execute(`alter table ${table} disable trigger user`)
    await test.database.execute(sql)
    await test.database.execute(`alter table ${table} enable trigger user`)
  }
  /** Which rows of a table belong to the bond. */
  const of = (table: string, id = bondId): string =>
    ({
      bond: `id = '${id}'`,
      panel_reading: `bond_id = '${id}'`,
      incident: `bond_id = '${id}'`,
      inspection: `incident_id in (select id from incident where bond_id = '${id}')`,
      disposition: `incident_id in (select id from incident where bond_id = '${id}')`,
      stock_movement: `bond_id = '${id}' and kind = 'used'`,
      cartridge: `id = (select cartridge_id from bond where id = '${id}')`,
      lot: `id = (select lot_id from cartridge where id = (select cartridge_id from bond where id = '${id}'))`,
      joint: `id = (select joint_id from bond where id = '${id}')`,
      product_sheet_decision: `sheet_id = (select sheet_id from bond where id = '${id}')`,
      product_sheet_point: `sheet_id = (select sheet_id from bond where id = '${id}')`,
      repair_order: `id = (select repair_order_id from joint where id = (select joint_id from bond where id = '${id}'))`,
    })[table]!

  async function start(): Promise<{ id: string; orderId: string }> {
    at(0)
    const [piece] = await receive(test.owner, shop)
    const joint = await makeJoint(test.owner, shop)
    await test.owner.patch(
      `/v1/repairOrders/${joint.orderId}`,
      { vin: 'invented000000001'.replace(/[ioq]/g, 'x'), plate: 'INV 123' },
      1,
    )
    const { id } = await test.owner.made(
      `/v1/joints/${joint.jointId}/bonds`,
      application(shop, piece!.id, { bayId: null }),
    )
    return { id, orderId: joint.orderId }
  }

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'clampclock-heads-'))
    test = await startTestApp('embedded')
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON)
    const made = await start()
    bondId = made.id
    orderId = made.orderId
    at(15)
    await test.owner.made(`/v1/bonds/${bondId}/readings`, { temperatureC: 22 })
    await test.owner.made(`/v1/bonds/${bondId}/slides`)
    await test.owner.made(`/v1/bonds/${bondId}/clamping`)
    at(60)
    await test.owner.made(`/v1/bonds/${bondId}/release`, { alreadyHappened: true, reason: 'Tow truck came' })
    at(49 * 60)
    await accept(bondId)
  })
  afterAll(async () => {
    await test.end()
    await rm(folder, { recursive: true, force: true })
  })

  async function accept(id: string): Promise<void> {
    const { incidents } = await test.owner.read<{ incidents: { id: string }[] }>(`/v1/bonds/${id}`)
    const accepted = await acceptance(test.owner, incidents[0]!.id)
    await test.owner.made(`/v1/incidents/${incidents[0]!.id}/disposition`, accepted)
  }

  it.each(MEDDLING)('names %s, changed in its table', async (_name, table, set, named) => {
    const where = of(table)
    expect(await faults()).toEqual([])
    await test.database.execute(`create table kept as select * from ${table} where ${where}`)
    try {
      await meddle(table, `update ${table} set ${set} where ${where}`)
      const found = await faults()
      expect(found.map(({ what }) => what).join('\n')).toContain(named)
      expect(found.map((fault) => fault.bondId)).toContain(bondId)
      expect((await record()).chain).toMatchObject({ intact: false })
    } finally {
      const columns = [...set.matchAll(/(\w+) = /g)].map(([, column]) => column!)
      const key = table === 'panel_reading' ? 'kept.bond_id = t.bond_id and kept.at = t.at' : keyOf(table)
      await meddle(
        table,
        `update ${table} t set ${columns.map((column) => `${column} = kept.${column}`).join()} from kept where ${key}`,
      )
      await test.database.execute('drop table kept')
    }
    expect(await faults()).toEqual([])
  })

  function keyOf(table: string): string {
    if (table === 'product_sheet_decision') return 'kept.sheet_id = t.sheet_id'
    if (table === 'disposition') return 'kept.incident_id = t.incident_id'
    if (table === 'product_sheet_point')
      return 'kept.sheet_id = t.sheet_id and kept.temperature_c = t.temperature_c'
    return 'kept.id = t.id'
  }

  it('names a row that was taken out, and one that was put in', async () => {
    await test.database.execute(
      `create table kept as select * from panel_reading where bond_id = '${bondId}' order by at desc limit 1`,
    )
    await meddle(
      'panel_reading',
      `delete from panel_reading t using kept where t.bond_id = kept.bond_id and t.at = kept.at`,
    )
    expect((await faults()).map(({ what }) => what)).toEqual([
      expect.stringContaining('the record tells of it, and it is not in the table'),
    ])
    await meddle('panel_reading', 'insert into panel_reading select * from kept')
    await test.database.execute(`update kept set id = gen_random_uuid(), at = at + interval '7 minutes'`)
    await meddle('panel_reading', 'insert into panel_reading select * from kept')
    expect((await faults()).map(({ what }) => what)).toEqual([
      expect.stringContaining('no entry tells of it'),
    ])
    await meddle(
      'panel_reading',
      `delete from panel_reading t using kept where t.bond_id = kept.bond_id and t.at = kept.at`,
    )
    await test.database.execute('drop table kept')
    expect(await faults()).toEqual([])
  })

  it('names a reading that was taken back in its table only', async () => {
    const set = async (values: string) =>
      meddle('panel_reading', `update panel_reading set ${values} where bond_id = '${bondId}'`)
    await set(
      `quality = 'withdrawn', decided_at = now(), decided_by = 'Nobody', decision_reason = 'Not liked'`,
    )
    expect((await faults()).map(({ what }) => what)).toEqual([
      expect.stringContaining('taken back: is in the table, and no entry tells of it'),
      expect.stringContaining('taken back: is in the table, and no entry tells of it'),
    ])
    await set(`quality = 'good', decided_at = null, decided_by = null, decision_reason = null`)
    expect(await faults()).toEqual([])
  })

  it('names a bond whose whole record is gone, be it the end of the chain', async () => {
    const { id } = await start()
    await test.database.execute(
      `create table kept as select * from bond_record_entry where bond_id = '${id}'`,
    )
    await meddle('bond_record_entry', `delete from bond_record_entry where bond_id = '${id}'`)
    expect(await faults()).toEqual([
      { shopId: shop.shopId, sequence: null, bondId: id, what: 'has no record: every entry of it is gone' },
    ])
    await meddle('bond_record_entry', 'insert into bond_record_entry select * from kept')
    await test.database.execute('drop table kept')
    expect(await faults()).toEqual([])
  })

  it('has what tells the car in its first entry; a later edit stands beside it', async () => {
    const before = await record()
    expect(before.application).toMatchObject({ vehicle: 'Invented Estate', plate: 'INV 123' })
    expect(before.application.vin).toMatch(/^[A-Z0-9]{17}$/)
    const { version } = await test.owner.read<{ version: number }>(`/v1/repairOrders/${orderId}`)
    const edited = await test.owner.patch(
      `/v1/repairOrders/${orderId}`,
      { vehicle: 'Invented Coupe', plate: 'INV 999' },
      version,
    )
    expect(edited.status).toBe(200)
    const after = await record()
    expect(after.application).toEqual(before.application)
    expect(after.entries.slice(0, -1)).toEqual(before.entries)
    expect(after.entries.at(-1)).toMatchObject({
      kind: 'vehicleCorrected',
      facts: {
        was: { vehicle: 'Invented Estate', plate: 'INV 123' },
        is: { vehicle: 'Invented Coupe', plate: 'INV 999' },
      },
    })
    expect(after.chain).toMatchObject({ intact: true })
    await test.owner.patch(`/v1/repairOrders/${orderId}`, { note: 'No other car' }, version + 1)
    expect((await record()).entries).toHaveLength(after.entries.length)
    expect(await faults()).toEqual([])
    const pdf = await test.owner.get(`/v1/bonds/${bondId}/record.pdf`)
    expect(pdf.status).toBe(200)
  })

  it('verifies an entry of a kind that it does not know by its hash, and says that its facts are compared with nothing', async () => {
    const { appendToRecord } = await import('../../apps/api/src/cure/records/chain.ts')
    const row = await test.database.prisma.bond.findUniqueOrThrow({ where: { id: bondId } })
    await test.database.prisma.$transaction((tx) =>
      appendToRecord(tx as never, row, test.clock.now, [
        { kind: 'somethingNew' as never, at: test.clock.now, facts: { by: 'Owner' } },
      ]),
    )
    const verified = await verifyRecords(test.database)
    expect(verified).toMatchObject({ faults: [], notCompared: { somethingNew: 1 } })
    await meddle(
      'bond_record_entry',
      `update bond_record_entry set payload = '{"by":"Nobody"}' where kind = 'somethingNew'`,
    )
    expect(await faults()).toMatchObject([{ what: 'was changed after it had been written' }])
    await meddle('bond_record_entry', `delete from bond_record_entry where kind = 'somethingNew'`)
  })

  it('shows by a head that was kept elsewhere what the database alone cannot show', async () => {
    const { id } = await start()
    const { head } = (await record(id)).chain
    await queueDigestsNow()
    const mail = await test.database.prisma.delivery.findFirstOrThrow({
      where: { messageId: { startsWith: 'digest_' } },
    })
    expect(mail.payload).toContain(head.hash)
    const file = join(folder, 'mail.txt')
    await writeFile(file, (JSON.parse(mail.payload) as { text: string }).text)
    expect(await keptHeads(['--head', file, '--head', head.hash])).toEqual([head.hash])
    expect(await faults(await keptHeads(['--head', file]))).toEqual([])
    // The last bond goes with its record: nothing that is left disagrees.
    await meddle('bond_record_entry', `delete from bond_record_entry where bond_id = '${id}'`)
    for (const table of ['panel_reading', 'stock_movement', 'incident'])
      await meddle(table, `delete from ${table} where bond_id = '${id}'`)
    await meddle('bond', `delete from bond where id = '${id}'`)
    expect(await faults()).toEqual([])
    expect(await faults([head.hash])).toMatchObject([
      { what: expect.stringContaining(`the kept head ${head.hash} is in no unbroken chain`) },
    ])
  })

  async function queueDigestsNow(): Promise<void> {
    const { organizationId } = await test.database.prisma.shop.findUniqueOrThrow({
      where: { id: shop.shopId },
    })
    // Without an alert there is no mail.
    await test.database.prisma.alert.create({
      data: {
        organizationId,
        shopId: shop.shopId,
        kind: 'bayClash',
        severity: 'warning',
        code: 'alert.asWritten',
        params: { text: 'Something to tell' },
        subjectKind: 'booking',
        subjectId: shop.shopId,
        openedAt: NOON,
      },
    })
    await test.owner.put('/v1/me/digest', { hour: 12 })
    await queueAllDigests(test.database, undefined, NOON)
  }

  it('says what is wrong with a head that is none', async () => {
    await expect(keptHeads(['--head'])).rejects.toThrow('--head needs a hash')
    await expect(keptHeads(['--tail', 'x'])).rejects.toThrow('Unknown option --tail')
    await expect(keptHeads(['--head', join(folder, 'nothing')])).rejects.toThrow('neither a hash')
    const empty = join(folder, 'empty.txt')
    await writeFile(empty, 'nothing in it')
    await expect(keptHeads(['--head', empty])).rejects.toThrow('has no hash')
  })
})
