import { reservationRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { listReservations } from './reservation-store.ts'
import { releaseReservation, reserveForJoint, reserveForPlan } from './reservations.ts'

export async function reservationRoutes(app: App): Promise<void> {
  bind(app, contracts.listReservations, async ({ tx, actor, query }) => ({
    items: await listReservations(tx, actor, query),
  }))
  bind(app, contracts.reserveForJoint, async ({ tx, actor, params, body, now }) => ({
    items: await reserveForJoint(tx, actor, params.jointId, body.neededAt, now),
  }))
  bind(app, contracts.releaseReservation, async ({ tx, actor, params, now }) => {
    await releaseReservation(tx, actor, params.jointId, now)
    return { items: [] }
  })
  bind(app, contracts.reserveForPlan, ({ tx, actor, params, body, now }) =>
    reserveForPlan(tx, actor, params.shopId, body.days, now),
  )
}
