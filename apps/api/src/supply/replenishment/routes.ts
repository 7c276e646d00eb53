import { orderRoutes, replenishmentRoutes as contracts, supplyRoutes } from '@clampclock/contracts'
import { requireIn } from '../../foundation/permissions/actor.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind, bindComputed, bindDocument } from '../../foundation/http/bind.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { replenishmentOf } from './levels.ts'
import { orderCsv, orderPdf } from './order-document.ts'
import { addOrder, cancelOrder, getOrder, listOrders, placeOrder } from './orders.ts'
import { editPolicy, listLanes, policyOf, setLane } from './policy.ts'
import { addSupplier, addSupply, editSupplier, editSupply, listSuppliers, supplies } from './suppliers.ts'
import { endSolver } from './solve-transfers.ts'
import { answerTransfers, transferQuestion } from './transfers.ts'
import { wasteOf } from './waste.ts'

export async function replenishmentRoutes(app: App): Promise<void> {
  app.addHook('onClose', endSolver)
  bind(app, supplyRoutes.listSuppliers, async ({ tx }) => ({ items: await listSuppliers(tx) }))
  bind(app, supplyRoutes.addSupplier, ({ tx, actor, body }) => addSupplier(tx, actor, body))
  bind(app, supplyRoutes.editSupplier, ({ tx, actor, params, body, version }) =>
    editSupplier(tx, actor, params.supplierId, body, version),
  )
  bind(app, supplyRoutes.listProductSupplies, async ({ tx }) => ({
    items: [...(await supplies(tx)).values()],
  }))
  bind(app, supplyRoutes.addProductSupply, ({ tx, actor, params, body }) =>
    addSupply(tx, actor, params.productId, body),
  )
  bind(app, supplyRoutes.editProductSupply, ({ tx, actor, params, body, version }) =>
    editSupply(tx, actor, params.productId, body, version),
  )
  bind(app, supplyRoutes.getReplenishmentPolicy, ({ tx, actor }) => policyOf(tx, actor.organization.id))
  bind(app, supplyRoutes.editReplenishmentPolicy, ({ tx, actor, body, version }) =>
    editPolicy(tx, actor, body, version),
  )
  bind(app, supplyRoutes.listTransferLanes, async ({ tx }) => ({ items: await listLanes(tx) }))
  bind(app, supplyRoutes.setTransferLane, ({ tx, actor, params, body }) => setLane(tx, actor, params, body))

  bind(app, contracts.listReplenishment, async ({ tx, actor, params, now }) => {
    requireIn(actor, 'readShop', params.shopId)
    return replenishmentOf(tx, actor.organization.id, params.shopId, now)
  })
  bind(app, contracts.listWaste, ({ tx, actor, query, now }) => wasteOf(tx, actor, query, now))
  bindComputed(
    app,
    contracts.planTransfers,
    ({ tx, actor, now }) => transferQuestion(tx, actor, now),
    answerTransfers,
  )

  bind(app, orderRoutes.listOrders, ({ tx, actor, query }) => listOrders(tx, actor, query))
  bind(app, orderRoutes.getOrder, ({ tx, actor, params }) => getOrder(tx, actor, params.orderId))
  bindDocument(app, orderRoutes.getOrderPdf, async ({ tx, actor, params, now, reader }) => {
    const order = await getOrder(tx, actor, params.orderId)
    const shop = await shopById(tx, order.shopId)
    return { name: `order-${order.number}.pdf`, render: () => orderPdf(order, shop, reader, now) }
  })
  bindDocument(app, orderRoutes.getOrderCsv, async ({ tx, actor, params, reader }) => {
    const order = await getOrder(tx, actor, params.orderId)
    return { name: `order-${order.number}.csv`, render: async () => orderCsv(order, reader) }
  })
  bind(app, orderRoutes.addOrder, ({ tx, actor, params, body, now }) =>
    addOrder(tx, actor, params.shopId, body, now),
  )
  bind(app, orderRoutes.placeOrder, ({ tx, actor, params, now }) =>
    placeOrder(tx, actor, params.orderId, now),
  )
  bind(app, orderRoutes.cancelOrder, ({ tx, actor, params, body, now }) =>
    cancelOrder(tx, actor, params.orderId, body.reason, now),
  )
}
