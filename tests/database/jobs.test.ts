import { message } from '@clampclock/messages'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { connect } from '../../apps/api/src/foundation/database/connect.ts'
import type { Database } from '../../apps/api/src/foundation/database/database.ts'
import { inChain } from '../../apps/api/src/foundation/database/in-chain.ts'
import { backlogs } from '../../apps/api/src/foundation/jobs/backlog.ts'
import { take, waiting } from '../../apps/api/src/foundation/jobs/job-store.ts'
import type { Job, Queue, Worker } from '../../apps/api/src/foundation/jobs/queue.ts'
import { wake } from '../../apps/api/src/foundation/jobs/wake.ts'
import { workOff } from '../../apps/api/src/foundation/jobs/work.ts'
import { startWorking } from '../../apps/api/src/foundation/jobs/working.ts'
import { freshDatabase, KINDS, MIGRATIONS, type TestDatabase } from '../support/databases.ts'

const NOON = new Date('2031-05-07T16:00:00Z')
const MINUTE = 60_000
const LANE = { queue: 'test', slots: 9, slotsOfChain: 9 }

const WORDS = message('alert.asWritten', { text: 'Nothing is tested' })

describe.each(KINDS)('jobs in the %s database', (kind) => {
  let test: TestDatabase
  let now: Date
  let chains: string[]
  const worker: Worker = {
    get database() {
      return test.database
    },
    clock: () => now,
    log: { error: () => undefined },
  }
  beforeAll(async () => {
    test = await freshDatabase(kind)
    const { prisma } = test.database
    const made = await prisma.organization.createManyAndReturn({
      data: ['One', 'Two', 'Three'].map((name) => ({ name })),
    })
    chains = made.map(({ id }) => id)
  })
  afterAll(() => test.end())
  beforeEach(async () => {
    now = NOON
    await test.database.prisma.job.deleteMany()
    await test.database.prisma.jobRun.deleteMany()
  })

  const ask = (chain: number, subject = '', dueAt?: Date) =>
    inChain(test.database, chains[chain]!, (tx) =>
      wake(tx, { organizationId: chains[chain]!, queue: 'test', subject, ...(dueAt ? { dueAt } : {}) }),
    )
  const queue = (run: (job: Job) => Promise<Date | null | void>, changes: Partial<Queue> = {}): Queue => ({
    name: 'test',
    slots: 4,
    slotsOfChain: 1,
    whenItFails: WORDS,
    run: async (job) => (await run(job)) ?? null,
    ...changes,
  })
  const rows = () => test.database.prisma.job.count()

  it('are done once however often they were asked for, and leave nothing behind', async () => {
    const seen: string[] = []
    await ask(0)
    await ask(0)
    await ask(0, 'another')
    await ask(1)
    const did = await workOff(worker, [
      queue(async ({ organizationId, subject }) => {
        seen.push(`${chains.indexOf(organizationId)} ${subject}`)
      }),
    ])
    expect([did, seen.toSorted()]).toEqual([3, ['0 ', '0 another', '1 ']])
    expect([await rows(), await test.database.prisma.jobRun.count()]).toEqual([0, 0])
  })

  it('are not asked for by what is rolled back', async () => {
    await inChain(test.database, chains[0]!, async (tx) => {
      await wake(tx, { organizationId: chains[0]!, queue: 'test' })
      throw new Error('no')
    }).catch(() => undefined)
    expect(await rows()).toBe(0)
  })

  it('can be asked for by a chain for itself alone', async () => {
    await expect(
      inChain(test.database, chains[0]!, (tx) => wake(tx, { organizationId: chains[1]!, queue: 'test' })),
    ).rejects.toThrow('row-level security')
    expect(await rows()).toBe(0)
  })

  it('keep what is asked for while they run, and do it after', async () => {
    let runs = 0
    await ask(0)
    await workOff(worker, [
      queue(async () => {
        runs += 1
        if (runs > 1) return
        await ask(0)
        // Nobody else begins it meanwhile.
        expect(await waiting(test.database, [LANE], now)).toEqual([])
      }),
    ])
    expect(runs).toBe(2)
  })

  it('come when their time comes, and stand in for one another', async () => {
    const at: Date[] = []
    const every = queue(async ({ now: then }) => {
      at.push(then)
      return new Date(then.getTime() + 5 * MINUTE)
    })
    await ask(0, '', new Date(NOON.getTime() + MINUTE))
    expect(await workOff(worker, [every])).toBe(0)
    now = new Date(NOON.getTime() + MINUTE)
    expect(await workOff(worker, [every])).toBe(1)
    // A cause in between: the look of later is not done twice for it.
    await ask(0)
    now = new Date(NOON.getTime() + 2 * MINUTE)
    expect(await workOff(worker, [every])).toBe(1)
    expect(await rows()).toBe(1)
    now = new Date(NOON.getTime() + 6 * MINUTE)
    expect(await workOff(worker, [every])).toBe(0)
    now = new Date(NOON.getTime() + 7 * MINUTE)
    expect(await workOff(worker, [every])).toBe(1)
    expect(at).toHaveLength(3)
  })

  it('that fail are tried again after longer and longer, and are told as failing', async () => {
    let tries = 0
    const broken = queue(() => {
      tries += 1
      return Promise.reject(new Error('broken'))
    })
    await ask(0)
    for (let minute = 0; minute <= 60; minute += 1) {
      now = new Date(NOON.getTime() + minute * MINUTE)
      await workOff(worker, [broken])
    }
    // At once, and after 5 s, 15 s, 1 min, 5 min, then every 10 min; looked at by the minute here.
    expect(tries).toBe(10)
    expect(await backlogs(test.database, now)).toMatchObject({ test: { waiting: 1, failing: 1 } })
    const [run] = await test.database.prisma.jobRun.findMany()
    expect(run).toMatchObject({ failures: 10, lastError: 'broken', failedSince: NOON, takenBy: null })
    now = new Date(NOON.getTime() + 75 * MINUTE)
    expect(await workOff(worker, [queue(async () => undefined)])).toBe(1)
    expect(await test.database.prisma.jobRun.count()).toBe(0)
  })

  it('are begun again by another when who had them is not heard from, and that counts as a failure', async () => {
    await ask(0)
    const [key] = await waiting(test.database, [LANE], now)
    expect(await take(test.database, key!, now)).toBeDefined()
    // Its process is killed here.
    expect(await take(test.database, key!, now)).toBeUndefined()
    await test.database.prisma.$executeRaw`update job_run set taken_until = now() - interval '1 second'`
    let failures = -1
    await workOff(worker, [
      queue(async () => {
        failures = (await test.database.prisma.jobRun.findFirstOrThrow()).failures
      }),
    ])
    expect(failures).toBe(1)
    expect([await rows(), await test.database.prisma.jobRun.count()]).toEqual([0, 0])
  })

  it('of a chain that hangs keep no other waiting', async () => {
    for (let i = 0; i < 50; i += 1) await ask(0, `slow ${i}`)
    let hung = 0
    let free: (() => void) | undefined
    const held = new Promise<void>((resolve) => {
      free = resolve
    })
    const others = new Promise<string[]>((resolve) => {
      const seen: string[] = []
      const stop = startWorking(worker, [
        queue(async ({ organizationId, subject }) => {
          if (organizationId === chains[0]) {
            hung += 1
            await held
            return
          }
          seen.push(subject)
          if (seen.length === 6) {
            free!()
            void stop().then(() => resolve(seen))
          }
        }),
      ])
      void (async () => {
        for (let i = 0; i < 3; i += 1) {
          await ask(1, `one ${i}`)
          await ask(2, `two ${i}`)
        }
      })()
    })
    expect(await others).toHaveLength(6)
    expect(hung).toBeLessThanOrEqual(4)
  })
})

