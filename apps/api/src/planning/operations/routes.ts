import { operationChangeRoutes as changes, operationRoutes as contracts } from '@clampclock/contracts'
import { requireIn } from '../../foundation/permissions/actor.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { importRepairOrders } from './import.ts'
import { delayOperation, finishOperation, startOperation } from './progress.ts'
import { addOperation } from './add-operation.ts'
import { editOperation, orderOperation, removeOperation } from './change-operation.ts'
import { addOperations, listOperations } from './operations.ts'
import { listRepairTemplates, removeRepairTemplate, setRepairTemplate } from './templates.ts'

export async function operationRoutes(app: App): Promise<void> {
  bind(app, contracts.listRepairTemplates, async ({ tx, actor, params }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await listRepairTemplates(tx, params.shopId) }
  })
  bind(app, contracts.setRepairTemplate, async ({ tx, actor, params, body, version }) => {
    requireIn(actor, 'planWork', params.shopId)
    return setRepairTemplate(tx, actor, params.shopId, params.key, body, version)
  })
  bind(app, contracts.removeRepairTemplate, async ({ tx, actor, params }) => {
    requireIn(actor, 'planWork', params.shopId)
    await removeRepairTemplate(tx, actor, params.shopId, params.key)
    return null
  })
  bind(app, contracts.listOperations, ({ tx, actor, params, now }) =>
    listOperations(tx, actor, params.repairOrderId, now),
  )
  bind(app, contracts.addOperations, async ({ tx, actor, params, body, now }) => ({
    items: await addOperations(tx, actor, params.repairOrderId, body, now),
  }))
  bind(app, changes.addOperation, async ({ tx, actor, params, body, now }) => ({
    items: await addOperation(tx, actor, params.repairOrderId, body, now),
  }))
  bind(app, changes.orderOperation, async ({ tx, actor, params, body, version }) => ({
    items: await orderOperation(tx, actor, params.operationId, body, version),
  }))
  bind(app, changes.editOperation, ({ tx, actor, params, body, version, now }) =>
    editOperation(tx, actor, params.operationId, body, version, now),
  )
  bind(app, changes.removeOperation, async ({ tx, actor, params }) => {
    await removeOperation(tx, actor, params.operationId)
    return null
  })
  bind(app, contracts.startOperation, ({ tx, actor, params, body, now }) =>
    startOperation(tx, actor, params.operationId, body, now),
  )
  bind(app, contracts.finishOperation, ({ tx, actor, params, now }) =>
    finishOperation(tx, actor, params.operationId, now),
  )
  bind(app, contracts.delayOperation, ({ tx, actor, params, body, now }) =>
    delayOperation(tx, actor, params.operationId, body.expectedEndAt, now),
  )
  bind(app, contracts.importRepairOrders, async ({ tx, actor, params, body, now }) => {
    requireIn(actor, 'planWork', params.shopId)
    return importRepairOrders(tx, actor, params.shopId, body, now)
  })
}
