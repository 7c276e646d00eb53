import type { App } from '../foundation/http/app-type.ts'
import { labelRoutes } from './labels/routes.ts'
import { replenishmentRoutes } from './replenishment/routes.ts'
import { reservationRoutes } from './reservations/routes.ts'
import { stockRoutes } from './stock-routes.ts'
import { traceabilityRoutes } from './traceability/routes.ts'

export async function supplyModule(app: App): Promise<void> {
  await app.register(stockRoutes)
  await app.register(labelRoutes)
  await app.register(reservationRoutes)
  await app.register(replenishmentRoutes)
  await app.register(traceabilityRoutes)
}
