import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { sqlState, violatedConstraint } from '../../apps/api/src/foundation/database/sql-state.ts'
import { KINDS } from '../support/databases.ts'
import { makeJoint, makeShop, type Shop } from '../support/fixtures.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

/** What the database itself keeps of working time and operations: raw SQL, asserted by the constraint's name. */
describe.each(KINDS)('working time and operations in the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let other: Shop
  let organizationId: string
  let orderId: string
  let jointId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    other = await makeShop(test.owner)
    ;({ orderId, jointId } = await makeJoint(test.owner, shop))
    organizationId = (await test.owner.read<{ organization: { id: string } }>('/v1/me')).organization.id
  })
  afterAll(() => test.end())

  const insert = (table: string, columns: Record<string, string | number | null>) => {
    const all: Record<string, string | number | null> = {
      organization_id: organizationId,
      shop_id: shop.shopId,
      ...columns,
    }
    const values = Object.values(all).map((value) => (value === null ? 'null' : `'${value}'`))
    const sql = `insert into ${table} (${Object.keys(all).join(', ')}) values (${values.join(', ')})`
    return test.database.prisma.$executeRawUnsafe(sql)
  }
  const refusedBy = async (table: string, columns: Record<string, string | number | null>) => {
    const error: unknown = await insert(table, columns).then(
      () => undefined,
      (reason: unknown) => reason,
    )
    expect(sqlState(error), JSON.stringify(columns)).toBeDefined()
    return violatedConstraint(error)
  }

  it('keeps shifts apart, on days that there are, of the shop itself', async () => {
    const shift = { weekday: 1, from_minute: 420, until_minute: 720 }
    await insert('work_shift', shift)
    expect(await refusedBy('work_shift', { ...shift, from_minute: 719, until_minute: 800 })).toBe(
      'work_shift__no_overlap',
    )
    await insert('work_shift', { ...shift, from_minute: 720, until_minute: 800 })
    expect(await refusedBy('work_shift', { ...shift, weekday: 8 })).toBe('work_shift__weekday')
    expect(await refusedBy('work_shift', { ...shift, until_minute: 1441 })).toBe('work_shift__within_the_day')
    expect(await refusedBy('work_shift', { ...shift, resource_id: other.bayId })).toBe('work_shift__resource')
  })

  it.each([
    [{ kind: 'holiday' }, 'day_exception__kind'],
    [{ first_day: '2031-05-27' }, 'day_exception__days'],
    [{ from_minute: 60 }, 'day_exception__minutes'],
    [{ kind: 'absent' }, 'day_exception__whose'],
    [{ kind: 'overtime' }, 'day_exception__whose'],
  ])('refuses the exception %j', async (columns, constraint) => {
    const day = { kind: 'closed', first_day: '2031-05-26', last_day: '2031-05-26' }
    expect(await refusedBy('day_exception', { ...day, ...columns })).toBe(constraint)
  })

  it.each([
    [{ kind: 'polish' }, 'operation__kind'],
    [{ kind: 'cure', technicians: 0 }, 'operation__cure_has_no_length'],
    [{ work_minutes: 0 }, 'operation__length'],
    [{ joint_id: null }, 'operation__bonding_has_a_joint'],
    [{ technicians: 0 }, 'operation__unattended'],
    [{ technicians: 5 }, 'operation__technicians'],
    [{ skill: 'singing' }, 'operation__skill'],
    [{ clamp_sets: -1 }, 'operation__clamp_sets'],
    [{ attributes: '{pool}' }, 'operation__attributes'],
    [{ place: 'yard' }, 'operation__place'],
    [{ highest_metal_c: 60 }, 'operation__bake_has_a_temperature'],
    [{ bake_program: '{"setPointC": 70}' }, 'operation__program_is_of_a_bake'],
    [
      { kind: 'bake', technicians: 0, highest_metal_c: 60, bake_program: '70' },
      'operation__program_is_of_a_bake',
    ],
    [{ finished_at: '2031-05-26T08:00Z' }, 'operation__finished_after_started'],
  ])('refuses the operation %j', async (columns, constraint) => {
    const operation = {
      repair_order_id: orderId,
      joint_id: jointId,
      position: 1,
      kind: 'bondAndClamp',
      name: 'Bond',
      place: 'bay',
      work_minutes: 40,
      technicians: 1,
    }
    expect(await refusedBy('operation', { ...operation, ...columns })).toBe(constraint)
  })

  it('gives attributes to places, skills to technicians, and an order one of four priorities', async () => {
    const resource = { kind: 'bay', name: 'Bay 9' }
    expect(await refusedBy('resource', { ...resource, attributes: '{pool}' })).toBe('resource__attributes')
    expect(await refusedBy('resource', { ...resource, skills: '{body}' })).toBe('resource__skills')
    const order = { number: 'X', vehicle: 'Van', priority: 'urgent' }
    expect(await refusedBy('repair_order', order)).toBe('repair_order__priority')
  })

  it('has each template of a shop once', async () => {
    const template = { key: 'ours', name: 'Ours', steps: '[]' }
    await insert('repair_template', template)
    expect(await refusedBy('repair_template', template)).toBe('repair_template__key_once')
  })
})
