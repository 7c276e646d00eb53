import { requireForecast, type ForecastPoint } from '../readings/reading.ts'
import { ahead } from './air.ts'
import { cutIntoBins, wholeRange } from './bins.ts'
import { leadColdMetal } from './follow.ts'

/** The metal is no colder than this between two instants, ms and degC. */
export interface ColdestMetal {
  readonly fromMs: number
  readonly toMs: number
  readonly coldestC: number
}

/**
 * How cold a panel may be from one point of a forecast of its bay's air to the next: the coldest of every time constant
 * that the careful line of an estimate reckons with, on the cold side of the forecast. As warm as that air where the
 * forecast begins. Whatever is worked out of it is never ahead of the careful line of a bond that starts later.
 *
 * @param panelTauMinutes by the panel's own figures; null where nobody knows the panel.
 * @throws RangeError for a faulty forecast.
 */
export function coldestMetalAhead(
  forecast: readonly ForecastPoint[],
  panelTauMinutes: number | null,
): ColdestMetal[] {
  requireForecast(forecast)
  const [first] = forecast
  if (first === undefined) return []
  const start = wholeRange(panelTauMinutes)
  start.panelC = [first.lowC, first.expectedC, first.highC]
  const bins = cutIntoBins(start, panelTauMinutes)
  return [...ahead('air', forecast, first.atMs)].map((piece) => ({
    fromMs: piece.fromMs,
    toMs: piece.toMs,
    coldestC: Math.min(...bins.map((bin) => leadColdMetal(bin, piece))),
  }))
}
