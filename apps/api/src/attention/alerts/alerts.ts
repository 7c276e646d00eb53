import { message } from '@clampclock/messages'
import type { Message } from '@clampclock/messages'
import type { Alert, alertRoutes, QueryOf, ResultOf } from '@clampclock/contracts'
import { requireIn, visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toPage, unpackCursor } from '../../foundation/http/pages.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'

export interface AlertRow {
  id: string
  shop_id: string
  kind: Alert['kind']
  severity: Alert['severity']
  code: string
  params: unknown
  subject_kind: Alert['subject']['kind']
  subject_id: string
  repair_order_id: string | null
  needs_disposition: boolean
  opened_at: Date
  acknowledged_at: Date | null
  acknowledged_by: string | null
  owner_id: string | null
  owner_name: string | null
  snoozed_until: Date | null
  snoozed_by: string | null
  closed_at: Date | null
  closed_by: string | null
  resolution: string | null
  rank: number
}

const RANK = Prisma.sql`case severity when 'danger' then 1 when 'warning' then 2 else 3 end`

/** The gravest first; of equal ones the newest first. */
export function selectAlerts(tx: Tx, where: Prisma.Sql, limit: number): Promise<AlertRow[]> {
  return tx.$queryRaw<AlertRow[]>`
    select *, ${RANK} as rank from alert where ${where} order by ${RANK}, opened_at desc, id limit ${limit}`
}

export async function listAlerts(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof alertRoutes.listAlerts>,
  now: Date,
): Promise<ResultOf<typeof alertRoutes.listAlerts>> {
  const shops = visibleShops(actor, query.shopId)
  const where = [
    query.open === 'true' ? Prisma.sql`closed_at is null` : Prisma.sql`closed_at is not null`,
    ...(shops ? [Prisma.sql`shop_id = any (${shops.in}::uuid[])`] : []),
    ...(query.snoozed === 'false'
      ? [Prisma.sql`(snoozed_until is null or snoozed_until <= ${now}::timestamptz)`]
      : []),
    ...(query.mine === 'true' ? [Prisma.sql`owner_id = ${actor.id}::uuid`] : []),
    ...(query.kind ? [Prisma.sql`kind = ${query.kind}`] : []),
    ...(query.cursor ? [afterCursor(query.cursor)] : []),
  ]
  const rows = await selectAlerts(tx, Prisma.join(where, ' and '), query.limit + 1)
  return toPage(rows, query.limit, toAlert, (row) => [row.rank, row.opened_at.getTime(), row.id])
}

function afterCursor(cursor: string): Prisma.Sql {
  const [rank, ms, id] = unpackCursor(cursor, 3)
  const at = new Date(Number(ms))
  if (!Number.isInteger(rank) || Number.isNaN(at.getTime()) || !/^[0-9a-f-]{36}$/.test(String(id))) {
    throw invalidField('query.cursor', message('problem.badCursor'))
  }
  return Prisma.sql`(${RANK}, -extract(epoch from opened_at), id) > (${rank}::int, -extract(epoch from ${at}::timestamptz), ${String(id)}::uuid)`
}

export async function acknowledgeAlert(tx: Tx, actor: Actor, id: string, now: Date): Promise<Alert> {
  const alert = await tx.alert.findUnique({ where: { id } })
  if (!alert) throw notFound('alert', id)
  requireIn(actor, 'handleAlerts', alert.shopId)
  // Whoever was first keeps it: a second person sees who takes care of it already.
  await tx.alert.updateMany({
    where: { id, acknowledgedAt: null },
    data: { acknowledgedAt: now, acknowledgedBy: actor.name, ...ownerOf(actor) },
  })
  return changed(tx, actor, alert.shopId, id)
}

/** A token of another service takes care of things too, but is nobody whom one could name. */
function ownerOf(actor: Actor) {
  return { ownerId: actor.kind === 'person' ? actor.id : null, ownerName: actor.name }
}

/** Tells that it changed, and how it stands now. */
export async function changed(tx: Tx, actor: Actor, shopId: string, id: string): Promise<Alert> {
  await announce(tx, { organizationId: actor.organization.id, shopId, topic: 'alerts', subjectId: id })
  const [row] = await selectAlerts(tx, Prisma.sql`id = ${id}::uuid`, 1)
  if (!row) throw notFound('alert', id)
  return toAlert(row)
}

/** What an alert says, as it is kept. */
export function saidBy({ code, params }: { readonly code: string; readonly params: unknown }): Message {
  return { code: code as Message['code'], params: params as Message['params'] }
}

export function toAlert(row: AlertRow): Alert {
  return {
    id: row.id,
    shopId: row.shop_id,
    kind: row.kind,
    severity: row.severity,
    message: saidBy(row),
    subject: { kind: row.subject_kind, id: row.subject_id },
    repairOrderId: row.repair_order_id,
    openedAt: row.opened_at,
    acknowledged:
      row.acknowledged_at && row.acknowledged_by !== null
        ? { at: row.acknowledged_at, by: row.acknowledged_by }
        : null,
    owner: row.owner_name === null ? null : { id: row.owner_id, name: row.owner_name },
    snoozed:
      row.snoozed_until && row.snoozed_by !== null ? { until: row.snoozed_until, by: row.snoozed_by } : null,
    closedAt: row.closed_at,
    resolution:
      row.closed_by !== null && row.resolution !== null
        ? { by: row.closed_by, reason: row.resolution }
        : null,
    needsDisposition: row.needs_disposition,
  }
}
