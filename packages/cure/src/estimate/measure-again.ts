import { panelOf } from '../careful/bins.ts'
import type { ReadyInstant } from './estimate-figures.ts'
import { conservativelyAt, upToNow, type Outlook } from './estimate.ts'
import { addReading, type ProgressState } from './progress.ts'

/** Less than this is not worth a walk to the car, minutes. Common practice, no source. */
const WORTH_MINUTES = 5

/**
 * When the gate could open at the earliest if the metal were measured now and turned out as the expected line says:
 * what one more reading is worth. Null where it would not bring handling strength forward by five minutes.
 *
 * @param accuracyC of the thermometer, degC.
 * @throws RangeError as `estimateFrom`.
 */
export function measuredAgain(
  state: ProgressState,
  outlook: Outlook,
  accuracyC: number,
): ReadyInstant | null {
  const { lastReading } = state.doubted ?? state
  if (lastReading !== null && outlook.nowMs <= lastReading.atMs) return null
  const waiting = conservativelyAt(state, outlook, 'handlingStrength')
  if (waiting.kind === 'at' && waiting.atMs <= outlook.nowMs) return null
  const running = upToNow(state, outlook.nowMs, outlook.forecast)
  if (running === undefined) return null
  const temperatureC = panelOf(running.bins)[1]
  const measured = addReading(state, { atMs: outlook.nowMs, temperatureC, accuracyC, source: 'metalProbe' })
  const conservative = conservativelyAt(measured, outlook, 'handlingStrength')
  if (conservative.kind === 'never') return null
  const isWorth = waiting.kind === 'never' || waiting.atMs - conservative.atMs >= WORTH_MINUTES * 60_000
  return isWorth ? conservative : null
}
