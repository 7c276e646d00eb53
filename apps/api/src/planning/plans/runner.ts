import type { PlanProgress } from '@clampclock/contracts'
import type { Database } from '../../foundation/database/database.ts'
import { inChain } from '../../foundation/database/in-chain.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { announce } from '../../foundation/live/hub.ts'
import { baselineOf } from '../problem/baseline.ts'
import { onlyOf, workVersionsOf, type WorkVersions } from '../operations/changed-orders.ts'
import type { ShopFacts } from '../problem/facts.ts'
import { gatherFacts } from '../problem/gather.ts'
import { interpret } from '../problem/interpret.ts'
import { keepPlan, notesJson, plannedJson, summaryOf } from './keep-plan.ts'
import { priceOf } from './left-out.ts'
import type { SolveAnswer } from './planner-worker.ts'
import { publishedRow, wholePlan } from './plan-store.ts'
import { noPlace } from '../problem/unplannable.ts'

/** Who plans tells that it still does; after so long without a word, another process takes the plan over. */
const HEARTBEAT_MS = 1_000
const GIVEN_UP_MS = 30_000
/** For plans whose announcement was missed. */
const EVERY_MS = 20_000

interface Job {
  readonly id: string
  readonly organizationId: string
  readonly shopId: string
  readonly seed: number
  readonly iterations: number
  readonly seconds: number
  readonly mode: string
}

/**
 * Works on the plans that people ask for, in threads of its own: at once when one is announced, and those that a process
 * left behind. Several processes may run it: each plan is claimed by one of them, and by none that has no thread free, so
 * that another may take it and it is made from the facts of when its turn comes. Answers how to stop.
 */
export function startPlanning(app: App): () => Promise<void> {
  const running = new Map<string, { readonly stopper: AbortController; readonly done: Promise<void> }>()
  let looking: Promise<void> | undefined
  let again = false
  let ended = false
  const look = () => {
    if (ended) return
    if (looking) {
      again = true
      return
    }
    looking = takeNew()
      .catch((error: unknown) => app.log.error({ err: error }, 'looking for plans failed'))
      .finally(() => {
        looking = undefined
        if (again) {
          again = false
          look()
        }
      })
  }
  const takeNew = async () => {
    if (running.size >= app.planner.size) return
    for (const job of await claimable(app.database, app.clock())) {
      if (running.size >= app.planner.size) return
      if (running.has(job.id) || !(await claim(app.database, job.id, app.clock()))) continue
      const stopper = new AbortController()
      const done = work(app, job, stopper)
        .catch((error: unknown) => app.log.error({ err: error }, 'a plan failed'))
        .finally(() => {
          running.delete(job.id)
          look()
        })
      running.set(job.id, { stopper, done })
    }
  }
  const unsubscribe = app.live.subscribe((heard) => {
    if (heard === 'gap' || heard.event.topic === 'plans') look()
  })
  const timer = setInterval(look, EVERY_MS)
  look()
  return async () => {
    ended = true
    clearInterval(timer)
    unsubscribe()
    await looking
    for (const { stopper } of running.values()) stopper.abort()
    await Promise.all([...running.values()].map(({ done }) => done))
  }
}

function claimable(database: Database, now: Date): Promise<Job[]> {
  const givenUp = new Date(now.getTime() - GIVEN_UP_MS)
  return database.prisma.plan.findMany({
    where: { state: 'solving', OR: [{ claimedAt: null }, { claimedAt: { lt: givenUp } }] },
    select: {
      id: true,
      organizationId: true,
      shopId: true,
      seed: true,
      iterations: true,
      seconds: true,
      mode: true,
    },
    orderBy: { createdAt: 'asc' },
  })
}

async function claim(database: Database, id: string, now: Date): Promise<boolean> {
  const givenUp = new Date(now.getTime() - GIVEN_UP_MS)
  const { count } = await database.prisma.plan.updateMany({
    where: { id, state: 'solving', OR: [{ claimedAt: null }, { claimedAt: { lt: givenUp } }] },
    data: { claimedAt: now },
  })
  return count === 1
}

