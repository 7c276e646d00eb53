import type { AlertKind } from '@clampclock/contracts'
import type { Tx } from '../../foundation/database/database.ts'
import type { AttentionNeeded, AttentionOver } from '../../foundation/events/attention.ts'
import { announce } from '../../foundation/live/hub.ts'
import { tellWebhooks } from './tell.ts'

type Severity = 'danger' | 'warning' | 'notice'

/** How grave each kind is: danger may hurt somebody, a warning costs money or time, a notice is to be known. */
const SEVERITY: Record<AlertKind, Severity> = {
  earlyRelease: 'danger',
  clampedAfterWorkTime: 'danger',
  movedAfterWorkTime: 'danger',
  appliedAgainstRefusal: 'danger',
  plannedMoveBeforeReady: 'danger',
  leftWithAdhesive: 'warning',
  expiredOnShelf: 'warning',
  openedPastOpenLife: 'warning',
  bayClash: 'warning',
  storageExcursion: 'warning',
  countDiffers: 'warning',
  reservedDies: 'warning',
  lotOnHold: 'warning',
  sensorDoubted: 'warning',
  sensorsDisagree: 'warning',
  sheetSlower: 'warning',
  workFails: 'warning',
  notComputed: 'danger',
  gateOverridden: 'notice',
  expiresSoon: 'notice',
  belowReorderPoint: 'notice',
  noDispenserFits: 'notice',
  sensorSilent: 'notice',
}

/** These close only when a person disposes of the incident behind them. */
const NEEDS_DISPOSITION: ReadonlySet<AlertKind> = new Set([
  'earlyRelease',
  'clampedAfterWorkTime',
  'movedAfterWorkTime',
  'appliedAgainstRefusal',
  'leftWithAdhesive',
])

/** Opens an alert, unless the same thing is told already; its message is kept up to date. Answers whether it is new. */
export async function raiseAlert(tx: Tx, alert: AttentionNeeded): Promise<boolean> {
  const severity = SEVERITY[alert.kind]
  const params = JSON.stringify(alert.message.params)
  const needsDisposition = NEEDS_DISPOSITION.has(alert.kind)
  const rows = await tx.$queryRaw<{ id: string; fresh: boolean }[]>`
    insert into alert (organization_id, shop_id, kind, severity, code, params, subject_kind, subject_id, repair_order_id, needs_disposition, opened_at)
    values (${alert.organizationId}::uuid, ${alert.shopId}::uuid, ${alert.kind}, ${severity}, ${alert.message.code}, ${params}::jsonb, ${alert.subjectKind},
            ${alert.subjectId}::uuid, ${alert.repairOrderId ?? null}::uuid, ${needsDisposition}, ${alert.openedAt}::timestamptz)
    on conflict (kind, subject_id, shop_id) where closed_at is null
      do update set code = excluded.code, params = excluded.params
      where (alert.code, alert.params) is distinct from (excluded.code, excluded.params)
    returning id, (xmax = 0) as fresh`
  if (rows.length > 0) await announce(tx, { ...scopeOf(alert), topic: 'alerts' })
  const [row] = rows
  if (row?.fresh)
    await tellWebhooks(
      tx,
      'alert.opened',
      await tx.alert.findUniqueOrThrow({ where: { id: row.id } }),
      alert.openedAt,
    )
  return row?.fresh ?? false
}

export async function closeAlert(tx: Tx, which: AttentionOver): Promise<void> {
  const where = { shopId: which.shopId, kind: which.kind, subjectId: which.subjectId, closedAt: null }
  const closing = await tx.alert.findMany({ where })
  const { count } = await tx.alert.updateMany({ where, data: { closedAt: which.at } })
  for (const alert of closing)
    await tellWebhooks(tx, 'alert.closed', { ...alert, closedAt: which.at }, which.at)
  if (count > 0) await announce(tx, { ...scopeOf(which), topic: 'alerts' })
}

function scopeOf({ organizationId, shopId }: { organizationId: string; shopId: string }) {
  return { organizationId, shopId }
}
