import { inEnglish } from '../../foundation/words/words.ts'
import { nameOf } from '../../foundation/words/kept.ts'
import { message, type Message } from '@clampclock/messages'
import { onClock, param } from '../../foundation/words/params.ts'
import type { PlanDetail, ProblemReason } from '@clampclock/contracts'
import { definePlan, type Plan as PlannerPlan, type Violation } from '@clampclock/planner'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, ProblemError, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { changesBetween } from './compare.ts'
import type { ShopFacts } from '../problem/facts.ts'
import { gatherFacts } from '../problem/gather.ts'
import { reasonsAgainstBakes } from './judge-bakes.ts'
import { planDetail } from './plan-detail.ts'
import { onePlan, planRow, publishedRow, wholePlan } from './plan-store.ts'
import type { PlannerPool } from './pool.ts'
import { begunBeside } from '../problem/set-aside.ts'
import { syncBookings } from './sync-bookings.ts'
import { violationReason } from './violation-reason.ts'

/** What a newer forecast changes is watched by itself (watch-cures.ts), and is no reason to refuse. */
const WATCHED_ELSEWHERE: ReadonlySet<Violation['rule']> = new Set(['duration', 'window'])

const MOST_REASONS = 20

export async function publishPlan(
  tx: Tx,
  actor: Actor,
  planner: PlannerPool,
  id: string,
  leavesOut: readonly string[],
  now: Date,
): Promise<PlanDetail> {
  const { shopId } = await planRow(tx, id)
  requireIn(actor, 'planWork', shopId)
  await lockPlanOf(tx, shopId)
  const row = await planRow(tx, id)
  if (row.state !== 'draft')
    throw wrongState(message('plan-problem.onlyDraftPublished', { state: row.state }))
  const published = await publishedRow(tx, shopId)
  if (row.basedOn !== (published?.id ?? null)) {
    throw outdated(
      published
        ? message('plan-problem.publishedAnother', { by: published.publishedBy ?? '' })
        : message('plan-problem.basisGone'),
      [],
    )
  }
  await requireUnchanged(tx, id)
  await requireConfirmed(tx, id, leavesOut)
  await requireStillFits(tx, planner, id, now)
  await makePublished(tx, actor, id, now)
  return planDetail(tx, id, now)
}

/** One writer at a time decides which plan of a shop holds. */
export async function lockPlanOf(tx: Tx, shopId: string): Promise<void> {
  await tx.$queryRaw`select 1 from shop where id = ${shopId}::uuid for no key update`
}

/** From here on this plan holds, with its bookings; what it changes is put on record. */
export async function makePublished(
  tx: Tx,
  actor: Pick<Actor, 'name' | 'organization'>,
  id: string,
  now: Date,
): Promise<void> {
  const { shopId, reason } = await planRow(tx, id)
  const organizationId = actor.organization.id
  const before = await publishedRow(tx, shopId)
  const changes = changesBetween(before ? await wholePlan(tx, before.id) : null, await wholePlan(tx, id))
  if (before)
    await tx.plan.update({ where: { id: before.id }, data: { state: 'superseded', supersededAt: now } })
  await tx.plan.update({
    where: { id },
    data: { state: 'published', publishedAt: now, publishedBy: actor.name },
  })
  const names = new Map(
    (await tx.resource.findMany({ where: { shopId } })).map((each) => [each.id, each.name]),
  )
  const nameOf = (placeId: string | null | undefined) => (placeId ? (names.get(placeId) ?? null) : null)
  await tx.planChange.createMany({
    data: changes.map(({ operationId, repairOrderId, name, before: was, after }) => ({
      organizationId,
      shopId,
      planId: id,
      repairOrderId,
      operationId,
      operationName: inEnglish(name),
      kind: was === null ? 'added' : after === null ? 'removed' : 'moved',
      wasStartsAt: was?.startsAt ?? null,
      wasEndsAt: was?.endsAt ?? null,
      startsAt: after?.startsAt ?? null,
      endsAt: after?.endsAt ?? null,
      wasPlace: nameOf(was?.placeId),
      place: nameOf(after?.placeId),
      reason,
      at: now,
      recordedBy: actor.name,
    })),
  })
  const against = await reasonsAgainstBakes(tx, id, now)
  if (against[0]) throw outdated(against[0].message, against.slice(0, MOST_REASONS))
  await syncBookings(tx, { organizationId, shopId, planId: id }, now)
  await announce(tx, { organizationId, shopId, topic: 'plans', subjectId: id })
  await announce(tx, { organizationId, shopId, topic: 'bookings' })
}