async function work(app: App, job: Job, stopper: AbortController): Promise<void> {
  const { database } = app
  const { id, organizationId, shopId } = job
  const within = <Result>(what: Parameters<typeof inChain<Result>>[2]) =>
    inChain(database, organizationId, what)
  try {
    const { facts, baseline, versions } = await within(async (tx) => {
      const read = await workVersionsOf(tx, shopId)
      const gathered = await gatherFacts(tx, shopId, app.clock())
      const published = await publishedRow(tx, shopId)
      await tx.plan.update({
        where: { id },
        data: { originAt: new Date(gathered.originMs), basedOn: published?.id ?? null },
      })
      return {
        facts: gathered,
        versions: read,
        baseline: published ? baselineOf(gathered, await wholePlan(tx, published.id)) : null,
      }
    })
    const startedMs = performance.now()
    let progress: PlanProgress | undefined
    const solving = app.planner.solve(
      {
        facts,
        baseline,
        seed: job.seed,
        iterations: job.iterations,
        seconds: job.seconds,
        mode: job.mode === 'repair' ? 'repair' : 'anew',
      },
      ({ cost, improvements }) => {
        progress = {
          seconds: Math.round((performance.now() - startedMs) / 100) / 10,
          improvements,
          weightedLateMinutes: Math.round(cost),
        }
      },
    )
    stopper.signal.addEventListener('abort', solving.stop)
    if (stopper.signal.aborted) solving.stop()
    const beat = setInterval(() => {
      void tell(app, job, progress).then((isStopAsked) => isStopAsked && stopper.abort())
    }, HEARTBEAT_MS)
    const answer = await solving.answer.finally(() => clearInterval(beat))
    await within((tx) => keep(tx, job, { facts, versions }, answer, app.clock()))
  } catch (error) {
    app.log.error({ err: error, planId: id }, 'planning failed')
    await within((tx) =>
      fail(tx, job, 'The planner met something that it does not understand; the log says what', app.clock()),
    )
  }
}

type Tx = Parameters<Parameters<typeof inChain>[2]>[0]

/** Answers whether somebody asked to stop. */
async function tell(
  { database, clock, log }: App,
  { id, organizationId, shopId }: Job,
  progress: PlanProgress | undefined,
): Promise<boolean> {
  try {
    return await inChain(database, organizationId, async (tx) => {
      await tx.plan.updateMany({
        where: { id, state: 'solving' },
        data: { claimedAt: clock(), ...(progress ? { progress } : {}) },
      })
      // `planProgress` is not `plans`: nobody looks for new plans because of it.
      await announce(tx, { organizationId, shopId, topic: 'planProgress', subjectId: id })
      const row = await tx.plan.findUnique({ where: { id }, select: { stopAskedAt: true } })
      return row !== null && row.stopAskedAt !== null
    })
  } catch (error) {
    log.warn({ err: error }, 'the progress of a plan was not told')
    return false
  }
}

interface Read {
  readonly facts: ShopFacts
  readonly versions: WorkVersions
}

async function keep(
  tx: Tx,
  job: Job,
  { facts, versions }: Read,
  answer: SolveAnswer,
  now: Date,
): Promise<void> {
  const { id, organizationId, shopId } = job
  const [first] = answer.violations
  const { problem, assumptions, unplanned } = answer.translated
  if (first) {
    // Whoever looks into it needs what it was to solve.
    await tx.plan.updateMany({ where: { id, state: 'solving' }, data: { problem } })
    await fail(tx, job, `The plan was refused by the checker: ${first.message}`, now)
    return
  }
  const made = interpret(facts, answer.plan)
  const left = facts.orders
    .filter((order) => made.unplannedOrderIds.includes(order.id))
    .map((order) => noPlace(order))
  const leftOut = [...unplanned, ...left]
  const { count } = await tx.plan.updateMany({
    where: { id, state: 'solving' },
    data: {
      state: 'draft',
      problem,
      planned: plannedJson(answer.plan),
      summary: summaryOf(made, answer.values, answer, priceOf(facts, leftOut)),
      notes: notesJson(assumptions, leftOut),
      workVersions: onlyOf(versions, made.ends),
      finishedAt: now,
    },
  })
  if (count === 0) return
  await keepPlan(tx, { planId: id, organizationId, shopId }, made)
  await announce(tx, { organizationId, shopId, topic: 'plans', subjectId: id })
}

async function fail(tx: Tx, { id, organizationId, shopId }: Job, fault: string, now: Date): Promise<void> {
  await tx.plan.updateMany({
    where: { id, state: 'solving' },
    data: { state: 'failed', fault, finishedAt: now },
  })
  await announce(tx, { organizationId, shopId, topic: 'plans', subjectId: id })
}
