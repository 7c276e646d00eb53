export * from './foundation/access.ts'
export * from './attention/alerts.ts'
export * from './cure/attachments.ts'
export * from './cure/bakes.ts'
export * from './cure/bond-curves.ts'
export * from './cure/bond-records.ts'
export * from './cure/bond.ts'
export * from './cure/bonds.ts'
export * from './planning/bookings.ts'
export * from './cure/calculations.ts'
export * from './planning/calendar-feeds.ts'
export { CALCULATION_EXAMPLES } from './cure/calculation-examples.ts'
export * from './cure/help.ts'
export * from './supply/counts.ts'
export * from './attention/figures.ts'
export * from './work/instruments.ts'
export * from './supply/labels.ts'
export * from './foundation/live.ts'
export * from './foundation/words.ts'
export * from './supply/moves.ts'
export * from './planning/my-work.ts'
export * from './attention/notifications.ts'
export { operationChangeRoutes } from './planning/operation-changes.ts'
export * from './planning/operations.ts'
export * from './supply/orders.ts'
export * from './attention/overview.ts'
export * from './foundation/permissions.ts'
export * from './planning/plans.ts'
export * from './foundation/problems.ts'
export * from './work/products.ts'
export * from './work/qualifications.ts'
export * from './cure/reading-decisions.ts'
export * from './cure/reading-quality.ts'
export * from './supply/recall.ts'
export * from './supply/receiving.ts'
export * from './cure/repairs.ts'
export * from './supply/replenishment.ts'
export * from './supply/reservations.ts'
export * from './foundation/route.ts'
export * from './foundation/shops.ts'
export * from './supply/stock.ts'
export * from './supply/stock-life.ts'
export * from './supply/supply.ts'
export * from './cure/temperature.ts'
export * from './supply/traceability.ts'
export * from './foundation/values.ts'
export * from './planning/working-time.ts'

import { accessRoutes } from './foundation/access.ts'
import { alertRoutes } from './attention/alerts.ts'
import { attachmentRoutes } from './cure/attachments.ts'
import { bakeRoutes } from './cure/bakes.ts'
import { bondCurveRoutes } from './cure/bond-curves.ts'
import { bondRecordRoutes } from './cure/bond-records.ts'
import { bondRoutes } from './cure/bonds.ts'
import { bookingRoutes } from './planning/bookings.ts'
import { calendarFeedRoutes } from './planning/calendar-feeds.ts'
import { calculationRoutes } from './cure/calculations.ts'
import { helpRoutes } from './cure/help.ts'
import { countRoutes } from './supply/counts.ts'
import { figureRoutes } from './attention/figures.ts'
import { instrumentRoutes } from './work/instruments.ts'
import { moveRoutes } from './supply/moves.ts'
import { myWorkRoutes } from './planning/my-work.ts'
import { notificationRoutes } from './attention/notifications.ts'
import { operationChangeRoutes } from './planning/operation-changes.ts'
import { operationRoutes } from './planning/operations.ts'
import { labelRoutes } from './supply/labels.ts'
import { orderRoutes } from './supply/orders.ts'
import { overviewRoutes } from './attention/overview.ts'
import { planRoutes } from './planning/plans.ts'
import { productRoutes } from './work/products.ts'
import { qualificationRoutes } from './work/qualifications.ts'
import { readingDecisionRoutes } from './cure/reading-decisions.ts'
import { recallRoutes } from './supply/recall.ts'
import { receivingRoutes } from './supply/receiving.ts'
import { repairRoutes } from './cure/repairs.ts'
import { replenishmentRoutes } from './supply/replenishment.ts'
import { reservationRoutes } from './supply/reservations.ts'
import { shopRoutes } from './foundation/shops.ts'
import { stockLifeRoutes } from './supply/stock-life.ts'
import { stockRoutes } from './supply/stock.ts'
import { supplyRoutes } from './supply/supply.ts'
import { temperatureRoutes } from './cure/temperature.ts'
import { traceabilityRoutes } from './supply/traceability.ts'
import { workingTimeRoutes } from './planning/working-time.ts'

/** Every route of the service, by operation. */
export const ROUTES = {
  ...accessRoutes,
  ...qualificationRoutes,
  ...shopRoutes,
  ...instrumentRoutes,
  ...productRoutes,
  ...stockRoutes,
  ...receivingRoutes,
  ...labelRoutes,
  ...supplyRoutes,
  ...replenishmentRoutes,
  ...orderRoutes,
  ...traceabilityRoutes,
  ...moveRoutes,
  ...countRoutes,
  ...recallRoutes,
  ...stockLifeRoutes,
  ...reservationRoutes,
  ...temperatureRoutes,
  ...repairRoutes,
  ...operationRoutes,
  ...operationChangeRoutes,
  ...workingTimeRoutes,
  ...planRoutes,
  ...calendarFeedRoutes,
  ...figureRoutes,
  ...bondRoutes,
  ...readingDecisionRoutes,
  ...bondCurveRoutes,
  ...helpRoutes,
  ...bondRecordRoutes,
  ...attachmentRoutes,
  ...bookingRoutes,
  ...bakeRoutes,
  ...alertRoutes,
  ...myWorkRoutes,
  ...notificationRoutes,
  ...overviewRoutes,
  ...calculationRoutes,
}
