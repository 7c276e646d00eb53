import { param } from '../../foundation/words/params.ts'
import { keptReason } from '../../foundation/words/kept.ts'
import { message } from '@clampclock/messages'
import type { BodyOf, PlanMove, planRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, ProblemError, wrongState } from '../../foundation/problems/problem-error.ts'
import { inOrder } from '../operations/expand.ts'
import { baselineOf } from '../problem/baseline.ts'
import { segmentsOf } from '../problem/candidates.ts'
import type { OperationFact, OrderFact, ShopFacts } from '../problem/facts.ts'
import { gatherFacts } from '../problem/gather.ts'
import { interpret } from '../problem/interpret.ts'
import { keepPlan, notesJson, plannedJson, summaryOf } from './keep-plan.ts'
import { planRow, wholePlan, wordsOf } from './plan-store.ts'
import type { PlannerPool } from './pool.ts'
import { lockPlanOf, makePublished } from './publish.ts'
import { begunBeside } from '../problem/set-aside.ts'
import { stayOf } from '../problem/task-names.ts'
import type { Move } from './try-move.ts'
import { violationReason } from './violation-reason.ts'

export async function movePlanned(
  tx: Tx,
  actor: Actor,
  planner: PlannerPool,
  planId: string,
  body: BodyOf<typeof planRoutes.movePlanned>,
  now: Date,
): Promise<PlanMove> {
  const { shopId } = await planRow(tx, planId)
  requireIn(actor, 'planWork', shopId)
  if (!body.tryOnly) await lockPlanOf(tx, shopId)
  const row = await planRow(tx, planId)
  if (row.state === 'superseded')
    throw new ProblemError('plan-outdated', message('plan-problem.publishedMeanwhile'), [
      {
        code: 'plan-outdated',
        message: message('plan-problem.publishedMeanwhile'),
        fix: message('plan-problem.moveThereFix'),
      },
    ])
  if (row.state !== 'published')
    throw wrongState(message('plan-problem.onlyPublishedMoved', { state: row.state }))

  const facts = withLength(await gatherFacts(tx, shopId, now), body)
  const kept = await wholePlan(tx, planId)
  const { order, operation } = find(facts, body.operationId)
  if (operation.progress.kind !== 'open')
    throw wrongState(message('plan-problem.begunStaysThere', { name: param(operation.name) }))
  if (!kept.operations.some(({ operationId }) => operationId === operation.id))
    throw invalidField('body.operationId', message('plan-problem.notInPlan'))
  const leftOut = begunBeside(
    facts,
    kept.operations.map(({ operationId }) => operationId),
  )
  const { problem, plan, violations, values } = await planner.move({
    facts,
    leftOut,
    plan: baselineOf(facts, kept),
    wish: wishOf(facts, order, operation, body),
  })
  const made = interpret(facts, plan)
  const names = new Map(
    facts.orders.flatMap(({ operations }) => operations.map(({ id, name }) => [id, name])),
  )
  const was = new Map(kept.operations.map((each) => [each.operationId, each]))
  const moved = made.operations
    .filter(({ operationId, startsAt, endsAt, placeId }) => {
      const before = was.get(operationId)
      return (
        !before ||
        before.startsAt.getTime() !== startsAt.getTime() ||
        before.endsAt.getTime() !== endsAt.getTime() ||
        before.placeId !== placeId
      )
    })
    .map(({ operationId, startsAt, endsAt, placeId }) => ({
      operationId,
      name: names.get(operationId) ?? '',
      startsAt,
      endsAt,
      placeId,
    }))
  const reasons = violations.map((violation) => violationReason(facts, violation)).slice(0, 10)
  const isAllowed = reasons.length === 0
  if (!isAllowed || body.tryOnly) return { isAllowed, reasons, moved: isAllowed ? moved : [], planId }

  if (body.workMinutes !== undefined)
    await tx.operation.update({
      where: { id: operation.id },
      data: { workMinutes: body.workMinutes, version: { increment: 1 } },
    })
  const organizationId = actor.organization.id
  const { notes, summary: before } = wordsOf(kept)
  const left = { orders: notes.unplanned.length, cost: 0 }
  const summary = summaryOf(made, values, { cost: 0, lowerBound: 0 }, left)
  const { id } = await tx.plan.create({
    data: {
      organizationId,
      shopId,
      state: 'draft',
      basedOn: planId,
      ...keptReason(
        message('plan-reason.movedByHand', { operation: param(operation.name), order: order.number }),
      ),
      seed: row.seed,
      iterations: row.iterations,
      seconds: row.seconds,
      originAt: new Date(facts.originMs),
      problem,
      planned: plannedJson(plan),
      notes: notesJson(notes.assumptions, notes.unplanned),
      // All but this vehicle stands as it was planned, from operations as they were then.
      workVersions: row.workVersions ?? {},
      // How good the planner found it no longer counts; all else is as it is now.
      summary: { ...summary, cost: before?.cost ?? 0, lowerBound: before?.lowerBound ?? 0 },
      createdAt: now,
      createdBy: actor.name,
      finishedAt: now,
    },
  })
  await keepPlan(tx, { planId: id, organizationId, shopId }, made)
  await makePublished(tx, actor, id, now)
  return { isAllowed, reasons, moved, planId: id }
}

