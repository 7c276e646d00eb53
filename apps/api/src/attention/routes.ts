import type { App } from '../foundation/http/app-type.ts'
import { alertRoutes } from './alerts/routes.ts'
import { figureRoutes } from './figures/routes.ts'
import { liveRoutes } from './live/routes.ts'
import { notificationRoutes } from './notifications/routes.ts'
import { overviewRoutes } from './overview/routes.ts'

export async function attentionModule(app: App): Promise<void> {
  await app.register(figureRoutes)
  await app.register(alertRoutes)
  await app.register(notificationRoutes)
  await app.register(overviewRoutes)
  await app.register(liveRoutes)
}
