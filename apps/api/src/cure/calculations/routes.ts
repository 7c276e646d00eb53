import { calculationRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bindStateless } from '../../foundation/http/bind.ts'
import { calculateCure, calculateWhatWouldHelp } from './cure.ts'
import {
  calculateBead,
  calculateDataSheetFit,
  calculateDewPoint,
  calculatePanelHeat,
  calculateShelfLife,
} from './figures.ts'
import { calculateOven } from './oven.ts'

/** The computations by themselves. One count for all of them, by caller: a program behind one address is not the shop's screens. */
export async function calculationRoutes(app: App, { perMinute }: { perMinute: number }): Promise<void> {
  const limiter = app.rateLimit({
    max: perMinute,
    timeWindow: '1 minute',
    keyGenerator: (request) => `calculations ${request.actor?.id ?? request.ip}`,
  })
  bindStateless(app, contracts.calculateCure, limiter, ({ body }) => calculateCure(body))
  bindStateless(app, contracts.calculateWhatWouldHelp, limiter, ({ body }) => calculateWhatWouldHelp(body))
  bindStateless(app, contracts.calculateOven, limiter, ({ body }) => calculateOven(body))
  bindStateless(app, contracts.calculatePanelHeat, limiter, ({ body }) => calculatePanelHeat(body))
  bindStateless(app, contracts.calculateBead, limiter, ({ body }) => calculateBead(body))
  bindStateless(app, contracts.calculateDewPoint, limiter, ({ body }) => calculateDewPoint(body))
  bindStateless(app, contracts.calculateShelfLife, limiter, ({ body }) => calculateShelfLife(body))
  bindStateless(app, contracts.calculateDataSheetFit, limiter, ({ body }) => calculateDataSheetFit(body))
}
