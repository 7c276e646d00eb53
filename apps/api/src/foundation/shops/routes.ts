import { instrumentRoutes, shopRoutes as contracts } from '@clampclock/contracts'
import { requireIn } from '../permissions/actor.ts'
import type { App } from '../http/app-type.ts'
import { bind } from '../http/bind.ts'
import { addDispenser, addStorageLocation, listDispensers, listStorageLocations } from './equipment.ts'
import { addInstrument, editInstrument, listInstruments } from './instruments.ts'
import { addResource, editResource, listResources } from './resources.ts'
import { addShop, editShop, listShops } from './shops.ts'

export async function shopRoutes(app: App): Promise<void> {
  bind(app, contracts.listShops, async ({ tx, actor }) => ({ items: await listShops(tx, actor) }))
  bind(app, contracts.addShop, ({ tx, actor, body }) => addShop(tx, actor, body))
  bind(app, contracts.editShop, async ({ tx, actor, params, body, version }) => {
    requireIn(actor, 'manageChain', params.shopId)
    return editShop(tx, actor, params.shopId, body, version)
  })

  bind(app, contracts.listResources, async ({ tx, actor, params }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await listResources(tx, params.shopId) }
  })
  bind(app, contracts.addResource, async ({ tx, actor, params, body }) => {
    requireIn(actor, 'manageChain', params.shopId)
    return addResource(tx, actor, params.shopId, body)
  })
  bind(app, contracts.editResource, ({ tx, actor, params, body, version }) =>
    editResource(tx, actor, params.resourceId, body, version),
  )

  bind(app, contracts.listDispensers, async ({ tx, actor, params }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await listDispensers(tx, params.shopId) }
  })
  bind(app, contracts.addDispenser, async ({ tx, actor, params, body }) => {
    requireIn(actor, 'handleStock', params.shopId)
    return addDispenser(tx, actor, params.shopId, body)
  })
  bind(app, contracts.listStorageLocations, async ({ tx, actor, params }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await listStorageLocations(tx, params.shopId) }
  })
  bind(app, contracts.addStorageLocation, async ({ tx, actor, params, body }) => {
    requireIn(actor, 'handleStock', params.shopId)
    return addStorageLocation(tx, actor, params.shopId, body)
  })

  bind(app, instrumentRoutes.listInstruments, async ({ tx, actor, params, now }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await listInstruments(tx, params.shopId, now) }
  })
  bind(app, instrumentRoutes.addInstrument, async ({ tx, actor, params, body, now }) => {
    requireIn(actor, 'manageChain', params.shopId)
    return addInstrument(tx, actor, params.shopId, body, now)
  })
  bind(app, instrumentRoutes.editInstrument, ({ tx, actor, params, body, version, now }) =>
    editInstrument(tx, actor, params.instrumentId, body, version, now),
  )
}
