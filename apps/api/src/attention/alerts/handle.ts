import { message } from '@clampclock/messages'
import { PERMISSIONS, type Alert } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Alert as AlertRow } from '../../generated/prisma/client.ts'
import { invalidField, notFound, wrongState } from '../../foundation/problems/problem-error.ts'
import { changed } from './alerts.ts'
import { tellWebhooks } from './tell.ts'

const LONGEST_SNOOZE_DAYS = 30

export async function giveAlert(tx: Tx, actor: Actor, id: string, personId: string | null): Promise<Alert> {
  const { shopId } = await openAlert(tx, actor, id)
  const person = personId
    ? await tx.person.findFirst({
        where: {
          id: personId,
          disabledAt: null,
          memberships: {
            some: { OR: [{ shopId }, { shopId: null }], role: { in: [...PERMISSIONS.handleAlerts] } },
          },
        },
      })
    : null
  if (personId && !person) throw invalidField('body.personId', message('setup-problem.nobodyHandlesAlerts'))
  await tx.alert.update({
    where: { id },
    data: { ownerId: person?.id ?? null, ownerName: person?.name ?? null },
  })
  return changed(tx, actor, shopId, id)
}

export async function snoozeAlert(
  tx: Tx,
  actor: Actor,
  id: string,
  until: Date | null,
  now: Date,
): Promise<Alert> {
  const alert = await openAlert(tx, actor, id)
  if (until) {
    if (until <= now) throw invalidField('body.until', message('problem.inPast'))
    if (until.getTime() > now.getTime() + LONGEST_SNOOZE_DAYS * 86_400_000)
      throw invalidField(
        'body.until',
        message('setup-problem.snoozeWithin', { days: LONGEST_SNOOZE_DAYS }),
        message('setup-problem.resolveFix'),
      )
    if (alert.severity === 'danger')
      throw wrongState(message('setup-problem.dangerNotSnoozed'), message('setup-problem.dealWithFix'))
  }
  await tx.alert.update({
    where: { id },
    data: { snoozedUntil: until, snoozedBy: until ? actor.name : null },
  })
  return changed(tx, actor, alert.shopId, id)
}

export async function resolveAlert(
  tx: Tx,
  actor: Actor,
  id: string,
  reason: string,
  now: Date,
): Promise<Alert> {
  const alert = await openAlert(tx, actor, id)
  if (alert.needsDisposition)
    throw wrongState(message('setup-problem.incidentBehind'), message('setup-problem.disposeFix'))
  const row = await tx.alert.update({
    where: { id },
    data: { closedAt: now, closedBy: actor.name, resolution: reason },
  })
  await tellWebhooks(tx, 'alert.closed', row, now)
  return changed(tx, actor, alert.shopId, id)
}

/** Open, and ours until the transaction ends: two who handle one alert do so one after the other. */
async function openAlert(tx: Tx, actor: Actor, id: string): Promise<AlertRow> {
  await tx.$queryRaw`select 1 from alert where id = ${id}::uuid for update`
  const alert = await tx.alert.findUnique({ where: { id } })
  if (!alert) throw notFound('alert', id)
  requireIn(actor, 'handleAlerts', alert.shopId)
  if (alert.closedAt) throw wrongState(message('setup-problem.alertClosed'))
  return alert
}
