import { alertRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../http/app-type.ts'
import { bind } from '../http/bind.ts'
import { acknowledgeAlert, listAlerts } from './alerts.ts'

export async function alertRoutes(app: App): Promise<void> {
  bind(app, contracts.listAlerts, ({ tx, actor, query }) => listAlerts(tx, actor, query))
  bind(app, contracts.acknowledgeAlert, ({ tx, actor, params, now }) =>
    acknowledgeAlert(tx, actor, params.alertId, now),
  )
}
