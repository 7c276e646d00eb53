import type { BodyOf, calculationRoutes, ResultOf } from '@clampclock/contracts'
import {
  addReadings,
  estimateBond,
  startProgress,
  whatWouldHelp,
  type BondHistory,
  type ForecastPoint,
  type Reading,
} from '@clampclock/cure'
import { toEstimate } from '../estimates/to-bond.ts'
import { toHelp } from '../estimates/what-would-help.ts'
import { computed, requireSheets } from '../estimates/named-fault.ts'

type CureBody = BodyOf<typeof calculationRoutes.calculateCure>
type HelpBody = BodyOf<typeof calculationRoutes.calculateWhatWouldHelp>

const NAMES = { appliedAtMs: 'appliedAt', nowMs: 'asOf', byMs: 'by' }

export function calculateCure(body: CureBody): ResultOf<typeof calculationRoutes.calculateCure> {
  requireSheets({ sheet: body.sheet })
  return computed(body, NAMES, () =>
    toEstimate({ estimate: estimateBond(historyOf(body)), asOf: body.asOf }, body.timeZone, 'C'),
  )
}

export function calculateWhatWouldHelp(
  body: HelpBody,
): ResultOf<typeof calculationRoutes.calculateWhatWouldHelp> {
  const others = body.otherSheets.map((sheet, i) => [`otherSheets.${i}`, sheet] as const)
  requireSheets({ sheet: body.sheet, ...Object.fromEntries(others) })
  return computed(body, NAMES, () => {
    const { sheet, appliedAtMs, readings, forecast, nowMs, panelTauMinutes } = historyOf(body)
    const known = readings.filter(({ atMs }) => atMs <= nowMs)
    const help = whatWouldHelp({
      state: addReadings(startProgress(sheet, appliedAtMs, panelTauMinutes), known),
      nowMs,
      forecast,
      milestone: body.milestone,
      isClosed: body.isClosed,
      byMs: body.by.getTime(),
      warming: body.warming,
      toleranceC: body.toleranceC,
      ...(body.warmestC === undefined ? {} : { warmestC: body.warmestC }),
      otherSheets: body.otherSheets,
      ...(body.vehicleLimitC === undefined ? {} : { vehicleLimitC: body.vehicleLimitC }),
    })
    return toHelp(help)
  })
}

function historyOf(body: CureBody): BondHistory {
  return {
    sheet: body.sheet,
    appliedAtMs: body.appliedAt.getTime(),
    readings: body.readings.map(({ at, ...reading }): Reading => ({ atMs: at.getTime(), ...reading })),
    forecast: body.forecast.map(({ at, ...point }): ForecastPoint => ({ atMs: at.getTime(), ...point })),
    nowMs: body.asOf.getTime(),
    ...(body.panelTauMinutes === null ? {} : { panelTauMinutes: body.panelTauMinutes }),
  }
}
