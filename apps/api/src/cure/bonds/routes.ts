import { placeBond } from './place-bond.ts'
import {
  bondCurveRoutes,
  bondRoutes as contracts,
  helpRoutes,
  readingDecisionRoutes,
} from '@clampclock/contracts'
import { requireIn, visibleShops } from '../../foundation/permissions/actor.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind, bindKept } from '../../foundation/http/bind.ts'
import { ofShop } from '../../foundation/database/marks.ts'
import { bondRow, bondsOfRepairOrder, ofBond, runningBonds } from '../estimates/bond-store.ts'
import { abandonBond, checkMove, clampBond, releaseBond } from './lifecycle.ts'
import { curveOf } from '../estimates/curve.ts'
import { addPanelReading, correctPanelReading, withdrawPanelReading } from './readings.ts'
import { slideBond } from './slide.ts'
import { checkBond, startBond } from './start.ts'
import { toBond, toBonds } from '../estimates/to-bond.ts'
import { helpBond } from '../estimates/what-would-help.ts'
import { shopById } from '../../foundation/shops/shops.ts'

function bindKeptReads(app: App): void {
  bindKept(
    app,
    contracts.listBonds,
    ({ query }) => ofShop(query.shopId),
    async ({ tx, viewer, query, now }) => {
      const shops = visibleShops(viewer, query.shopId)
      const rows = query.repairOrderId
        ? await bondsOfRepairOrder(tx, query.repairOrderId)
        : await runningBonds(tx, shops)
      return {
        items: await toBonds(
          tx,
          rows.filter((row) => !shops || shops.in.includes(row.shopId)),
          now,
        ),
      }
    },
  )
  bindKept(
    app,
    contracts.getBond,
    ({ params }) => ofBond(params.bondId),
    async ({ tx, viewer, params, now }) => {
      const row = await bondRow(tx, params.bondId)
      requireIn(viewer, 'readShop', row.shopId)
      return toBond(tx, row, (await shopById(tx, row.shopId)).timeZone, now)
    },
  )
}

export async function bondRoutes(app: App): Promise<void> {
  bind(app, contracts.checkBond, ({ tx, actor, params, body, now }) =>
    checkBond(tx, actor, params.jointId, body, now),
  )
  bind(app, contracts.startBond, ({ tx, actor, params, body, now }) =>
    startBond(tx, actor, params.jointId, body, now),
  )
  bindKeptReads(app)
  bind(app, bondCurveRoutes.getBondCurve, async ({ tx, actor, params, query, now }) => {
    const row = await bondRow(tx, params.bondId)
    requireIn(actor, 'readShop', row.shopId)
    const { timeZone } = await shopById(tx, row.shopId)
    return curveOf(tx, row, timeZone, now, query.stepMinutes)
  })
  bind(app, helpRoutes.helpBond, async ({ tx, actor, params, body, now }) => {
    const row = await bondRow(tx, params.bondId)
    requireIn(actor, 'readShop', row.shopId)
    const { timeZone } = await shopById(tx, row.shopId)
    return helpBond(tx, row, body, timeZone, now)
  })
  bind(app, contracts.addPanelReading, ({ tx, actor, params, body, now }) =>
    addPanelReading({ tx, actor, now }, params.bondId, body),
  )
  bind(app, readingDecisionRoutes.withdrawPanelReading, ({ tx, actor, params, body, now }) =>
    withdrawPanelReading({ tx, actor, now }, params.readingId, body),
  )
  bind(app, readingDecisionRoutes.correctPanelReading, ({ tx, actor, params, body, now }) =>
    correctPanelReading({ tx, actor, now }, params.readingId, body),
  )
  bind(app, contracts.clampBond, ({ tx, actor, params, body, now }) =>
    clampBond({ tx, actor, now }, params.bondId, body),
  )
  bind(app, contracts.placeBond, ({ tx, actor, params, body, now }) =>
    placeBond({ tx, actor, now }, params.bondId, body.bayId),
  )
  bind(app, contracts.slideBond, ({ tx, actor, params, body, now }) =>
    slideBond({ tx, actor, now }, params.bondId, body),
  )
  bind(app, contracts.getMoveCheck, ({ tx, actor, params, now }) =>
    checkMove({ tx, actor, now }, params.bondId),
  )
  bind(app, contracts.releaseBond, ({ tx, actor, params, body, now }) =>
    releaseBond({ tx, actor, now }, params.bondId, body),
  )
  bind(app, contracts.abandonBond, ({ tx, actor, params, body, now }) =>
    abandonBond({ tx, actor, now }, params.bondId, body),
  )
}
