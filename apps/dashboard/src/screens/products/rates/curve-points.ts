import { rateCurve, timeAtTemperature, type DataSheet } from '@clampclock/cure'

export interface CurvePoint {
  readonly temperatureC: number
  /** Minutes; null where the adhesive stands still. */
  readonly workTime: number | null
  readonly handlingTime: number | null
  readonly fullCure: number | null
  /** Outside the published points: continued, not published. */
  readonly isBeyond: boolean
  readonly basis: 'dataSheet' | 'interpolated' | 'extrapolated' | 'estimated'
}

/** Times at each of these temperatures, by the curve that the gates use. */
export function pointsAt(sheet: DataSheet, temperaturesC: readonly number[]): readonly CurvePoint[] {
  const curves = {
    workTime: rateCurve(sheet, 'workTime'),
    handlingTime: rateCurve(sheet, 'handlingStrength'),
    fullCure: rateCurve(sheet, 'fullCure'),
  }
  return temperaturesC.map((temperatureC) => {
    const minutes = (name: keyof typeof curves) => {
      const time = timeAtTemperature(curves[name], temperatureC)
      return Number.isFinite(time.minutes) ? time.minutes : null
    }
    const { basis } = timeAtTemperature(curves.handlingTime, temperatureC)
    return {
      temperatureC,
      workTime: minutes('workTime'),
      handlingTime: minutes('handlingTime'),
      fullCure: minutes('fullCure'),
      isBeyond: basis === 'extrapolated' || basis === 'estimated',
      basis,
    }
  })
}

/** From the lowest to the highest temperature that cures it, in `count` even steps, the published ones among them. */
function plotTemperatures(sheet: DataSheet, count = 60): readonly number[] {
  const published = sheet.points.map((point) => point.temperatureC)
  const low = Math.min(sheet.lowestCureC, ...published)
  const high = Math.max(sheet.highestCureC, ...published)
  const even = Array.from({ length: count + 1 }, (_, step) => low + ((high - low) * step) / count)
  return [...new Set([...even, ...published])].sort((a, b) => a - b)
}

/** Round temperatures for the table: every five degrees from lowest cure to the end of the application range. */
export function tableTemperatures(sheet: DataSheet): readonly number[] {
  const from = Math.ceil(sheet.lowestCureC / 5) * 5
  const to = Math.max(sheet.applicationRangeC.max, ...sheet.points.map((point) => point.temperatureC))
  const even = Array.from(
    { length: Math.max(0, Math.floor((to - from) / 5) + 1) },
    (_, step) => from + step * 5,
  )
  return [...new Set([...even, ...sheet.points.map((point) => point.temperatureC)])].sort((a, b) => a - b)
}

type Series = 'workTime' | 'handlingTime' | 'fullCure'

/** One row of the plot: each series once where published and once where continued, joined at the ends. */
export type PlotRow = Record<'temperatureC', number> &
  Partial<Record<Series | `${Series}Beyond` | `${Series}Point`, number>>

export function plotRows(sheet: DataSheet): readonly PlotRow[] {
  const points = pointsAt(sheet, plotTemperatures(sheet))
  const published = new Set(sheet.points.map((point) => point.temperatureC))
  return points.map((point, index) => {
    const row: PlotRow = { temperatureC: point.temperatureC }
    const neighbours = [points[index - 1], points[index + 1]]
    // A published end point belongs to both parts, so that the line has no gap there.
    const isJoint = !point.isBeyond && neighbours.some((neighbour) => neighbour?.isBeyond === true)
    for (const series of ['workTime', 'handlingTime', 'fullCure'] as const) {
      const minutes = point[series]
      if (minutes === null) continue
      if (!point.isBeyond) row[series] = minutes
      if (point.isBeyond || isJoint) row[`${series}Beyond`] = minutes
      if (published.has(point.temperatureC)) row[`${series}Point`] = minutes
    }
    return row
  })
}
