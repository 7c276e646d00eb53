import { bondRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { agreeToInspection, disposeIncident, listInspectors, photoOf } from './dispositions.ts'

export async function dispositionRoutes(app: App): Promise<void> {
  bind(app, contracts.disposeIncident, ({ tx, actor, params, body, now }) =>
    disposeIncident({ tx, actor, now }, params.incidentId, body),
  )
  bind(app, contracts.agreeToInspection, ({ tx, actor, params, body, now }) =>
    agreeToInspection({ tx, actor, now }, params.inspectionId, body),
  )
  bind(app, contracts.getInspectionPhoto, ({ tx, actor, params }) => photoOf(tx, actor, params.inspectionId))
  bind(app, contracts.listInspectors, ({ tx, actor, params, now }) =>
    listInspectors(tx, actor, params.incidentId, now),
  )
}
