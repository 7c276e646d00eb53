import { asJson } from '../../foundation/words/params.ts'
import { inEnglish } from '../../foundation/words/words.ts'
import { message, type Message } from '@clampclock/messages'
import type { PlanProgress } from '@clampclock/contracts'
import type { Database } from '../../foundation/database/database.ts'
import { inChain } from '../../foundation/database/in-chain.ts'
import type { App } from '../../foundation/http/app-type.ts'
import type { Queue } from '../../foundation/jobs/queue.ts'
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

/** How often whoever waits for a plan is told how far it is. */
const HEARTBEAT_MS = 1_000

interface Asked {
  readonly id: string
  readonly organizationId: string
  readonly shopId: string
  readonly seed: number
  readonly iterations: number
  readonly seconds: number
  readonly mode: string
}

/**
 * Works on the plans that people ask for, in threads of its own, and takes up those that a process left behind. A process
 * takes no more of them than it has threads, so that another may take the rest and each is made from the facts of when its
 * turn comes.
 */
export function planningQueue(app: App): Queue {
  return {
    name: 'planning',
    slots: app.planner.size,
    slotsOfChain: app.planner.size,
    whenItFails: message('alert.failsPlan'),
    run: async ({ subject, now, signal }) => {
      const asked = await begin(app.database, subject, now)
      if (asked) await work(app, asked, signal)
      return null
    },
  }
}

/** Undefined where nobody waits for it any more. */
async function begin({ prisma }: Database, id: string, now: Date): Promise<Asked | undefined> {
  const [asked] = await prisma.plan.updateManyAndReturn({
    where: { id, state: 'solving' },
    data: { claimedAt: now },
    select: {
      id: true,
      organizationId: true,
      shopId: true,
      seed: true,
      iterations: true,
      seconds: true,
      mode: true,
    },
  })
  return asked
}

async function work(app: App, job: Asked, signal: AbortSignal): Promise<void> {
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
    signal.addEventListener('abort', solving.stop)
    if (signal.aborted) solving.stop()
    const beat = setInterval(() => {
      void tell(app, job, progress).then((isStopAsked) => isStopAsked && solving.stop())
    }, HEARTBEAT_MS)
    const answer = await solving.answer.finally(() => {
      clearInterval(beat)
      signal.removeEventListener('abort', solving.stop)
    })
    await within((tx) => keep(tx, job, { facts, versions }, answer, app.clock()))
  } catch (error) {
    app.log.error({ err: error, planId: id }, 'planning failed')
    await within((tx) => fail(tx, job, message('plan-reason.notUnderstood'), app.clock()))
  }
}

type Tx = Parameters<Parameters<typeof inChain>[2]>[0]

/** Answers whether somebody asked to stop. */
async function tell(
  { database, log }: App,
  { id, organizationId, shopId }: Asked,
  progress: PlanProgress | undefined,
): Promise<boolean> {
  try {
    return await inChain(database, organizationId, async (tx) => {
      await tx.plan.updateMany({
        where: { id, state: 'solving' },
        data: progress ? { progress } : {},
      })
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
  job: Asked,
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
    await fail(tx, job, message('plan-reason.refusedByChecker', { what: first.message }), now)
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

async function fail(tx: Tx, { id, organizationId, shopId }: Asked, fault: Message, now: Date): Promise<void> {
  await tx.plan.updateMany({
    where: { id, state: 'solving' },
    data: { state: 'failed', fault: inEnglish(fault), faultSaid: asJson(fault), finishedAt: now },
  })
  await announce(tx, { organizationId, shopId, topic: 'plans', subjectId: id })
}