/** Other minutes of an operation break no rule that is judged below, and would be planned by nobody. */
async function requireUnchanged(tx: Tx, id: string): Promise<void> {
  const { changedOrders } = await onePlan(tx, id)
  const reasons = changedOrders.map(({ number }) => ({
    code: 'operations-changed',
    message: message('reason.operationsChanged', { order: number }),
    fix: message('reason.planAgainAndPublishFix'),
  }))
  if (reasons[0]) throw outdated(reasons[0].message, reasons.slice(0, MOST_REASONS))
}

/** Nobody drops a vehicle without having read its name. One that is done with since needs no plan, and no confirmation. */
async function requireConfirmed(tx: Tx, id: string, leavesOut: readonly string[]): Promise<void> {
  const { leftOut, notes } = await onePlan(tx, id)
  const known = new Set(notes.unplanned.map(({ orderId }) => orderId))
  leavesOut.forEach((orderId, i) => {
    if (!known.has(orderId)) throw invalidField(`body.leavesOut.${i}`, message('plan-problem.notLeftOut'))
  })
  const missing = leftOut.filter((order) => !leavesOut.includes(order.id))
  if (missing.length === 0) return
  const shown = missing.slice(0, MOST_REASONS)
  throw new ProblemError(
    'vehicles-left-out',
    message('reason.vehiclesDropped', {
      vehicles: missing.length,
      names: { list: shown.map(({ number, vehicle }) => `${number}, ${vehicle}`), join: 'semicolon' },
      more: missing.length - shown.length,
    }),
    shown.map(({ number, vehicle, reasons }) => ({
      code: 'left-out',
      message: message('reason.named', {
        name: `${number}, ${vehicle}`,
        what: { list: reasons.map(param), join: 'semicolon' },
      }),
      field: 'body.leavesOut',
      fix: message('reason.leftOutFix'),
    })),
  )
}

/** Between drafting and publishing a car may have come in, somebody fallen ill, a bay been booked by hand. */
async function requireStillFits(tx: Tx, planner: PlannerPool, id: string, now: Date): Promise<void> {
  const { shopId, originAt, planned } = await tx.plan.findUniqueOrThrow({ where: { id } })
  const late = await tx.plannedOperation.findMany({
    where: { planId: id, startsAt: { lt: now }, operation: { startedAt: null, kind: { notIn: ['cure'] } } },
    include: { operation: { include: { repairOrder: true } } },
    orderBy: [{ startsAt: 'asc' }, { operationId: 'asc' }],
  })
  const facts = { ...(await gatherFacts(tx, shopId, now)), originMs: originAt.getTime() }
  const overdue = late.find(({ operationId }) => !hasBegun(facts, operationId))
  if (overdue) {
    const { operation, startsAt } = overdue
    throw outdated(
      message('reason.overdue', {
        operation: param(nameOf(operation)),
        order: operation.repairOrder.number,
        at: onClock(startsAt.getTime(), facts.timeZone),
      }),
      [],
    )
  }
  const plan: PlannerPlan = definePlan(planned)
  const leftOut = begunBeside(
    facts,
    plan.tasks.map(({ taskId }) => taskId),
  )
  const { violations, unplanned } = await planner.judge({ facts, leftOut, plan })
  const lost = unplanned
    .filter(({ orderId }) => !leftOut.has(orderId) && isPlanned(plan, facts, orderId))
    .flatMap(({ number, reasons }) =>
      reasons.map((what) => ({
        code: 'unplannable',
        message: message('reason.named', { name: number, what: param(what) }),
      })),
    )
  if (lost[0]) throw outdated(lost[0].message, lost.slice(0, MOST_REASONS))
  const reasons = violations
    .filter(({ rule }) => !WATCHED_ELSEWHERE.has(rule))
    .map((violation) => violationReason(facts, violation))
  const [first] = reasons
  if (first) throw outdated(first.message, reasons.slice(0, MOST_REASONS))
}

function isPlanned({ tasks }: PlannerPlan, { orders }: ShopFacts, orderId: string): boolean {
  const own = new Set(orders.find(({ id }) => id === orderId)?.operations.map(({ id }) => id))
  return tasks.some(({ taskId }) => own.has(taskId))
}

function hasBegun({ orders }: ShopFacts, operationId: string): boolean {
  const operation = orders.flatMap(({ operations }) => operations).find(({ id }) => id === operationId)
  return operation?.progress.kind !== 'open'
}

function outdated(detail: Message, reasons: readonly ProblemReason[]): ProblemError {
  return new ProblemError(
    'plan-outdated',
    detail,
    reasons.length > 0
      ? reasons
      : [{ code: 'plan-outdated', message: detail, fix: message('reason.planAgainAndPublishFix') }],
  )
}