/** The facts with the operation as long as it is wished to be. */
function withLength(
  facts: ShopFacts,
  { operationId, workMinutes }: BodyOf<typeof planRoutes.movePlanned>,
): ShopFacts {
  if (workMinutes === undefined) return facts
  const { operation } = find(facts, operationId)
  if (operation.kind === 'cure') throw invalidField('body.workMinutes', message('plan-problem.cureAsLong'))
  const least = operation.byProgram?.leastMinutes ?? 0
  if (workMinutes < least)
    throw invalidField('body.workMinutes', message('plan-problem.programTakesOven', { minutes: least }))
  const orders = facts.orders.map((order) => ({
    ...order,
    operations: order.operations.map((each) => (each.id === operationId ? { ...each, workMinutes } : each)),
  }))
  return { ...facts, orders }
}

function find({ orders }: ShopFacts, operationId: string): { order: OrderFact; operation: OperationFact } {
  for (const order of orders) {
    const operation = order.operations.find(({ id }) => id === operationId)
    if (operation) return { order, operation }
  }
  throw invalidField('body.operationId', message('plan-problem.noOpenOperation'))
}

function wishOf(
  facts: ShopFacts,
  order: OrderFact,
  operation: OperationFact,
  { startsAt, placeId, technicianIds }: BodyOf<typeof planRoutes.movePlanned>,
): Move {
  const start = Math.round((startsAt.getTime() - facts.originMs) / 60_000)
  if (start < 0) throw invalidField('body.startsAt', message('plan-problem.isOver'))
  if (start > facts.horizonMinutes) throw invalidField('body.startsAt', message('plan-problem.beyondPlans'))
  const known = (id: string, kinds: readonly string[]) =>
    facts.resources.some((each) => each.id === id && each.isActive && kinds.includes(each.kind))
  if (placeId !== undefined && !known(placeId, [operation.place]))
    throw invalidField('body.placeId', message('plan-problem.noPlaceInUse', { place: operation.place }))
  if (technicianIds?.some((id) => !known(id, ['technician'])))
    throw invalidField('body.technicianIds', message('plan-problem.noTechnician'))
  if (technicianIds && technicianIds.length !== operation.technicians)
    throw invalidField(
      'body.technicianIds',
      message('plan-problem.needsTechnicians', {
        technicians: operation.technicians,
        name: param(operation.name),
      }),
    )
  const segment = segmentsOf(inOrder(order.operations)).find((each) =>
    each.some(({ id }) => id === operation.id),
  )!
  return {
    taskId: operation.id,
    start,
    // Of what nobody works on, nobody is what the planner knows already.
    ...(technicianIds && technicianIds.length > 0 ? { resources: technicianIds } : {}),
    ...(placeId ? { stay: { holdId: stayOf(segment[0]!.id), resourceId: placeId } } : {}),
  }
}
