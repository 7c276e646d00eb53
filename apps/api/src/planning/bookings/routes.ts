import { bakeRoutes, bookingRoutes as contracts } from '@clampclock/contracts'
import { requireIn } from '../../foundation/permissions/actor.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { ofShop } from '../../foundation/database/marks.ts'
import { bind, bindKept } from '../../foundation/http/bind.ts'
import { bayBoard } from './bay-board.ts'
import { checkOven } from './vehicle-bake.ts'
import { addBooking, cancelBooking, listBookings, moveBooking } from './bookings.ts'

export async function scheduleRoutes(app: App): Promise<void> {
  bind(app, contracts.listBookings, async ({ tx, actor, query, now }) => ({
    items: await listBookings(tx, actor, query, now),
  }))
  bind(app, contracts.addBooking, ({ tx, actor, body, now }) => addBooking(tx, actor, body, now))
  bind(app, contracts.moveBooking, ({ tx, actor, params, body, version, now }) =>
    moveBooking(tx, actor, params.bookingId, body, version, now),
  )
  bind(app, contracts.cancelBooking, async ({ tx, actor, params, now }) => {
    await cancelBooking(tx, actor, params.bookingId, now)
    return null
  })
  bind(app, bakeRoutes.checkOven, ({ tx, actor, params, body, now }) =>
    checkOven(tx, actor, params.repairOrderId, body, now),
  )
  bindKept(
    app,
    contracts.getBayBoard,
    ({ params }) => ofShop(params.shopId),
    async ({ tx, viewer, params, now }) => {
      requireIn(viewer, 'readShop', params.shopId)
      return bayBoard(tx, params.shopId, now)
    },
  )
}
