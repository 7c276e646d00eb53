import { nameOf } from '../../foundation/words/kept.ts'
import {
  amountNeededMl,
  figuresOf,
  heldBy,
  isRunning,
  isStillOn,
  sheetOn,
  withApprovedSheets,
} from '../../work/index.ts'
import { type BakeReader, panelTauMinutes, storedProgram } from '../../cure/index.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { presentBake } from '../operations/planned-bake.ts'
import { clampStayOf } from './clamp-stay.ts'
import type { BakedJoint, OperationFact, OrderFact, Progress } from './facts.ts'

const MINUTE_MS = 60_000

export const WHOLE_ORDER = {
  joints: {
    include: {
      product: { include: withApprovedSheets },
      bonds: { include: { incidents: { include: { disposition: true } } }, orderBy: { attempt: 'asc' } },
    },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  },
  operations: {
    include: {
      joint: {
        include: {
          bonds: { include: { incidents: { include: { disposition: true } } }, orderBy: { attempt: 'asc' } },
          product: { include: withApprovedSheets },
        },
      },
      // Where it stands by the published plan, for what has been started without a place.
      plannedOperations: { where: { plan: { state: 'published' } } },
    },
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
  },
  plannedStays: {
    where: { plan: { state: 'published' }, resource: { kind: 'clampSet' } },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  },
} satisfies Prisma.RepairOrderInclude

export type OrderRow = Prisma.RepairOrderGetPayload<{ include: typeof WHOLE_ORDER }>
type OperationRow = OrderRow['operations'][number]

/** What a bake by its program is reckoned with, beside the joints of its vehicle. */
export interface BakeWith {
  readonly coldestBayC: number | undefined
  readonly reader: Pick<BakeReader, 'timeZone' | 'unit'>
}

export function toOrder(
  row: OrderRow,
  ready: ReadonlyMap<string, number>,
  bakeWith: BakeWith,
  now: Date,
): Omit<OrderFact, 'bonds'> {
  return {
    id: row.id,
    number: row.number,
    priority: row.priority as OrderFact['priority'],
    promisedAtMs: row.promisedAt?.getTime() ?? null,
    ovenLimitC: row.ovenLimitC,
    joints: row.joints.map((joint) => toBakedJoint(joint, bakeWith.reader.timeZone, now)),
    operations: overtaken(
      row.operations.map((operation) => ({
        ...toOperationFact(operation, ready, bakeWith.reader.timeZone, now),
        ...programOf(row, operation, bakeWith),
        clampSetId: clampSetOf(row, operation),
      })),
    ),
  }
}

/**
 * Adhesive is on a joint that nobody said to have prepared: what comes before it at that joint has been, whatever was told.
 * Still to come, it could only come before what has begun, and the vehicle would find no place at all.
 */
function overtaken(operations: readonly OperationFact[]): OperationFact[] {
  return operations.map((operation, at) => {
    if (operation.progress.kind !== 'open' || operation.jointId === null) return operation
    const begun = operations
      .slice(at + 1)
      .find(({ jointId, progress }) => jointId === operation.jointId && progress.kind !== 'open')
    if (begun === undefined || begun.progress.kind === 'open') return operation
    const { startMs, placeId } = begun.progress
    return { ...operation, progress: { kind: 'done', startMs, endMs: startMs, placeId, technicianIds: [] } }
  })
}

function toBakedJoint(
  { name, product, bonds }: OrderRow['joints'][number],
  timeZone: string,
  now: Date,
): BakedJoint {
  const sheet = sheetOn(product.productSheets, now, timeZone)
  return {
    name,
    productName: product.name,
    serviceRangeC: sheet ? figuresOf(sheet).serviceRangeC : null,
    // What is scraped off or made again, the plan makes again before any bake.
    heldBy: heldBy(bonds.filter(isStillOn)),
  }
}