describe('two processes with one server', () => {
  let test: TestDatabase
  let other: Database
  let chain: string
  beforeAll(async () => {
    test = await freshDatabase('server')
    other = await connect({ dataDir: '', databaseUrl: test.url }, MIGRATIONS)
    chain = (await test.database.prisma.organization.create({ data: { name: 'One' } })).id
  })
  afterAll(async () => {
    await other.close()
    await test.end()
  })

  it('do each job once, and share them', async () => {
    const ASKED = 60
    const runs: string[] = []
    const done = new Promise<void>((resolve) => {
      const stops = [test.database, other].map((database, process) =>
        startWorking({ database, clock: () => new Date(), log: { error: () => undefined } }, [
          {
            name: 'test',
            slots: 3,
            slotsOfChain: 6,
            whenItFails: WORDS,
            run: async ({ subject }) => {
              runs.push(`${subject} by ${process}`)
              // Long enough that one process cannot have done it all before the other looked.
              await test.database.prisma.$executeRaw`select pg_sleep(0.02)`
              if (runs.length === ASKED) void Promise.all(stops.map((stop) => stop())).then(() => resolve())
              return null
            },
          },
        ]),
      )
    })
    await test.database.prisma.job.createMany({
      data: Array.from({ length: ASKED }, (_, i) => ({
        organizationId: chain,
        queue: 'test',
        subject: String(i),
      })),
    })
    await done
    expect(new Set(runs.map((run) => run.split(' ')[0])).size).toBe(ASKED)
    expect(new Set(runs.map((run) => run.split(' by ')[1])).size).toBe(2)
    expect(await test.database.prisma.job.count()).toBe(0)
  })

  it('lose no wake-up of a transaction that ends after the job that it woke has been done', async () => {
    const worker = { database: other, clock: () => new Date(), log: { error: () => undefined } }
    const seen: number[] = []
    const queue: Queue = {
      name: 'test',
      slots: 1,
      slotsOfChain: 1,
      whenItFails: WORDS,
      run: async () => {
        seen.push(await other.prisma.shop.count())
        return null
      },
    }
    const key = { organizationId: chain, queue: 'test' }
    await inChain(other, chain, (tx) => wake(tx, key))
    await inChain(test.database, chain, async (tx) => {
      await tx.shop.create({ data: { organizationId: chain, name: 'Late', timeZone: 'UTC' } })
      await wake(tx, key)
      // One waits already, is done before this is through, and cannot see it. Nobody waited for anybody.
      expect(await workOff(worker, [queue])).toBe(1)
    })
    expect(await workOff(worker, [queue])).toBe(1)
    expect(seen).toEqual([0, 1])
  })
})
