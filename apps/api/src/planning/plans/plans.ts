import { keptReason } from '../../foundation/words/kept.ts'
import { message } from '@clampclock/messages'
import type { BodyOf, Plan, PlanDetail, planRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { wrongState } from '../../foundation/problems/problem-error.ts'
import { wake } from '../../foundation/jobs/wake.ts'
import { announce } from '../../foundation/live/hub.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { planDetail } from './plan-detail.ts'
import { latestPlans, onePlan, planRow, publishedRow, toPlans } from './plan-store.ts'
import { lockPlanOf } from './publish.ts'

/** Asks for a plan: a process that has a thread free (runner.ts) takes it up once this transaction is through. */
export async function startPlan(
  tx: Tx,
  actor: Actor,
  shopId: string,
  body: BodyOf<typeof planRoutes.startPlan>,
  now: Date,
): Promise<Plan> {
  const { name } = await shopById(tx, shopId)
  if (!(await tx.workShift.findFirst({ where: { shopId, resourceId: null } })))
    throw wrongState(
      message('plan-problem.noWorkingHours', { shop: name }),
      message('plan-problem.setHoursFix'),
    )
  if (
    !(await tx.operation.findFirst({ where: { shopId, finishedAt: null, repairOrder: { state: 'open' } } }))
  )
    throw wrongState(
      message('plan-problem.nothingToPlan', { shop: name }),
      message('plan-problem.addOperationsFix'),
    )
  // Two who ask at once: the second sees the plan of the first.
  await lockPlanOf(tx, shopId)
  const running = await tx.plan.findFirst({ where: { shopId, state: 'solving' } })
  if (running) throw wrongState(message('plan-problem.planRunning'), message('plan-problem.waitOrStopFix'))
  const published = await publishedRow(tx, shopId)
  if (body.mode === 'repair' && !published)
    throw wrongState(message('plan-problem.nothingToRepair'), message('plan-problem.planAnewFix'))
  const organizationId = actor.organization.id
  const row = await tx.plan.create({
    data: {
      ...body,
      organizationId,
      shopId,
      state: 'solving',
      basedOn: published?.id ?? null,
      ...keptReason(
        body.reason || message(body.mode === 'repair' ? 'plan-reason.repaired' : 'plan-reason.plannedAnew'),
      ),
      originAt: now,
      problem: {},
      notes: { assumptions: [], unplanned: [] },
      createdAt: now,
      createdBy: actor.name,
    },
  })
  await wake(tx, { organizationId, queue: 'planning', subject: row.id })
  await announce(tx, { organizationId, shopId, topic: 'plans', subjectId: row.id })
  return onePlan(tx, row.id)
}

export async function listPlans(tx: Tx, shopId: string, limit: number): Promise<Plan[]> {
  return toPlans(tx, shopId, await latestPlans(tx, shopId, limit))
}

export async function getPlan(tx: Tx, actor: Actor, id: string, now: Date): Promise<PlanDetail> {
  requireIn(actor, 'readShop', (await planRow(tx, id)).shopId)
  return planDetail(tx, id, now)
}

export async function stopPlan(tx: Tx, actor: Actor, id: string, now: Date): Promise<Plan> {
  const row = await planRow(tx, id)
  requireIn(actor, 'planWork', row.shopId)
  // Nothing is found yet of one that waits for its turn: it is given up, unless its turn comes in this very moment.
  const waiting = await tx.plan.updateMany({
    where: { id, state: 'solving', claimedAt: null },
    data: { state: 'discarded', finishedAt: now },
  })
  const stopped = await tx.plan.updateMany({
    where: { id, state: 'solving' },
    data: { stopAskedAt: now },
  })
  if (waiting.count + stopped.count === 0) throw wrongState(message('plan-problem.notRunning'))
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId: row.shopId,
    topic: 'plans',
    subjectId: id,
  })
  return onePlan(tx, id)
}

export async function discardPlan(tx: Tx, actor: Actor, id: string): Promise<void> {
  const { shopId } = await planRow(tx, id)
  requireIn(actor, 'planWork', shopId)
  // Whoever publishes it meanwhile comes first, or finds it discarded.
  await lockPlanOf(tx, shopId)
  const row = await planRow(tx, id)
  const { count } = await tx.plan.updateMany({ where: { id, state: 'draft' }, data: { state: 'discarded' } })
  if (count === 0) throw wrongState(message('plan-problem.onlyDraftDiscarded', { state: row.state }))
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId: row.shopId,
    topic: 'plans',
    subjectId: id,
  })
}
