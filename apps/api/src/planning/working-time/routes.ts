import { workingTimeRoutes as contracts } from '@clampclock/contracts'
import { requireIn } from '../../foundation/permissions/actor.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { addAbsence } from './absences.ts'
import { addDayException, listDayExceptions, removeDayException } from './exceptions.ts'
import { listWorkingHours, setWorkingHours } from './hours.ts'

export async function workingTimeRoutes(app: App): Promise<void> {
  bind(app, contracts.listWorkingHours, async ({ tx, actor, params }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await listWorkingHours(tx, params.shopId) }
  })
  bind(app, contracts.setWorkingHours, async ({ tx, actor, params, body }) => {
    requireIn(actor, 'planWork', params.shopId)
    return setWorkingHours(tx, actor, params.shopId, body)
  })
  bind(app, contracts.listDayExceptions, async ({ tx, actor, params, query }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await listDayExceptions(tx, params.shopId, query) }
  })
  bind(app, contracts.addDayException, async ({ tx, actor, params, body }) => {
    requireIn(actor, 'planWork', params.shopId)
    return addDayException(tx, actor, params.shopId, body)
  })
  bind(app, contracts.addAbsence, async ({ tx, actor, params, body }) => ({
    items: await addAbsence(tx, actor, params.resourceId, body),
  }))
  bind(app, contracts.removeDayException, async ({ tx, actor, params }) => {
    await removeDayException(tx, actor, params.exceptionId)
    return null
  })
}
