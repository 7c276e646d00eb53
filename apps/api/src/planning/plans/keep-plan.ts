import type { Prisma } from '../../generated/prisma/client.ts'
import type { Told } from '@clampclock/messages'
import type { PlanNotes, PlanSummary } from '@clampclock/contracts'
import type { Plan } from '@clampclock/planner'
import type { Tx } from '../../foundation/database/database.ts'
import type { Interpreted } from '../problem/interpret.ts'
import type { LeftOut } from './left-out.ts'
import type { UnplannedOrder } from '../problem/unplannable.ts'

interface Scope {
  readonly planId: string
  readonly organizationId: string
  readonly shopId: string
}

/** Writes what a plan says, operation by operation and stay by stay. */
export async function keepPlan(tx: Tx, scope: Scope, { operations, stays }: Interpreted): Promise<void> {
  await tx.plannedOperation.createMany({
    data: operations.map(({ technicianIds, ...each }) => ({
      ...each,
      ...scope,
      technicianIds: [...technicianIds],
    })),
  })
  await tx.plannedStay.createMany({ data: stays.map((each) => ({ ...each, ...scope })) })
}

/** The figures of a plan. `values`: what the checker worked out. */
export function summaryOf(
  { ends }: Pick<Interpreted, 'ends'>,
  values: Readonly<Record<string, number>>,
  { cost, lowerBound }: { readonly cost: number; readonly lowerBound: number },
  left: LeftOut,
): PlanSummary {
  const late = ends.flatMap(({ lateMinutes }) => lateMinutes ?? []).filter((minutes) => minutes > 0)
  return {
    orders: ends.length,
    droppedOrders: left.orders,
    lateOrders: late.length,
    lateMinutes: late.reduce((sum, minutes) => sum + minutes, 0),
    overtimeMinutes: Math.round(values['overtime'] ?? 0),
    shortMl: Math.round(values['shortage'] ?? 0) / 1000,
    cost: Math.round(cost + left.cost),
    // Where the planner left a vehicle out its bound has the price of that in it, which the cost is told without.
    lowerBound: lowerBound > cost ? 0 : Math.floor(lowerBound),
  }
}

/** As the database keeps it. */
export function notesJson(
  assumptions: readonly Told[],
  unplanned: readonly UnplannedOrder[],
): Prisma.InputJsonObject {
  const notes: PlanNotes = {
    assumptions: [...assumptions],
    unplanned: unplanned.map((each) => ({ ...each, reasons: [...each.reasons] })),
  }
  return notes as unknown as Prisma.InputJsonObject
}

export function plannedJson(plan: Plan): object {
  return { tasks: plan.tasks, holds: plan.holds, unplannedJobs: plan.unplannedJobs }
}
