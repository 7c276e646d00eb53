import { planRoutes as contracts } from '@clampclock/contracts'
import { requireIn } from '../../foundation/permissions/actor.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { comparePlan } from './compare.ts'
import { movePlanned } from './moves.ts'
import { planDetail } from './plan-detail.ts'
import { publishedRow } from './plan-store.ts'
import { discardPlan, getPlan, listPlans, startPlan, stopPlan } from './plans.ts'
import { publishPlan } from './publish.ts'
import { resourceTime } from '../problem/resource-time.ts'

export async function planningRoutes(app: App): Promise<void> {
  bind(app, contracts.startPlan, async ({ tx, actor, params, body, now }) => {
    requireIn(actor, 'planWork', params.shopId)
    return startPlan(tx, actor, params.shopId, body, now)
  })
  bind(app, contracts.listPlans, async ({ tx, actor, params, query }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await listPlans(tx, params.shopId, query.limit) }
  })
  bind(app, contracts.getPublishedPlan, async ({ tx, actor, params, now }) => {
    requireIn(actor, 'readShop', params.shopId)
    const published = await publishedRow(tx, params.shopId)
    return { plan: published ? await planDetail(tx, published.id, now) : null }
  })
  bind(app, contracts.getPlan, ({ tx, actor, params, now }) => getPlan(tx, actor, params.planId, now))
  bind(app, contracts.stopPlan, ({ tx, actor, params, now }) => stopPlan(tx, actor, params.planId, now))
  bind(app, contracts.comparePlan, ({ tx, actor, params }) => comparePlan(tx, actor, params.planId))
  bind(app, contracts.publishPlan, ({ tx, actor, params, body, now }) =>
    publishPlan(tx, actor, app.planner, params.planId, body.leavesOut, now),
  )
  bind(app, contracts.discardPlan, async ({ tx, actor, params }) => {
    await discardPlan(tx, actor, params.planId)
    return null
  })
  bind(app, contracts.movePlanned, ({ tx, actor, params, body, now }) =>
    movePlanned(tx, actor, app.planner, params.planId, body, now),
  )
  bind(app, contracts.getResourceTime, async ({ tx, actor, params, query }) => {
    requireIn(actor, 'readShop', params.shopId)
    return { items: await resourceTime(tx, params.shopId, query) }
  })
}
