import { panelTauMinutes } from '../bonds/panel.ts'
import { shopTime } from '../bonds/notes.ts'
import { figuresOf, withPoints } from '../catalogue/sheets.ts'
import type { Tx } from '../database/database.ts'
import { shopById } from '../shops/shops.ts'
import { bayForecast } from '../temperature/bay-temperature.ts'
import { cureEnd, cureRates } from './cure-profile.ts'

/** How far ahead planned cures are looked at again with every reading. */
const AHEAD_MS = 48 * 3_600_000

export interface CureWarning {
  readonly operationId: string
  readonly repairOrderId: string
  readonly readyAt: Date | null
  readonly message: string
}

/**
 * Cures of the published plan that the newest forecast makes longer than was planned, so that what follows would move the
 * vehicle, or take its clamps, before the conservative ready time. Only what has not begun: a running bond has its own clock.
 */
export async function cureWarnings(tx: Tx, shopId: string, now: Date): Promise<CureWarning[]> {
  const { timeZone } = await shopById(tx, shopId)
  const cures = await tx.plannedOperation.findMany({
    where: {
      shopId,
      plan: { state: 'published' },
      startsAt: { gt: now, lt: new Date(now.getTime() + AHEAD_MS) },
      placeId: { not: null },
      operation: {
        kind: 'cure',
        startedAt: null,
        joint: { bonds: { none: { state: { not: 'abandoned' } } } },
      },
    },
    include: {
      operation: {
        include: {
          repairOrder: true,
          joint: {
            include: {
              product: {
                include: {
                  productSheets: {
                    include: withPoints,
                    orderBy: [{ issuedOn: 'desc' }, { recordedAt: 'desc' }],
                    take: 1,
                  },
                },
              },
            },
          },
        },
      },
      plan: { select: { operations: { include: { operation: true }, orderBy: { startsAt: 'asc' } } } },
    },
  })
  const warnings: CureWarning[] = []
  for (const { operation, startsAt, endsAt, placeId, plan } of cures) {
    const sheet = operation.joint?.product.productSheets[0]
    const next = plan.operations.find(
      (each) =>
        each.operation.repairOrderId === operation.repairOrderId &&
        each.operation.position > operation.position &&
        (each.operation.jointId === operation.jointId || each.operation.jointId === null) &&
        each.startsAt >= endsAt,
    )
    if (!sheet || !next) continue
    const forecast = await bayForecast(tx, placeId!, timeZone, now, AHEAD_MS / 3_600_000 + 7 * 24)
    if (forecast.length === 0) continue
    const originMs = startsAt.getTime()
    const minutes = cureEnd(
      cureRates(figuresOf(sheet), forecast, originMs, panelTauMinutes(operation.joint!)),
      0,
    )
    const readyAt = minutes === null ? null : new Date(originMs + minutes * 60_000)
    if (readyAt && readyAt <= next.startsAt) continue
    const when = readyAt ? `only ${shopTime(readyAt.getTime(), timeZone)}` : 'not within the forecast'
    warnings.push({
      operationId: operation.id,
      repairOrderId: operation.repairOrderId,
      readyAt,
      message:
        `${operation.repairOrder.number}, ${operation.joint!.name}: ${next.operation.name} is planned ` +
        `${shopTime(next.startsAt.getTime(), timeZone)}, but by the newest forecast the cure reaches handling strength ${when} on the careful estimate`,
    })
  }
  return warnings
}
