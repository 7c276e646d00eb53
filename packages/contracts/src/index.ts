export * from './access.ts'
export * from './alerts.ts'
export * from './bakes.ts'
export * from './bond-curves.ts'
export * from './bond-records.ts'
export * from './bonds.ts'
export * from './bookings.ts'
export * from './calculations.ts'
export * from './calendar-feeds.ts'
export { CALCULATION_EXAMPLES } from './calculation-examples.ts'
export * from './help.ts'
export * from './counts.ts'
export * from './figures.ts'
export * from './instruments.ts'
export * from './labels.ts'
export * from './live.ts'
export * from './moves.ts'
export * from './notifications.ts'
export { operationChangeRoutes } from './operation-changes.ts'
export * from './operations.ts'
export * from './orders.ts'
export * from './overview.ts'
export * from './permissions.ts'
export * from './plans.ts'
export * from './problems.ts'
export * from './products.ts'
export * from './qualifications.ts'
export * from './reading-decisions.ts'
export * from './reading-quality.ts'
export * from './recall.ts'
export * from './receiving.ts'
export * from './repairs.ts'
export * from './replenishment.ts'
export * from './reservations.ts'
export * from './route.ts'
export * from './shops.ts'
export * from './stock.ts'
export * from './stock-life.ts'
export * from './supply.ts'
export * from './temperature.ts'
export * from './traceability.ts'
export * from './values.ts'
export * from './working-time.ts'

import { accessRoutes } from './access.ts'
import { alertRoutes } from './alerts.ts'
import { bakeRoutes } from './bakes.ts'
import { bondCurveRoutes } from './bond-curves.ts'
import { bondRecordRoutes } from './bond-records.ts'
import { bondRoutes } from './bonds.ts'
import { bookingRoutes } from './bookings.ts'
import { calendarFeedRoutes } from './calendar-feeds.ts'
import { calculationRoutes } from './calculations.ts'
import { helpRoutes } from './help.ts'
import { countRoutes } from './counts.ts'
import { figureRoutes } from './figures.ts'
import { instrumentRoutes } from './instruments.ts'
import { moveRoutes } from './moves.ts'
import { notificationRoutes } from './notifications.ts'
import { operationChangeRoutes } from './operation-changes.ts'
import { operationRoutes } from './operations.ts'
import { labelRoutes } from './labels.ts'
import { orderRoutes } from './orders.ts'
import { overviewRoutes } from './overview.ts'
import { planRoutes } from './plans.ts'
import { productRoutes } from './products.ts'
import { qualificationRoutes } from './qualifications.ts'
import { readingDecisionRoutes } from './reading-decisions.ts'
import { recallRoutes } from './recall.ts'
import { receivingRoutes } from './receiving.ts'
import { repairRoutes } from './repairs.ts'
import { replenishmentRoutes } from './replenishment.ts'
import { reservationRoutes } from './reservations.ts'
import { shopRoutes } from './shops.ts'
import { stockLifeRoutes } from './stock-life.ts'
import { stockRoutes } from './stock.ts'
import { supplyRoutes } from './supply.ts'
import { temperatureRoutes } from './temperature.ts'
import { traceabilityRoutes } from './traceability.ts'
import { workingTimeRoutes } from './working-time.ts'

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
  ...bookingRoutes,
  ...bakeRoutes,
  ...alertRoutes,
  ...notificationRoutes,
  ...overviewRoutes,
  ...calculationRoutes,
}
