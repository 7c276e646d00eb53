import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { sqlState, violatedConstraint } from '../../apps/api/src/foundation/database/sql-state.ts'
import { KINDS } from '../support/databases.ts'
import { application, makeJoint, makeShop, receive, steadyAir, type Shop } from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

/** What was read stays as it was read, whoever writes: raw SQL, asserted by SQLSTATE and by name. */
describe.each(KINDS)('readings in the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let bondId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    await steadyAir(test.owner, shop.sensorId, 23, NOON, 1)
    const [piece] = await receive(test.owner, shop)
    const { jointId } = await makeJoint(test.owner, shop)
    bondId = (await test.owner.made(`/v1/joints/${jointId}/bonds`, application(shop, piece!.id))).id
  })
  afterAll(() => test.end())

  const run = (sql: string) => test.database.prisma.$executeRawUnsafe(sql)
  const refused = async (sql: string): Promise<(string | undefined)[]> => {
    const error: unknown = await run(sql).then(
      () => undefined,
      (reason: unknown) => reason,
    )
    return [sqlState(error), violatedConstraint(error)]
  }
  const panel = (sql: string) => `update panel_reading set ${sql} where bond_id = '${bondId}'`
  const air = (sql: string) => `update temperature_reading set ${sql} where sensor_id = '${shop.sensorId}'`

  it('keeps a panel reading but for its quality, which ends with a decision that says who and why', async () => {
    for (const sql of [
      'temperature_c = 99',
      'at = now()',
      "recorded_by = 'x'",
      'bond_id = gen_random_uuid()',
    ])
      expect((await refused(panel(sql)))[0], sql).toBe('CC001')
    expect((await refused(`delete from panel_reading where bond_id = '${bondId}'`))[0]).toBe('CC001')
    expect(await refused(panel("quality = 'perfect'"))).toEqual(['23514', 'panel_reading__quality'])
    expect(await refused(panel("quality = 'suspect'"))).toEqual(['23514', 'panel_reading__suspect_says_why'])
    expect(await refused(panel("quality = 'withdrawn'"))).toEqual([
      '23514',
      'panel_reading__decision_is_whole',
    ])
    expect(await refused(panel("findings = '{}'"))).toEqual(['23514', 'panel_reading__findings'])
    const again = `insert into panel_reading (organization_id, shop_id, bond_id, at, temperature_c, accuracy_c, source, recorded_by)
      select organization_id, shop_id, bond_id, at, 20, 1, source, 'x' from panel_reading where bond_id = '${bondId}'`
    expect(await refused(again)).toEqual(['23505', 'panel_reading__one_at_an_instant'])
    const decision = "decided_at = now(), decided_by = 'x', decision_reason = 'wrong panel'"
    await run(panel(`quality = 'replaced', ${decision}`))
    // Set aside is set aside: another may stand in its place, and it never comes back.
    await run(again)
    const back = `update panel_reading set quality = 'good' where bond_id = '${bondId}' and quality = 'replaced'`
    expect((await refused(back))[0]).toBe('CC001')
  })

  it('knows what the air at the joint was read with, and no hygrometer that nobody named', async () => {
    const bond = (sql: string) => `update bond set ${sql} where id = '${bondId}'`
    expect(await refused(bond("air_read_with = 'thumb'"))).toEqual(['23514', 'bond__air_read_with'])
    expect(await refused(bond("air_read_with = 'hygrometer'"))).toEqual([
      '23514',
      'bond__air_read_with_its_hygrometer',
    ])
    expect(await run(bond("air_read_with = 'panelThermometer'"))).toBe(1)
  })

  it('keeps what a thermometer sent beside what somebody put in its place', async () => {
    expect((await refused(air('temperature_c = 99')))[0]).toBe('CC001')
    expect((await refused(air("at = at + interval '1 second'")))[0]).toBe('CC001')
    expect((await refused(air('sent_c = 1')))[0]).toBe('CC001')
    expect(await refused(air("quality = 'replaced'"))).toEqual(['23514', 'temperature_reading__quality'])
    expect(await refused(air("quality = 'suspect'"))).toEqual([
      '23514',
      'temperature_reading__suspect_says_why',
    ])
    expect(await refused(air("findings = '3'"))).toEqual(['23514', 'temperature_reading__findings'])
    const [{ id }] = await test.database.prisma.$queryRawUnsafe<[{ id: string }]>(
      `insert into sensor_decision (organization_id, sensor_id, kind, from_at, until_at, reason, at, decided_by)
       select organization_id, id, 'wasFahrenheit', now(), now(), 'in degF', now(), 'x' from sensor where id = '${shop.sensorId}' returning id`,
    )
    // Corrected, but what was sent is not what was there.
    expect((await refused(air(`temperature_c = -5, sent_c = 22, decision_id = '${id}'`)))[0]).toBe('CC001')
    expect(await run(air(`temperature_c = -5, sent_c = 23, decision_id = '${id}'`))).toBe(4)
    await run(air("quality = 'withdrawn'"))
    expect((await refused(air("quality = 'good'")))[0]).toBe('CC001')
  })

  it('keeps what people decided about a thermometer, whole', async () => {
    const decision = (kind: string, from: string, until: string, replacedBy = 'null', reason = 'why not') =>
      `insert into sensor_decision (organization_id, sensor_id, kind, from_at, until_at, replaced_by_id, reason, at, decided_by)
       select organization_id, id, '${kind}', ${from}, ${until}, ${replacedBy}, '${reason}', now(), 'x' from sensor where id = '${shop.sensorId}'`
    expect(await refused(decision('liked', 'null', 'null'))).toEqual(['23514', 'sensor_decision__kind'])
    for (const [kind_, from, until] of [
      ['withdrawn', 'null', 'null'],
      ['retired', 'now()', 'now()'],
      ['withdrawn', 'now()', "now() - interval '1 hour'"],
    ] as const)
      expect(await refused(decision(kind_, from, until))).toEqual(['23514', 'sensor_decision__span'])
    expect(await refused(decision('doubted', 'null', 'null', 'id'))).toEqual([
      '23514',
      'sensor_decision__replaced_is_retired',
    ])
    expect(await refused(decision('doubted', 'null', 'null', 'null', ''))).toEqual([
      '23514',
      'sensor_decision__says_why',
    ])
    expect((await refused('delete from sensor_decision'))[0]).toBe('CC001')
    expect((await refused("update sensor_decision set reason = 'x'"))[0]).toBe('CC001')
  })
})
