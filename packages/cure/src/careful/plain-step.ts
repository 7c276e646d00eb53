import { celsiusToKelvin, MS_PER_MINUTE } from '@clampclock/quantities'
import { MILESTONES } from '../sheet/data-sheet.ts'
import { integrateLine, integrateStraight, noAnchor, type AnchorRates } from '../temperature/integrate.ts'
import { STALE_LIMIT_MINUTES, type Reading } from '../readings/reading.ts'
import { LINES, readingBand } from '../readings/temperature-line.ts'
import { count } from './follow.ts'
import type { RunningProgress } from './state.ts'

/** Room for the figures of one step, used again for the next: nothing is carried over in it. */
export interface Scratch {
  readonly gained: number[]
  /** One for each line: it moves on only where the line passes into another kelvin. */
  readonly anchors: readonly [AnchorRates, AnchorRates, AnchorRates]
}

export const newScratch = (): Scratch => ({
  gained: Array.from({ length: MILESTONES.length * LINES.length }, () => 0),
  anchors: [noAnchor(), noAnchor(), noAnchor()],
})

const FULL_CURE_COLD = (MILESTONES.length - 1) * LINES.length

/**
 * A step from one reading of the metal to the next on which nothing happens that is worth a word: a straight line, no
 * gap, within all limits, no milestone passed. Nearly every step of a logged history is one, and this does without
 * the objects that the general way makes.
 *
 * @returns false, with nothing changed, for any other step.
 */
export function plainStep(
  running: RunningProgress,
  previous: Reading,
  next: Reading,
  scratch: Scratch,
): boolean {
  const bin = running.bins[0]!
  const { panelC, progress, reachedAtMs } = bin
  const { sheet, curves } = running
  const minutes = (next.atMs - previous.atMs) / MS_PER_MINUTE
  if (running.pending.length > 0 || running.sampler !== undefined) return false
  if (previous.atMs < running.appliedAtMs || minutes > STALE_LIMIT_MINUTES[previous.source]) return false
  if (next.source !== previous.source && minutes > STALE_LIMIT_MINUTES[next.source]) return false
  const to = readingBand(next)
  const coldest = Math.min(panelC[0], to[0])
  const warmest = Math.max(panelC[2], to[2])
  if (coldest < sheet.lowestCureC || coldest < sheet.serviceRangeC.min) return false
  if (warmest > sheet.highestCureC || warmest > sheet.serviceRangeC.max) return false
  const { gained, anchors } = scratch
  for (const line of LINES) {
    const aK = celsiusToKelvin(panelC[line])
    const bK = celsiusToKelvin(to[line])
    const three = curves[line]
    if (integrateStraight(three, aK, bK, minutes, gained, line, LINES.length, anchors[line])) continue
    for (let m = 0; m < three.length; m++)
      gained[m * LINES.length + line] = integrateLine(three[m]!, aK, bK, minutes)
  }
  for (let i = 0; i < gained.length; i++)
    if (reachedAtMs[i] === null && progress[i]! + gained[i]! >= 1) return false
  for (let i = 0; i < gained.length; i++) progress[i]! += gained[i]!
  for (const line of LINES) {
    // What has not been reached has counted the same temperatures as full cure: one look is enough on most
    // steps.
    const full =
      reachedAtMs[FULL_CURE_COLD + line] === null ? running.countedC[FULL_CURE_COLD + line] : undefined
    const a = panelC[line]
    const b = to[line]
    if (full && a >= full[0] && a <= full[1] && b >= full[0] && b <= full[1]) continue
    for (let m = 0; m < MILESTONES.length; m++) {
      const i = m * LINES.length + line
      if (reachedAtMs[i] === null) count(running.countedC, i, a, b)
    }
  }
  bin.panelC = to
  running.atMs = next.atMs
  return true
}
