import type { App } from '../foundation/http/app-type.ts'
import { attachmentRoutes } from './attachments/routes.ts'
import { bondRoutes } from './bonds/routes.ts'
import { dispositionRoutes } from './dispositions/routes.ts'
import { recordRoutes } from './records/routes.ts'
import { repairRoutes } from './repairs/routes.ts'
import { temperatureRoutes } from './temperature/routes.ts'

export async function cureModule(app: App): Promise<void> {
  await app.register(temperatureRoutes)
  await app.register(repairRoutes)
  await app.register(bondRoutes)
  await app.register(dispositionRoutes)
  await app.register(recordRoutes)
  await app.register(attachmentRoutes)
}
