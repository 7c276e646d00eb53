import { traceabilityRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bindDocument } from '../../foundation/http/bind.ts'
import { lotEvents, lotLifeCsv, vehicleAdhesivesCsv, vehicleEvents } from './documents.ts'

export async function traceabilityRoutes(app: App): Promise<void> {
  const { publicUrl } = app.config
  bindDocument(app, contracts.getLotEvents, ({ tx, actor, params, now }) =>
    lotEvents(tx, actor, params.lotId, { publicUrl }, now),
  )
  bindDocument(app, contracts.getLotLifeCsv, ({ tx, actor, params, reader }) =>
    lotLifeCsv(tx, actor, reader, params.lotId),
  )
  bindDocument(app, contracts.getVehicleEvents, ({ tx, actor, params, now }) =>
    vehicleEvents(tx, actor, params.repairOrderId, { publicUrl }, now),
  )
  bindDocument(app, contracts.getVehicleAdhesivesCsv, ({ tx, actor, params, reader }) =>
    vehicleAdhesivesCsv(tx, actor, reader, params.repairOrderId),
  )
}
