import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { inChain } from '../../apps/api/src/foundation/database/in-chain.ts'
import { ofShop, readMark } from '../../apps/api/src/foundation/database/marks.ts'
import { freshDatabase, KINDS, withClient, type TestDatabase } from '../support/databases.ts'

/** Bookkeeping of the service: no answer that is kept tells of it. */
const UNMARKED = [
  'access_token',
  'calendar_feed',
  'change_mark',
  'delivery',
  'digest_subscription',
  'idempotency_key',
  'job',
  'job_run',
  'outbox_event',
  'reading_thinning',
  'sign_in_session',
  'webhook',
]

describe.each(KINDS)('marks of what was written in the %s database', (kind) => {
  let test: TestDatabase
  let chain: string
  let north: string
  let south: string
  beforeAll(async () => {
    test = await freshDatabase(kind)
    const { organization, shop } = test.database.prisma
    chain = (await organization.create({ data: { name: 'One' } })).id
    const ids = ['North', 'South'].map(async (name) => {
      const made = await shop.create({ data: { organizationId: chain, name, timeZone: 'UTC' } })
      return made.id
    })
    ;[north, south] = (await Promise.all(ids)) as [string, string]
  })
  afterAll(() => test.end())

  const marks = async () => ({
    north: await readMark(test.database, chain, ofShop(north)),
    south: await readMark(test.database, chain, ofShop(south)),
    all: await readMark(test.database, chain, ofShop(undefined)),
  })
  type Changed = readonly ('north' | 'south' | 'all')[]

  async function changedBy(work: () => Promise<unknown>): Promise<Changed> {
    const before = await marks()
    await work()
    const after = await marks()
    return (['north', 'south', 'all'] as const).filter((name) => before[name] !== after[name])
  }

  const place = (shopId: string, name: string) =>
    inChain(test.database, chain, (tx) =>
      tx.resource.create({ data: { organizationId: chain, shopId, kind: 'bay', name } }),
    )

  it('are set by every table of a chain but bookkeeping, whatever is done to it', async () => {
    const tables = await test.database.prisma.$queryRaw<{ name: string; triggers: bigint }[]>`
      select c.relname as name,
             (select count(*) from pg_trigger t join pg_proc f on f.oid = t.tgfoid
               where t.tgrelid = c.oid and f.proname like 'mark_change_%' and t.tgenabled = 'O') as triggers
        from pg_class c join pg_policy p on p.polrelid = c.oid and p.polname = 'tenancy'
       where c.relnamespace = 'public'::regnamespace`
    expect(
      tables
        .filter(({ triggers }) => triggers !== 3n)
        .map(({ name }) => name)
        .toSorted(),
    ).toEqual(UNMARKED)
    expect(tables.length).toBeGreaterThan(50)
  })

  it('change where something was written, and nowhere else', async () => {
    let bayId = ''
    const add = async () => {
      bayId = (await place(north, 'Bay 1')).id
    }
    expect(await changedBy(add)).toEqual(['north', 'all'])
    const where = { id: bayId }
    const work = (what: Parameters<typeof inChain<unknown>>[2]) => () => inChain(test.database, chain, what)
    expect(await changedBy(work((tx) => tx.resource.update({ where, data: { active: false } })))).toEqual([
      'north',
      'all',
    ])
    // What moves from shop to shop is news in both.
    expect(
      await changedBy(() => test.database.prisma.resource.update({ where, data: { shopId: south } })),
    ).toEqual(['north', 'south', 'all'])
    expect(await changedBy(() => test.database.prisma.resource.delete({ where }))).toEqual(['south', 'all'])
    const data = {
      organizationId: chain,
      name: 'Paint and paste',
      leadDays: 1,
      leadDeviationDays: 0,
      orderCostCents: 0,
    }
    expect(await changedBy(work((tx) => tx.supplier.create({ data })))).toEqual(['north', 'south', 'all'])
    expect(await changedBy(work((tx) => tx.resource.count()))).toEqual([])
    const sensor = { organizationId: chain, shopId: south, name: 'Probe', place: 'bay', accuracyC: 0.5 }
    const { id: sensorId } = await test.database.prisma.sensor.create({
      data: { ...sensor, resourceId: (await place(south, 'Bay 2')).id },
    })
    const reading = { organizationId: chain, sensorId, at: new Date(0), temperatureC: 20 }
    expect(await changedBy(work((tx) => tx.temperatureReading.create({ data: reading })))).toEqual([
      'south',
      'all',
    ])
  })

  it('stay where the work is undone, and change once it stands', async () => {
    const before = await marks()
    const undone = inChain(test.database, chain, async (tx) => {
      await tx.resource.create({
        data: { organizationId: chain, shopId: north, kind: 'bay', name: 'Undone' },
      })
      throw new Error('thought better of it')
    })
    await expect(undone).rejects.toThrow('thought better of it')
    expect(await marks()).toEqual(before)
    expect(await changedBy(() => place(north, 'Done'))).toEqual(['north', 'all'])
  })

  it.runIf(kind === 'server')(
    'let two write in one shop at once, and tell of each when it stands',
    async () => {
      const insert = `insert into resource (organization_id, shop_id, kind, name) values ($1, $2, 'bay', $3)`
      await withClient(test.url, async (first) =>
        withClient(test.url, async (second) => {
          await first.query('begin')
          await first.query(insert, [chain, north, 'By the first'])
          // Waits for nobody: the first has not ended.
          expect(await changedBy(() => second.query(insert, [chain, north, 'By the second']))).toEqual([
            'north',
            'all',
          ])
          expect(await changedBy(() => first.query('commit'))).toEqual(['north', 'all'])
        }),
      )
    },
  )
})
