import { repairRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { addJoint, setProcedure } from './joints.ts'
import { moveVehicle } from './move-vehicle.ts'
import { addRepairOrder, editRepairOrder, getRepairOrder, listRepairOrders } from './repair-orders.ts'

export async function repairRoutes(app: App): Promise<void> {
  bind(app, contracts.listRepairOrders, ({ tx, actor, query, now }) =>
    listRepairOrders(tx, actor, query, now),
  )
  bind(app, contracts.addRepairOrder, ({ tx, actor, params, body, now }) =>
    addRepairOrder(tx, actor, params.shopId, body, now),
  )
  bind(app, contracts.getRepairOrder, ({ tx, actor, params, now }) =>
    getRepairOrder(tx, actor, params.repairOrderId, now),
  )
  bind(app, contracts.editRepairOrder, ({ tx, actor, params, body, version, now }) =>
    editRepairOrder(tx, actor, params.repairOrderId, body, version, now),
  )
  bind(app, contracts.addJoint, ({ tx, actor, params, body, now }) =>
    addJoint(tx, actor, params.repairOrderId, body, now),
  )
  bind(app, contracts.setProcedure, ({ tx, actor, params, body, now }) =>
    setProcedure(tx, actor, params.jointId, body, now),
  )
  bind(app, contracts.moveVehicle, ({ tx, actor, params, body, now }) =>
    moveVehicle(tx, actor, params.repairOrderId, body, now),
  )
}
