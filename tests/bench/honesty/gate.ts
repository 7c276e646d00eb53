/** When the gate opens, replayed as it was known at each instant. */
import { addReading, estimateFrom, startProgress, type ProgressState, type Reading } from '@clampclock/cure'

type Start = Parameters<typeof startProgress>

/** Below this share it cannot open before the next reading. */
const FAR = 0.5

/**
 * The first instant at which handling strength is reached on the conservative line, with the readings that had come
 * by then, ms; Infinity when it does not open.
 *
 * @param readings in order of time.
 */
export function opensAt(
  sheet: Start[0],
  appliedAtMs: number,
  tauMinutes: number | undefined,
  place: Start[3],
  readings: readonly Reading[],
  untilMs: number,
): number {
  let state: ProgressState = startProgress(sheet, appliedAtMs, tauMinutes, place)
  for (const [i, reading] of readings.entries()) {
    if (reading.atMs > untilMs) break
    state = addReading(state, reading)
    const nextMs = Math.min(readings[i + 1]?.atMs ?? untilMs, untilMs)
    if (nextMs <= appliedAtMs || nextMs < reading.atMs) continue
    if (leastShare(state) < FAR && nextMs - reading.atMs < 30 * 60_000) continue
    const { handlingStrength } = estimateFrom(state, {
      nowMs: Math.max(reading.atMs, nextMs - 1),
      forecast: [],
    })
    const { conservative } = handlingStrength.readyAt
    // Known from the reading on, not before it.
    if (conservative.kind === 'at') return Math.max(conservative.atMs, reading.atMs)
  }
  return Infinity
}

/** Handling strength on the cold line of the state itself. */
function leastShare(state: ProgressState): number {
  return Math.min(...state.bins.map(({ progress }) => progress[3]!))
}
