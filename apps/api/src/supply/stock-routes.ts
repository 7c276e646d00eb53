import {
  countRoutes,
  moveRoutes,
  recallRoutes,
  receivingRoutes,
  stockLifeRoutes,
  stockRoutes as contracts,
} from '@clampclock/contracts'
import { requireIn } from '../foundation/permissions/actor.ts'
import { ofShop } from '../foundation/database/marks.ts'
import type { App } from '../foundation/http/app-type.ts'
import { bind, bindDocument, bindKept } from '../foundation/http/bind.ts'
import {
  correctCartridge,
  discardCartridge,
  getCartridge,
  listCartridges,
  openCartridge,
} from './cartridges/cartridges.ts'
import { listCounts, countById } from './counts/count-store.ts'
import { addEntry, cancelCount, finishCount, removeEntry, startCount } from './counts/counts.ts'
import { endLotHold, holdLot, scrapLot } from './lots/holds.ts'
import { getLot, listLots } from './lots/lots.ts'
import { expiries } from './cartridges/expiries.ts'
import { lotStorage } from './lots/lot-storage.ts'
import { listMovements } from './cartridges/movements.ts'
import { moveCartridges } from './shipments/moves.ts'
import { cartridgeStorage } from './cartridges/cartridge-storage.ts'
import { decideQuarantine } from './cartridges/quarantine.ts'
import { recallCsv, recallOf } from './lots/recall.ts'
import { receiveLot } from './receiving/receive.ts'
import { answerScan } from './receiving/scan.ts'
import { settleCount } from './counts/settle-count.ts'
import { listShipments, shipmentById } from './shipments/shipment-store.ts'
import { changeNozzle } from './cartridges/use.ts'
import { arriveShipment, loseShipment, sendShipment } from './shipments/shipments.ts'

export async function stockRoutes(app: App): Promise<void> {
  bindStock(app)
  bindMoves(app)
  bindCounts(app)
}

function bindMoves(app: App): void {
  bind(app, moveRoutes.moveCartridges, async ({ tx, actor, params, body, now }) => {
    requireIn(actor, 'useStock', params.shopId)
    return moveCartridges(tx, actor, params.shopId, body, now)
  })
  bind(app, moveRoutes.listShipments, ({ tx, actor, query, now }) => listShipments(tx, actor, query, now))
  bind(app, moveRoutes.getShipment, ({ tx, actor, params, now }) =>
    shipmentById(tx, actor, params.shipmentId, now),
  )
  bind(app, moveRoutes.sendShipment, async ({ tx, actor, params, body, now }) => {
    requireIn(actor, 'handleStock', params.shopId)
    return sendShipment(tx, actor, params.shopId, body, now)
  })
  bind(app, moveRoutes.arriveShipment, ({ tx, actor, params, body, now }) =>
    arriveShipment(tx, actor, params.shipmentId, body, now),
  )
  bind(app, moveRoutes.loseShipment, ({ tx, actor, params, body, now }) =>
    loseShipment(tx, actor, params.shipmentId, body, now),
  )
}

function bindCounts(app: App): void {
  bind(app, countRoutes.listStockCounts, ({ tx, actor, query }) => listCounts(tx, actor, query))
  bind(app, countRoutes.getStockCount, ({ tx, actor, params }) => countById(tx, actor, params.countId))
  bind(app, countRoutes.startStockCount, async ({ tx, actor, params, body, now }) => {
    requireIn(actor, 'useStock', params.shopId)
    return startCount(tx, actor, params.shopId, body.locationId, now)
  })
  bind(app, countRoutes.addCountEntry, ({ tx, actor, params, body, now }) =>
    addEntry(tx, actor, params.countId, body.cartridgeId, now),
  )
  bind(app, countRoutes.removeCountEntry, ({ tx, actor, params }) =>
    removeEntry(tx, actor, params.countId, params.cartridgeId),
  )
  bind(app, countRoutes.cancelStockCount, async ({ tx, actor, params }) => {
    await cancelCount(tx, actor, params.countId)
    return null
  })
  bind(app, countRoutes.finishStockCount, ({ tx, actor, params, now }) =>
    finishCount(tx, actor, params.countId, now),
  )
  bind(app, countRoutes.settleStockCount, ({ tx, actor, params, body, now }) =>
    settleCount(tx, actor, params.countId, body, now),
  )
}

function bindStock(app: App): void {
  bindKept(
    app,
    contracts.listCartridges,
    ({ query }) => ofShop(query.shopId),
    ({ tx, viewer, query, now }) => listCartridges(tx, viewer, query, now),
  )
  bind(app, contracts.getCartridge, ({ tx, actor, params, now }) =>
    getCartridge(tx, actor, params.cartridgeId, now),
  )
  bind(app, contracts.receiveLot, async ({ tx, actor, params, body, now }) => {
    requireIn(actor, 'handleStock', params.shopId)
    return receiveLot(tx, actor, params.shopId, body, now)
  })
  bind(app, receivingRoutes.readScan, async ({ tx, actor, params, body, now }) => {
    requireIn(actor, 'readShop', params.shopId)
    return answerScan(tx, actor, params.shopId, body.text, now)
  })
  bind(app, contracts.openCartridge, ({ tx, actor, params, body, now }) =>
    openCartridge(tx, actor, params.cartridgeId, body, now),
  )
  bind(app, contracts.changeNozzle, ({ tx, actor, params, body, now }) =>
    changeNozzle(tx, actor, params.cartridgeId, body, now),
  )
  bind(app, contracts.discardCartridge, ({ tx, actor, params, body, now }) =>
    discardCartridge(tx, actor, params.cartridgeId, body, now),
  )
  bind(app, contracts.decideQuarantine, ({ tx, actor, params, body, now }) =>
    decideQuarantine(tx, actor, params.cartridgeId, body, now),
  )
  bind(app, contracts.correctCartridge, ({ tx, actor, params, body, now }) =>
    correctCartridge(tx, actor, params.cartridgeId, body, now),
  )

  bind(app, contracts.listLots, ({ tx, actor, query }) => listLots(tx, actor, query))
  bind(app, contracts.getLot, ({ tx, actor, params }) => getLot(tx, actor, params.lotId))
  bind(app, contracts.holdLot, ({ tx, actor, params, body, now }) =>
    holdLot(tx, actor, params.lotId, body.reason, now),
  )
  bind(app, contracts.endLotHold, ({ tx, actor, params, body, now }) =>
    endLotHold(tx, actor, params.lotId, body.reason, now),
  )

  bind(app, stockLifeRoutes.getCartridgeStorage, ({ tx, actor, params, now }) =>
    cartridgeStorage(tx, actor, params.cartridgeId, now),
  )
  bind(app, stockLifeRoutes.getLotStorage, ({ tx, actor, params }) => lotStorage(tx, actor, params.lotId))
  bind(app, stockLifeRoutes.listExpiries, ({ tx, actor, query, now }) => expiries(tx, actor, query, now))
  bind(app, recallRoutes.getLotRecall, ({ tx, actor, params, now }) => recallOf(tx, actor, params.lotId, now))
  bindDocument(app, recallRoutes.getLotRecallCsv, async ({ tx, actor, params, reader, now }) =>
    recallCsv(reader, await recallOf(tx, actor, params.lotId, now)),
  )
  bind(app, recallRoutes.scrapLot, ({ tx, actor, params, body, now }) =>
    scrapLot(tx, actor, params.lotId, body.reason, now),
  )

  bind(app, contracts.listStockMovements, ({ tx, actor, query }) => listMovements(tx, actor, query))
}
