import type { App } from '../foundation/http/app-type.ts'
import { feedRoutes } from './feeds/routes.ts'
import { myWorkRoutes } from './my-work/routes.ts'
import { operationRoutes } from './operations/routes.ts'
import { planningRoutes } from './plans/routes.ts'
import { scheduleRoutes } from './bookings/routes.ts'
import { workingTimeRoutes } from './working-time/routes.ts'

export async function planningModule(app: App): Promise<void> {
  await app.register(operationRoutes)
  await app.register(workingTimeRoutes)
  await app.register(scheduleRoutes)
  await app.register(planningRoutes)
  await app.register(feedRoutes)
  await app.register(myWorkRoutes)
}
