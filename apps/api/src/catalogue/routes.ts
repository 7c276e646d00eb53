import { productRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../http/app-type.ts'
import { bind } from '../http/bind.ts'
import { addProduct, addProductSheet, getProduct, listProducts } from './products.ts'

/** Products belong to the whole chain: who manages the catalogue in one shop manages it for all. */
export async function catalogueRoutes(app: App): Promise<void> {
  bind(app, contracts.listProducts, async ({ tx }) => ({ items: await listProducts(tx) }))
  bind(app, contracts.getProduct, ({ tx, params }) => getProduct(tx, params.productId))
  bind(app, contracts.addProduct, ({ tx, actor, body, now }) => addProduct(tx, actor, body, now))
  bind(app, contracts.addProductSheet, ({ tx, actor, params, body, now }) =>
    addProductSheet(tx, actor, params.productId, body, now),
  )
}
