import { alertRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { acknowledgeAlert, listAlerts } from './alerts.ts'
import { giveAlert, resolveAlert, snoozeAlert } from './handle.ts'

export async function alertRoutes(app: App): Promise<void> {
  bind(app, contracts.listAlerts, ({ tx, actor, query, now }) => listAlerts(tx, actor, query, now))
  bind(app, contracts.acknowledgeAlert, ({ tx, actor, params, now }) =>
    acknowledgeAlert(tx, actor, params.alertId, now),
  )
  bind(app, contracts.giveAlert, ({ tx, actor, params, body }) =>
    giveAlert(tx, actor, params.alertId, body.personId),
  )
  bind(app, contracts.snoozeAlert, ({ tx, actor, params, body, now }) =>
    snoozeAlert(tx, actor, params.alertId, body.until, now),
  )
  bind(app, contracts.resolveAlert, ({ tx, actor, params, body, now }) =>
    resolveAlert(tx, actor, params.alertId, body.reason, now),
  )
}
