import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { sqlState, violatedConstraint } from '../../apps/api/src/foundation/database/sql-state.ts'
import { KINDS } from '../support/databases.ts'
import { application, freshBay, makeJoint, makeShop, receive, type Shop } from '../support/fixtures.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

/** What the database refuses by itself, whatever a program does: raw SQL, asserted by SQLSTATE and by name. */
describe.each(KINDS)('the %s database itself', (kind) => {
  let test: TestApp
  let shop: Shop
  let orderId: string
  let organizationId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    orderId = (await makeJoint(test.owner, shop)).orderId
    organizationId = (await test.owner.read<{ organization: { id: string } }>('/v1/me')).organization.id
  })
  afterAll(() => test.end())

  const run = (sql: string) => test.database.prisma.$executeRawUnsafe(sql)
  const refused = async (sql: string): Promise<[string | undefined, string | undefined]> => {
    const error: unknown = await run(sql).then(
      () => undefined,
      (reason: unknown) => reason,
    )
    return [sqlState(error), violatedConstraint(error)]
  }
  /** Ids of things that are there, in place of `{shop}`, `{lot}` … */
  const filled = async (sql: string) => {
    const [piece] = await receive(test.owner, shop)
    const [{ lot_id: lot }] = await test.database.prisma.$queryRawUnsafe<[{ lot_id: string }]>(
      `select lot_id from cartridge where id = '${piece!.id}'`,
    )
    const ids: Record<string, string> = {
      org: organizationId,
      shop: shop.shopId,
      product: shop.productId,
      location: shop.locationId,
      cartridge: piece!.id,
      lot,
    }
    return sql.replaceAll(/\{([a-z]+)\}/g, (_, name: string) => ids[name]!)
  }
  const booking = (resourceId: string, from: string, to: string, units = 1) =>
    `insert into booking (organization_id, shop_id, resource_id, repair_order_id, starts_at, ends_at, units)
     values ('${organizationId}', '${shop.shopId}', '${resourceId}', '${orderId}', '${from}', '${to}', ${units})`

  it('refuses a double booking, and lets one begin when the other ends', async () => {
    await run(booking(shop.bayId, '2031-06-01T08:00Z', '2031-06-01T12:00Z'))
    await run(booking(shop.bayId, '2031-06-01T12:00Z', '2031-06-01T13:00Z'))
    expect(await refused(booking(shop.bayId, '2031-06-01T11:59Z', '2031-06-01T12:01Z'))).toEqual([
      '23P01',
      'booking__place_is_free',
    ])
  })

  it('refuses a double booking that calls itself not exclusive', async () => {
    await run(booking(shop.otherBayId, '2031-06-01T08:00Z', '2031-06-01T12:00Z'))
    const sly = booking(shop.otherBayId, '2031-06-01T09:00Z', '2031-06-01T10:00Z')
      .replace('units)', 'units, exclusive)')
      .replace(/, 1\)$/, ', 1, false)')
    expect(await refused(sly)).toEqual(['23P01', 'booking__place_is_free'])
  })

  it('keeps counted sets within their number at every instant', async () => {
    await run(booking(shop.clampSetId, '2031-06-01T08:00Z', '2031-06-01T10:00Z', 2))
    await run(booking(shop.clampSetId, '2031-06-01T10:00Z', '2031-06-01T12:00Z', 2))
    // One more fits across both, since they never overlap; another one does not.
    await run(booking(shop.clampSetId, '2031-06-01T09:00Z', '2031-06-01T11:00Z', 1))
    expect((await refused(booking(shop.clampSetId, '2031-06-01T09:30Z', '2031-06-01T09:31Z', 1)))[0]).toBe(
      '23P01',
    )
    expect((await refused(booking(shop.clampSetId, '2031-07-01T09:30Z', '2031-07-01T09:31Z', 4)))[0]).toBe(
      '23P01',
    )
  })

  it('keeps a start of the metal only with the program of a bake', async () => {
    const bake = (resourceId: string, purpose: string, program: string | null, metalC: number) =>
      `insert into booking (organization_id, shop_id, resource_id, repair_order_id, purpose, highest_metal_c, bake_program, metal_start_c, starts_at, ends_at)
       select organization_id, shop_id, '${resourceId}', repair_order_id, '${purpose}', ${purpose === 'bake' ? 60 : 'null'}, ${program === null ? 'null' : `'${program}'`}, ${metalC}, '2031-08-01T08:00Z', '2031-08-01T12:00Z'
       from booking limit 1`
    const name = 'booking__metal_start_is_of_a_program'
    expect(await refused(bake(shop.ovenId, 'bake', null, 20))).toEqual(['23514', name])
    expect(await refused(bake(shop.bayId, 'work', null, 20))).toEqual(['23514', name])
    await run(bake(shop.ovenId, 'bake', '{}', 20))
  })

  it.each([
    ['temperature_reading__plausible', 301],
    ['temperature_reading__plausible', -61],
  ])('keeps every temperature within the one range: %s, %d degC', async (name, c) => {
    const reading = `insert into temperature_reading (organization_id, sensor_id, at, temperature_c)
      values ('${organizationId}', '${shop.sensorId}', now(), ${c})`
    expect(await refused(reading)).toEqual(['23514', name])
  })

  it.each([
    ['sensor__accuracy', 'update sensor set accuracy_c = 20.1'],
    ['repair_order__oven_limit', 'update repair_order set oven_limit_c = 301'],
    ['repair_order__vin', `update repair_order set vin = 'WITH AN O'`],
    ['repair_order__vin', `update repair_order set vin = '123456789012345678'`],
    ['repair_order__plate', `update repair_order set plate = ''`],
    [
      'bond_record_entry__kind',
      `insert into bond_record_entry (organization_id, shop_id, sequence, bond_id, kind, at, recorded_at, payload, previous_hash, hash)
       select organization_id, id, 1, gen_random_uuid(), 'no kind!', now(), now(), '{}', repeat('0', 64), repeat('a', 64) from shop limit 1`,
    ],
    ['product__temperatures_plausible', 'update product set storage_max_c = 301'],
    ['watch_state__says_something', `insert into watch_state (organization_id) select id from organization`],
    [
      'job_run__taken_is_whole',
      `insert into job_run (organization_id, queue, subject, taken_until) select id, 'watch', '', now() from organization`,
    ],
    [
      'job_run__failed_is_whole',
      `insert into job_run (organization_id, queue, subject, failures) select id, 'watch', '', 1 from organization`,
    ],
  ])('refuses what nothing can be computed with: %s', async (name, sql) => {
    expect(await refused(sql)).toEqual(['23514', name])
  })

  it('has a check on every other temperature that somebody gives', async () => {
    const names = [
      'panel_reading__plausible',
      'panel_reading__accuracy',
      'bond__air_plausible',
      'booking__metal_plausible',
      'operation__metal_plausible',
      'product_sheet__temperatures_plausible',
      'product_sheet_point__plausible',
    ]
    const there = await test.database.prisma.$queryRawUnsafe<{ conname: string }[]>(
      `select conname from pg_constraint where contype = 'c' and conname in ('${names.join("','")}')`,
    )
    expect(there.map(({ conname }) => conname).toSorted()).toEqual(names.toSorted())
  })

  it('refuses negative stock', async () => {
    const [piece] = await receive(test.owner, shop)
    const [{ lot_id: lotId }] = await test.database.prisma.$queryRawUnsafe<[{ lot_id: string }]>(
      `select lot_id from cartridge where id = '${piece!.id}'`,
    )
    const movement = (sealed: number, ul: number) =>
      `insert into stock_movement (organization_id, shop_id, lot_id, cartridge_id, kind, sealed_change, opened_change, volume_change_ul, at, recorded_by, actor_id, reason)
       values ('${organizationId}', '${shop.shopId}', '${lotId}', '${piece!.id}', 'corrected', ${sealed}, 0, ${ul}, now(), 'test', '${randomUUID()}', 'test')`
    expect(await refused(movement(0, -200_001))).toEqual(['23514', 'stock_on_hand__never_negative'])
    await run(movement(-1, -200_000))
    expect(await refused(movement(-1, 0))).toEqual(['23514', 'stock_on_hand__never_negative'])
  })

  it.each([
    'stock_movement',
    'incident',
    'disposition',
    'inspection',
    'attachment',
    'product_sheet',
    'product_sheet_point',
    'product_sheet_decision',
    'product_sheet_document',
    'lot_hold_event',
    'receipt',
  ])('never changes or removes a row of %s', async (table) => {
    const [{ triggers }] = await test.database.prisma.$queryRawUnsafe<[{ triggers: bigint }]>(
      `select count(*) as triggers from pg_trigger where tgrelid = '${table}'::regclass and tgname = '${table}__append_only'`,
    )
    expect(triggers).toBe(1n)
    if (table !== 'stock_movement') return
    expect((await refused(`update ${table} set reason = 'another'`))[0]).toBe('CC001')
    expect((await refused(`delete from ${table}`))[0]).toBe('CC001')
    expect((await refused(`truncate ${table} cascade`))[0]).toBe('CC001')
  })

  it('runs one attempt at a joint at a time, and keeps what a state must have', async () => {
    const [{ states }] = await test.database.prisma.$queryRawUnsafe<[{ states: bigint }]>(
      `select count(*) as states from pg_constraint where conname = 'bond__state_has_its_instant'`,
    )
    expect(states).toBe(1n)
    const [{ indexes }] = await test.database.prisma.$queryRawUnsafe<[{ indexes: bigint }]>(
      `select count(*) as indexes from pg_indexes where indexname = 'bond__one_at_a_time' and indexdef like '%UNIQUE%applied%clamped%'`,
    )
    expect(indexes).toBe(1n)
  })

  it.each([
    [
      'product_gtin__fourteen_digits',
      `insert into product_gtin values ('{org}', '9520123456788', '{product}', 1, now(), 'x')`,
    ],
    [
      'product_gtin__cartridges',
      `insert into product_gtin values ('{org}', '09520123456788', '{product}', 0, now(), 'x')`,
    ],
    [
      'receipt__serials_have_a_gtin',
      `insert into receipt (organization_id, shop_id, lot_id, cartridges, serials, at, recorded_by) values ('{org}', '{shop}', '{lot}', 1, '{S1}', now(), 'x')`,
    ],
    [
      'webhook__address',
      `insert into webhook (organization_id, name, url, secret, created_at, created_by) values ('{org}', 'x', 'ftp://x', 'x', now(), 'x')`,
    ],
    [
      'delivery__to_one',
      `insert into delivery (organization_id, message_id, payload, created_at, next_attempt_at) values ('{org}', 'x', '{}', now(), now())`,
    ],
    [
      'digest_subscription__hour',
      `insert into digest_subscription (organization_id, person_id, hour) select organization_id, id, 24 from person limit 1`,
    ],
    [
      'alert__resolution_is_whole',
      `insert into alert (organization_id, shop_id, kind, severity, code, params, subject_kind, subject_id, opened_at, resolution, closed_by) values ('{org}', '{shop}', 'x', 'notice', 'x', '{}', 'lot', '{lot}', now(), 'x', 'x')`,
    ],
    ['lot__hold_is_whole', `update lot set hold_kind = 'person' where id = '{lot}'`],
    [
      'lot__hold_kind',
      `update lot set hold_reason = 'x', hold_since = now(), hold_by = 'x', hold_kind = 'other' where id = '{lot}'`,
    ],
    [
      'stock_count__finish_is_whole',
      `insert into stock_count (organization_id, shop_id, started_at, started_by, finished_at) values ('{org}', '{shop}', now(), 'x', now())`,
    ],
    ['cartridge__state', `update cartridge set state = 'gone' where id = '{cartridge}'`],
    [
      'cartridge__away_is_whole',
      `update cartridge set state = 'inTransit', location_id = null, remaining_ul = 0 where id = '{cartridge}'`,
    ],
    [
      'cartridge__away_lies_nowhere',
      `update cartridge set state = 'missing', away_state = 'sealed', away_ul = 1 where id = '{cartridge}'`,
    ],
    [
      'shipment__to_another_shop',
      `insert into shipment (organization_id, from_shop_id, to_shop_id, reason, sent_at, sent_by) values ('{org}', '{shop}', '{shop}', 'x', now(), 'x')`,
    ],
    [
      'cartridge_quarantine__says_why',
      `insert into cartridge_quarantine (organization_id, cartridge_id, since, recorded_at, reason) values ('{org}', '{cartridge}', now(), now(), '')`,
    ],
    [
      'cartridge_quarantine__decision',
      `insert into cartridge_quarantine (organization_id, cartridge_id, since, recorded_at, reason, decision, decided_at, decided_by, decision_reason) values ('{org}', '{cartridge}', now(), now(), 'x', 'perhaps', now(), 'x', 'x')`,
    ],
    [
      'cartridge_quarantine__decided_whole',
      `insert into cartridge_quarantine (organization_id, cartridge_id, since, recorded_at, reason, decided_at) values ('{org}', '{cartridge}', now(), now(), 'x', now())`,
    ],
    [
      'cartridge_stay__in_order',
      `update cartridge_stay set until_at = from_at - interval '1 s' where cartridge_id = '{cartridge}'`,
    ],
    [
      'stock_movement__changes_nothing',
      `insert into stock_movement (organization_id, shop_id, lot_id, cartridge_id, kind, sealed_change, opened_change, volume_change_ul, at, recorded_by, actor_id, reason) values ('{org}', '{shop}', '{lot}', '{cartridge}', 'moved', 1, 0, 0, now(), 'x', '{org}', 'x')`,
    ],
    [
      'stock_movement__way_has_a_shipment',
      `insert into stock_movement (organization_id, shop_id, lot_id, cartridge_id, kind, sealed_change, opened_change, volume_change_ul, at, recorded_by, actor_id, reason) values ('{org}', '{shop}', '{lot}', '{cartridge}', 'sent', -1, 0, 0, now(), 'x', '{org}', 'x')`,
    ],
    [
      'receipt__cartridges',
      `insert into receipt (organization_id, shop_id, lot_id, cartridges, at, recorded_by) values ('{org}', '{shop}', '{lot}', 0, now(), 'x')`,
    ],
  ])('keeps %s', async (name, sql) => {
    expect(await refused(await filled(sql))).toEqual(['23514', name])
  })

  it('accepts no joint without an inspection, and keeps a photo whole', async () => {
    const { jointId } = await makeJoint(test.owner, shop)
    const [piece] = await receive(test.owner, shop)
    const free = await freshBay(test.owner, shop, test.clock.now)
    const bond = await test.owner.made(`/v1/joints/${jointId}/bonds`, application(free, piece!.id))
    const happened = { alreadyHappened: true, reason: 'For the test' }
    await test.owner.made(`/v1/bonds/${bond.id}/release`, happened)
    const incident = `(select id from incident where bond_id = '${bond.id}')`
    const disposed = await filled(
      `insert into disposition (incident_id, organization_id, shop_id, kind, recorded_by, reason) values (${incident}, '{org}', '{shop}', 'inspectedAndAccepted', 'x', 'x')`,
    )
    expect(await refused(disposed)).toEqual(['23514', 'disposition__accepted_after_an_inspection'])
    const inspection = (columns: string, values: string) =>
      `insert into inspection (organization_id, shop_id, incident_id, inspector_id, inspector_name, method, result, at, recorded_by, recorded_by_id${columns})
       select organization_id, '${shop.shopId}', ${incident}, id, name, 'x', 'x', now(), 'x', id${values} from person limit 1`
    expect(await refused(inspection(', photo', `, '\\xff'`))).toEqual(['23514', 'inspection__photo_is_whole'])
    const gif = inspection(', photo, photo_type, photo_sha256', `, '\\xff', 'image/gif', 'x'`)
    expect(await refused(gif)).toEqual(['23514', 'inspection__photo_type'])
    const late = `update bond set applied_recorded_at = applied_at - interval '1 s' where id = '${bond.id}'`
    expect(await refused(late)).toEqual(['23514', 'bond__told_once_it_happened'])
    const lifted = `update bond set was_lifted = true where id = '${bond.id}'`
    expect(await refused(lifted)).toEqual(['23514', 'bond__lifted_is_abandoned'])
    const slid = (set: string) => `update bond set ${set} where id = '${bond.id}'`
    expect(await refused(slid('slid_at = applied_at'))).toEqual(['23514', 'bond__slid_by_somebody'])
    expect(await refused(slid(`slid_at = applied_at - interval '1 s', slid_by = 'x'`))).toEqual([
      '23514',
      'bond__slid_after_applied',
    ])
  })

  it.each([
    ['attachment__kind', `'video', 'x'`, ''],
    ['attachment__note_says_something', `'note', ''`, ''],
    ['attachment__photo_is_whole', `'photo', ''`, ''],
    ['attachment__photo_is_whole', `'note', 'x'`, `sha256 = 'x'`],
    ['attachment__photo_is_whole', `'note', 'x'`, 'taken_at = now()'],
    ['attachment__bond_of_a_joint', `'note', 'x'`, `bond_id = '${randomUUID()}'`],
    ['attachment__withdrawal_is_whole', `'note', 'x'`, 'withdrawn_at = now()'],
    ['attachment__media_type', `'photo', ''`, photoOf('\\xff', { type: 'image/gif' })],
    ['attachment__hash', `'photo', ''`, photoOf('\\xff', { sha256: '0'.repeat(64) })],
    ['attachment__size', `'photo', ''`, photoOf('\\xff', { bytes: 2 })],
    ['attachment__pixels', `'photo', ''`, photoOf('\\xff', { width: 0 })],
  ])('keeps %s of %s, %s', async (name, what, set) => {
    const columns = set === '' ? [] : set.split('; ').map((each) => each.split(' = ') as [string, string])
    const names = columns.map(([column]) => `, ${column}`).join('')
    const values = columns.map(([, value]) => `, ${value}`).join('')
    const sql = `insert into attachment (organization_id, shop_id, repair_order_id, at, recorded_by, recorded_by_id, kind, text${names})
      values ('${organizationId}', '${shop.shopId}', '${orderId}', now(), 'x', '${randomUUID()}', ${what}${values})`
    expect(await refused(sql)).toEqual(['23514', name])
  })

  it('quarantines a cartridge once at a time, and keeps what was decided', async () => {
    const quarantine = await filled(
      `insert into cartridge_quarantine (organization_id, cartridge_id, since, recorded_at, reason) values ('{org}', '{cartridge}', now(), now(), 'x')`,
    )
    await run(quarantine)
    expect(await refused(quarantine)).toEqual(['23505', 'cartridge_quarantine__one_at_a_time'])
    const changed = `update cartridge_quarantine set reason = 'another'`
    expect((await refused(changed))[0]).toBe('CC001')
    const decided = `update cartridge_quarantine set decision = 'use', decided_at = now(), decided_by = 'x', decision_reason = 'x'`
    await run(decided)
    expect((await refused(decided))[0]).toBe('CC001')
    expect((await refused('delete from cartridge_quarantine'))[0]).toBe('CC001')
    await run(quarantine)
  })

  it('keeps a cartridge on one shelf and on one way at a time', async () => {
    const stay = `insert into cartridge_stay (organization_id, shop_id, cartridge_id, location_id, from_at) values ('{org}', '{shop}', '{cartridge}', '{location}', now())`
    expect(await refused(await filled(stay))).toEqual(['23505', 'cartridge_stay__one_shelf_at_a_time'])
    const other = await makeShop(test.owner)
    const twice = await filled(
      `with s as (insert into shipment (organization_id, from_shop_id, to_shop_id, reason, sent_at, sent_by)
                  select '{org}', '{shop}', '${other.shopId}', 'x', now(), 'x' from generate_series(1, 2) returning id)
       insert into shipment_line (organization_id, shipment_id, cartridge_id) select '{org}', id, '{cartridge}' from s`,
    )
    expect((await refused(twice))[1]).toMatch(/shipment_line__(one_way_at_a_time|shipment)/)
  })

  it('lets a shelf have one open count', async () => {
    const count = await filled(
      `insert into stock_count (organization_id, shop_id, location_id, started_at, started_by) values ('{org}', '{shop}', null, now(), 'x')`,
    )
    await run(count)
    expect(await refused(count)).toEqual(['23505', 'stock_count__one_at_a_shelf'])
  })

  it('promises no more of a cartridge than it holds', async () => {
    const { jointId } = await makeJoint(test.owner, shop)
    const other = await makeJoint(test.owner, shop)
    const [piece] = await receive(test.owner, shop)
    const keep = (joint: string, ul: number) =>
      `insert into reservation (organization_id, shop_id, joint_id, cartridge_id, amount_ul, needed_at, made_at, made_by)
       values ('${organizationId}', '${shop.shopId}', '${joint}', '${piece!.id}', ${ul}, now(), now(), 'x')`
    await run(keep(jointId, 150_000))
    expect(await refused(keep(other.jointId, 50_001))).toEqual(['23514', 'reservation__within_content'])
    await run(keep(other.jointId, 50_000))
    expect((await refused(keep(other.jointId, 0)))[0]).toBe('23514')
    const half = `update reservation set ended_at = now() where joint_id = '${jointId}'`
    expect(await refused(half)).toEqual(['23514', 'reservation__end_is_whole'])
  })
})

/** The columns of a photo with these bytes, but for what is told. */
function photoOf(
  content: string,
  {
    type = 'image/jpeg',
    sha256 = '',
    bytes = 1,
    width = 1,
  }: { type?: string; sha256?: string; bytes?: number; width?: number },
): string {
  const hash = sha256 === '' ? `encode(sha256('${content}'), 'hex')` : `'${sha256}'`
  const columns = { content: `'${content}'`, media_type: `'${type}'`, sha256: hash, bytes, width, height: 1 }
  return Object.entries(columns)
    .map(([name, value]) => `${name} = ${value}`)
    .join('; ')
}
