import { productRoutes as contracts, receivingRoutes } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind, bindDocument, bindPrepared } from '../../foundation/http/bind.ts'
import { documentOf, toPdf } from './documents.ts'
import { addGtin, listGtins, removeGtin } from './gtins.ts'
import {
  addProduct,
  addProductSheet,
  addSheetDocument,
  approveProductSheet,
  getProduct,
  listProducts,
  rejectProductSheet,
} from './products.ts'

/** Products belong to the whole chain: only who manages the catalogue in every shop changes them. */
export async function catalogueRoutes(app: App): Promise<void> {
  bind(app, contracts.listProducts, async ({ tx, now }) => ({ items: await listProducts(tx, now) }))
  bind(app, contracts.getProduct, ({ tx, params, now }) => getProduct(tx, params.productId, now))
  bind(app, contracts.addProduct, ({ tx, actor, body, now }) => addProduct(tx, actor, body, now))
  bind(app, contracts.addProductSheet, ({ tx, actor, params, body, now }) =>
    addProductSheet(tx, actor, params.productId, body, now),
  )
  bind(app, contracts.approveProductSheet, ({ tx, actor, params, body, now }) =>
    approveProductSheet(tx, actor, params, body.secondLook, now),
  )

  bindPrepared(app, contracts.addSheetDocument, toPdf, ({ tx, actor, params, prepared, now }) =>
    addSheetDocument(tx, actor, params, prepared, now),
  )
  bindDocument(app, contracts.getSheetDocument, async ({ tx, params }) => {
    const pdf = await documentOf(tx, params)
    return { name: `data-sheet-${params.documentId}.pdf`, render: () => Promise.resolve(pdf) }
  })
  bind(app, contracts.rejectProductSheet, ({ tx, actor, params, body, now }) =>
    rejectProductSheet(tx, actor, params, body.reason, now),
  )

  bind(app, receivingRoutes.listProductGtins, async ({ tx, params }) => ({
    items: await listGtins(tx, params.productId),
  }))
  bind(app, receivingRoutes.addProductGtin, ({ tx, actor, params, body, now }) =>
    addGtin(tx, actor, params.productId, body, now),
  )
  bind(app, receivingRoutes.removeProductGtin, async ({ tx, actor, params }) => {
    await removeGtin(tx, actor, params.productId, params.gtin)
    return null
  })
}