function clampSetOf({ operations, plannedStays }: OrderRow, { id, clampSets }: OperationRow): string | null {
  if (clampSets === 0) return null
  const kept = {
    operations: operations.flatMap(({ plannedOperations }) => plannedOperations),
    stays: plannedStays,
  }
  return clampStayOf(kept, operations, id)?.resourceId ?? null
}

function programOf(
  { joints }: OrderRow,
  { bakeProgram, startedAt, workMinutes }: OperationRow,
  { coldestBayC, reader }: BakeWith,
): Pick<OperationFact, 'byProgram'> & Partial<Pick<OperationFact, 'workMinutes' | 'highestMetalC'>> {
  const row = { bakeProgram: storedProgram(bakeProgram), startedAt, workMinutes }
  const bake = presentBake(row, joints, coldestBayC, { ...reader, field: 'bakeProgram' })
  if (bake === null) return { byProgram: null }
  const { leastMinutes } = bake
  if (bake.kind === 'unknown')
    return { byProgram: { leastMinutes, faults: bake.reasons.map(({ message }) => message) } }
  return {
    byProgram: { leastMinutes, faults: [] },
    workMinutes: bake.workMinutes,
    highestMetalC: bake.highestMetalC,
  }
}

function toOperationFact(
  row: OperationRow,
  ready: ReadonlyMap<string, number>,
  timeZone: string,
  now: Date,
): Omit<OperationFact, 'clampSetId' | 'byProgram'> {
  const { joint } = row
  const sheet = joint ? sheetOn(joint.product.productSheets, now, timeZone) : undefined
  return {
    id: row.id,
    kind: row.kind as OperationFact['kind'],
    name: nameOf(row),
    jointId: row.jointId,
    place: row.place as OperationFact['place'],
    workMinutes: row.workMinutes,
    technicians: row.technicians,
    skill: row.skill as OperationFact['skill'],
    clampSets: row.clampSets,
    attributes: row.attributes as OperationFact['attributes'],
    highestMetalC: row.highestMetalC,
    joint:
      joint && sheet
        ? {
            productId: joint.productId,
            productName: joint.product.name,
            sheet: figuresOf(sheet),
            panelTauMinutes: panelTauMinutes(joint),
            amountUl: Math.round(amountNeededMl(joint) * 1000),
          }
        : null,
    progress: progressOf(row, ready, now),
  }
}

/** What was told of the operation, or what the bond on its joint says: a bond that runs is its cure under way. */
function progressOf(row: OperationRow, ready: ReadonlyMap<string, number>, now: Date): Progress {
  const planned = row.plannedOperations[0]
  const bond = row.joint?.bonds.findLast(isStillOn)
  const placeId = row.placeId ?? bond?.bayId ?? planned?.placeId ?? null
  if (bond && (row.kind === 'cure' || row.kind === 'bondAndClamp')) {
    const from = row.kind === 'cure' ? (bond.clampedAt ?? bond.appliedAt) : bond.appliedAt
    const end =
      row.kind === 'cure'
        ? (bond.releasedAt?.getTime() ?? ready.get(bond.id)!)
        : (bond.clampedAt ?? bond.appliedAt).getTime()
    const kind = row.kind === 'cure' && isRunning(bond) ? 'running' : 'done'
    return { kind, startMs: from.getTime(), endMs: end, placeId, technicianIds: [] }
  }
  if (!row.startedAt) return { kind: 'open' }
  const startMs = row.startedAt.getTime()
  if (row.finishedAt)
    return { kind: 'done', startMs, endMs: row.finishedAt.getTime(), placeId, technicianIds: [] }
  // Until somebody says otherwise it takes what was planned for it; one that is overdue ends any minute now.
  const length = planned
    ? planned.endsAt.getTime() - planned.startsAt.getTime()
    : (row.workMinutes ?? 0) * MINUTE_MS
  const endMs = Math.max(row.expectedEndAt?.getTime() ?? startMs + length, now.getTime() + MINUTE_MS)
  const technicianIds = row.technicianIds.length > 0 ? row.technicianIds : (planned?.technicianIds ?? [])
  return { kind: 'running', startMs, endMs, placeId, technicianIds }
}
