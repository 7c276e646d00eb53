import { toldOf } from '../../foundation/words/kept.ts'
import { PlanNotes, PlanProgress, PlanSummary, type Plan } from '@clampclock/contracts'
import { STILL_ON } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'
import { changedOrders } from '../operations/changed-orders.ts'
import { leftOutOf } from './left-out.ts'

/** A plan without the planner's own problem and answer, which nobody reads on a screen. */
const HEAD = { problem: true, planned: true } satisfies Prisma.PlanOmit

export type PlanRow = Prisma.PlanGetPayload<{ omit: typeof HEAD }>

export async function planRow(tx: Tx, id: string): Promise<PlanRow> {
  const row = await tx.plan.findUnique({ where: { id }, omit: HEAD })
  if (!row) throw notFound('plan', id)
  return row
}

export function publishedRow(tx: Tx, shopId: string): Promise<PlanRow | null> {
  return tx.plan.findFirst({ where: { shopId, state: 'published' }, omit: HEAD })
}

export function latestPlans(tx: Tx, shopId: string, limit: number): Promise<PlanRow[]> {
  return tx.plan.findMany({
    where: { shopId },
    omit: HEAD,
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    take: limit,
  })
}

/** Plans of one shop as they are told. */
export async function toPlans(tx: Tx, shopId: string, rows: readonly PlanRow[]): Promise<Plan[]> {
  const published = await publishedRow(tx, shopId)
  const changed = await changedOrders(tx, rows)
  const left = await leftOutOf(tx, rows)
  return rows.map((row) => ({
    ...toPlan(row, published?.id ?? null),
    changedOrders: changed.get(row) ?? [],
    leftOut: left.get(row) ?? [],
  }))
}

export async function onePlan(tx: Tx, id: string): Promise<Plan> {
  const row = await planRow(tx, id)
  const [plan] = await toPlans(tx, row.shopId, [row])
  return plan!
}

function toPlan(
  { said, faultSaid, ...row }: PlanRow,
  publishedId: string | null,
): Omit<Plan, 'changedOrders' | 'leftOut'> {
  return {
    ...row,
    reason: toldOf(row.reason, said),
    fault: row.fault === null ? null : toldOf(row.fault, faultSaid),
    state: row.state as Plan['state'],
    mode: row.mode as Plan['mode'],
    isOutdated: row.state === 'draft' && row.basedOn !== publishedId,
    isWaiting: row.state === 'solving' && row.claimedAt === null,
    progress: row.progress === null ? null : PlanProgress.parse(row.progress),
    ...wordsOf(row),
  }
}

/** What a plan says of itself: its figures, and what could not be planned. */
export function wordsOf({
  notes,
  summary,
}: Pick<PlanRow, 'notes' | 'summary'>): Pick<Plan, 'notes' | 'summary'> {
  // What wrote them is typed, and the database keeps them as they are.
  const read = notes as unknown as PlanNotes
  // Plans of before it was counted have it in their notes.
  const counted = { droppedOrders: read.unplanned.length }
  return {
    notes: read,
    summary: summary === null ? null : PlanSummary.parse({ ...counted, ...(summary as object) }),
  }
}

const WHOLE = {
  operations: {
    include: {
      operation: {
        include: {
          joint: {
            select: {
              name: true,
              bonds: { where: STILL_ON, select: { id: true }, take: 1 },
            },
          },
        },
      },
    },
    orderBy: [{ startsAt: 'asc' }, { operationId: 'asc' }],
  },
  stays: { include: { repairOrder: true }, orderBy: [{ startsAt: 'asc' }, { id: 'asc' }] },
} satisfies Prisma.PlanInclude

export type WholePlanRow = Awaited<ReturnType<typeof wholePlan>>

export async function wholePlan(tx: Tx, id: string) {
  const row = await tx.plan.findUnique({ where: { id }, omit: HEAD, include: WHOLE })
  if (!row) throw notFound('plan', id)
  return row
}
