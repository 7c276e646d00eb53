import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { sqlState, violatedConstraint } from '../../apps/api/src/foundation/database/sql-state.ts'
import { KINDS } from '../support/databases.ts'
import { makeShop, type Shop } from '../support/fixtures.ts'
import { makePlannedJob, type PlannedJob } from '../support/planned-shop.ts'
import { startTestApp, type TestApp } from '../support/test-app.ts'

type Columns = Record<string, string | number | boolean | null>

/** What the database itself keeps of plans: raw SQL, asserted by the constraint's name. */
describe.each(KINDS)('plans in the %s database', (kind) => {
  let test: TestApp
  let shop: Shop
  let other: Shop
  let job: PlannedJob
  let organizationId: string
  beforeAll(async () => {
    test = await startTestApp(kind)
    shop = await makeShop(test.owner)
    other = await makeShop(test.owner)
    job = await makePlannedJob(test.owner, shop)
    organizationId = (await test.owner.read<{ organization: { id: string } }>('/v1/me')).organization.id
  })
  afterAll(() => test.end())

  const run = (sql: string) => test.database.prisma.$executeRawUnsafe(sql)
  const insert = (table: string, columns: Columns) => {
    const all: Columns = { organization_id: organizationId, shop_id: shop.shopId, ...columns }
    const values = Object.values(all).map((value) => (value === null ? 'null' : `'${value}'`))
    return run(`insert into ${table} (${Object.keys(all).join(', ')}) values (${values.join(', ')})`)
  }
  const refused = async (work: Promise<unknown>) => {
    const error: unknown = await work.then(
      () => undefined,
      (reason: unknown) => reason,
    )
    return [sqlState(error), violatedConstraint(error)]
  }
  const refusedBy = async (table: string, columns: Columns) => (await refused(insert(table, columns)))[1]

  const id = (n: number) => `00000000-0000-4000-8000-00000000000${n}`
  const draft = (n: number, more: Columns = {}): Columns => ({
    id: id(n),
    state: 'draft',
    reason: 'test',
    seed: 1,
    iterations: 1,
    seconds: 1,
    origin_at: '2031-05-05T10:00Z',
    problem: '{}',
    planned: '{}',
    notes: '{}',
    created_at: '2031-05-05T10:00Z',
    created_by: 'test',
    ...more,
  })
  const published = { state: 'published', published_at: '2031-05-05T11:00Z', published_by: 'test' }

  it('publishes one plan of a shop at a time', async () => {
    await insert('plan', draft(1, published))
    expect(await refused(insert('plan', draft(2, published)))).toEqual(['23505', 'plan__one_published'])
  })

  it.each([
    [{ state: 'someday' }, 'plan__state'],
    [{ mode: 'guess' }, 'plan__mode'],
    [{ planned: null }, 'plan__state_has_its_facts'],
    [{ work_versions: '[]' }, 'plan__work_versions_by_order'],
    [{ state: 'published' }, 'plan__state_has_its_facts'],
    [{ ...published, state: 'superseded' }, 'plan__state_has_its_facts'],
    [{ state: 'failed' }, 'plan__state_has_its_facts'],
  ] as [Columns, string][])('refuses the plan %j', async (columns, constraint) => {
    expect(await refusedBy('plan', draft(3, columns))).toBe(constraint)
  })

  it('bases a plan on one of its own shop', async () => {
    expect(await refusedBy('plan', draft(4, { shop_id: other.shopId, based_on: id(1) }))).toBe(
      'plan__based_on',
    )
  })

  it('plans operations and stays of its own shop, that end after they start', async () => {
    const times = { starts_at: '2031-05-05T12:00Z', ends_at: '2031-05-05T13:00Z' }
    const operation: Columns = {
      plan_id: id(1),
      operation_id: job.operations[0]!.id,
      technician_ids: '{}',
      overtime: false,
      ...times,
    }
    expect(await refusedBy('planned_operation', { ...operation, place_id: other.bayId })).toBe(
      'planned_operation__place',
    )
    expect(await refusedBy('planned_operation', { ...operation, ends_at: '2031-05-05T11:00Z' })).toBe(
      'planned_operation__ends_after_start',
    )
    await insert('planned_operation', operation)
    const stay: Columns = {
      plan_id: id(1),
      repair_order_id: job.orderId,
      resource_id: shop.bayId,
      units: 1,
      ...times,
    }
    expect(await refusedBy('planned_stay', { ...stay, resource_id: other.bayId })).toBe(
      'planned_stay__resource',
    )
    expect(await refusedBy('planned_stay', { ...stay, units: 0 })).toBe('planned_stay__units')
    expect(await refusedBy('planned_stay', { ...stay, ends_at: times.starts_at })).toBe(
      'planned_stay__ends_after_start',
    )
  })

  it('keeps what was changed for ever', async () => {
    const change: Columns = {
      plan_id: id(1),
      repair_order_id: job.orderId,
      operation_id: job.operations[0]!.id,
      operation_name: 'Prepare',
      kind: 'added',
      starts_at: '2031-05-05T12:00Z',
      reason: 'test',
      at: '2031-05-05T11:00Z',
      recorded_by: 'test',
    }
    await insert('plan_change', change)
    expect(
      await refusedBy('plan_change', { ...change, kind: 'forgotten', was_starts_at: change['starts_at']! }),
    ).toBe('plan_change__kind')
    expect(await refusedBy('plan_change', { ...change, kind: 'moved' })).toBe('plan_change__has_its_instants')
    for (const sql of [
      "update plan_change set reason = 'x'",
      'delete from plan_change',
      'truncate plan_change',
    ])
      expect((await refused(run(sql)))[0]).toBe('CC001')
  })

  it('gives a calendar address once, to something of its own shop', async () => {
    const feed = { secret_hash: 'x', created_at: '2031-05-05T11:00Z', created_by: 'test' }
    expect(await refusedBy('calendar_feed', { ...feed, resource_id: other.bayId })).toBe(
      'calendar_feed__resource',
    )
    await insert('calendar_feed', { ...feed, resource_id: shop.bayId })
    expect(await refusedBy('calendar_feed', { ...feed, resource_id: shop.otherBayId })).toBe(
      'calendar_feed__secret_once',
    )
  })

  it('lets a booking be of an operation only through a plan', async () => {
    const booking: Columns = {
      resource_id: shop.bayId,
      repair_order_id: job.orderId,
      starts_at: '2031-05-05T12:00Z',
      ends_at: '2031-05-05T13:00Z',
      operation_id: job.operations[0]!.id,
    }
    expect(await refusedBy('booking', booking)).toBe('booking__operation_of_a_plan')
    expect(await refusedBy('booking', { ...booking, plan_id: id(9) })).toBe('booking__plan')
    await insert('booking', { ...booking, plan_id: id(1) })
    // An operation that is taken off the order leaves the booking to the plan that made it.
    await run(`delete from operation where id = '${job.operations[0]!.id}'`)
    const [row] = await test.database.prisma.booking.findMany({ where: { planId: id(1) } })
    expect(row).toMatchObject({ operationId: null })
  })
})
