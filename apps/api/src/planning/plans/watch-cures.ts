import { nameOf } from '../../foundation/words/kept.ts'
import { message, type Message } from '@clampclock/messages'
import { bayForecast, type BondRow, keptEstimateOf, panelTauMinutes, runningBonds } from '../../cure/index.ts'
import { onClock, readyOnClock, param } from '../../foundation/words/params.ts'
import { figuresOf, sheetOn, STILL_ON, withApprovedSheets } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { cureEnd, cureRates } from '../problem/cure-profile.ts'

/** How far ahead planned cures are looked at again with every reading. */
const AHEAD_MS = 48 * 3_600_000

export interface CureWarning {
  readonly operationId: string
  readonly repairOrderId: string
  readonly readyAt: Date | null
  readonly message: Message
}

const WHOLE_CURE = {
  operation: {
    include: {
      repairOrder: true,
      joint: {
        include: { product: { include: withApprovedSheets } },
      },
    },
  },
  plan: { select: { operations: { include: { operation: true }, orderBy: { startsAt: 'asc' } } } },
} satisfies Prisma.PlannedOperationInclude

type CureRow = Prisma.PlannedOperationGetPayload<{ include: typeof WHOLE_CURE }>

/** When it reaches handling strength on the careful estimate; null: not within the forecast. Undefined: nobody can tell. */
type Ready = Date | null | undefined

/**
 * Cures of the published plan that take longer than was planned, so that what follows would move the vehicle, or take its
 * clamps, before the conservative ready time: by the newest forecast those to come, and by their own estimate those that run.
 */
export async function cureWarnings(tx: Tx, shopId: string, now: Date): Promise<CureWarning[]> {
  const { timeZone } = await shopById(tx, shopId)
  const bonds = new Map((await runningBonds(tx, { in: [shopId] })).map((bond) => [bond.jointId, bond]))
  const warnings: CureWarning[] = []
  for (const cure of await curesOf(tx, shopId, now)) {
    const next = nextOf(cure)
    if (!next) continue
    const { operation } = cure
    const bond = bonds.get(operation.jointId ?? '')
    const readyAt = bond ? await readyOf(tx, bond, timeZone, now) : await forecastOf(tx, cure, timeZone, now)
    if (readyAt === undefined || (readyAt && readyAt <= next.startsAt)) continue
    const facts = {
      order: operation.repairOrder.number,
      joint: operation.joint?.name ?? param(nameOf(operation)),
      next: param(nameOf(next.operation)),
      at: onClock(next.startsAt.getTime(), timeZone),
    }
    warnings.push({
      operationId: operation.id,
      repairOrderId: operation.repairOrderId,
      readyAt,
      message: readyAt
        ? message('alert.plannedCureTooShort', {
            ...facts,
            ready: readyOnClock(readyAt.getTime(), timeZone),
          })
        : message('alert.plannedCureNever', facts),
    })
  }
  return warnings
}

/** Those that begin soon, and those whose bond runs, whenever they were to begin. */
function curesOf(tx: Tx, shopId: string, now: Date): Promise<CureRow[]> {
  return tx.plannedOperation.findMany({
    where: {
      shopId,
      plan: { state: 'published' },
      operation: { kind: 'cure' },
      OR: [
        {
          startsAt: { gt: now, lt: new Date(now.getTime() + AHEAD_MS) },
          placeId: { not: null },
          operation: { joint: { bonds: { none: STILL_ON } } },
        },
        { operation: { joint: { bonds: { some: { state: { in: ['applied', 'clamped'] } } } } } },
      ],
    },
    include: WHOLE_CURE,
    orderBy: [{ startsAt: 'asc' }, { operationId: 'asc' }],
  })
}

/** What comes after it on its joint, or on the vehicle, and has not begun. */
function nextOf({ operation, endsAt, plan }: CureRow): CureRow['plan']['operations'][number] | undefined {
  return plan.operations.find(
    (each) =>
      each.operation.repairOrderId === operation.repairOrderId &&
      each.operation.position > operation.position &&
      (each.operation.jointId === operation.jointId || each.operation.jointId === null) &&
      each.operation.startedAt === null &&
      each.startsAt >= endsAt,
  )
}

async function readyOf(tx: Tx, bond: BondRow, timeZone: string, now: Date): Promise<Ready> {
  const { estimate } = await keptEstimateOf(tx, bond, timeZone, now)
  const { conservative } = estimate.handlingStrength.readyAt
  return conservative.kind === 'at' ? new Date(conservative.atMs) : null
}

async function forecastOf(
  tx: Tx,
  { operation: { joint }, startsAt, placeId }: CureRow,
  timeZone: string,
  now: Date,
): Promise<Ready> {
  const sheet = joint ? sheetOn(joint.product.productSheets, now, timeZone) : undefined
  if (!joint || !sheet || placeId === null) return undefined
  const forecast = await bayForecast(tx, placeId, timeZone, now, AHEAD_MS / 3_600_000 + 7 * 24)
  if (forecast.length === 0) return undefined
  const originMs = startsAt.getTime()
  const minutes = cureEnd(cureRates(figuresOf(sheet), forecast, originMs, panelTauMinutes(joint)), 0)
  return minutes === null ? null : new Date(originMs + minutes * 60_000)
}
