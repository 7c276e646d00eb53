import { MS_PER_MINUTE } from '@clampclock/quantities'
import { MILESTONES } from '../sheet/data-sheet.ts'
import type { RateCurve } from '../sheet/rate-curve.ts'
import { LINES, type Triple } from '../readings/temperature-line.ts'

/**
 * One guess at how fast the metal follows the air: its time constant lies between two bounds, and the two outer
 * lines hold for any that does. Plain data.
 */
export interface LagBin {
  readonly fastMinutes: number
  readonly expectedMinutes: number
  readonly slowMinutes: number
  /** The metal, degC, on the three lines. */
  panelC: Triple
  /** Nine figures: milestone by milestone, in each the cold, the expected and the warm line. */
  progress: number[]
  reachedAtMs: (number | null)[]
  /** How badly it foretold the metal readings, and how far it is from what the panel's own figures say. */
  misfit: number
}

const BINS = 16
/** Still air gives 2, moving air 25 W/(m2 K) and more; a panel's figure is for 10. So it may be this much faster. */
const FASTEST_SHARE = 0.4
/** A lag faster, and slower, than any that a shop's panel has been seen to have, minutes. Common practice, no source. */
const FASTEST_MINUTES = 2
const SLOWEST_MINUTES = 240
/** Where nothing is known of the panel it is expected to be as warm as the air: it follows at once, minutes. */
const AT_ONCE_MINUTES = 1e-4
/** One e-fold off the panel's own figure weighs as much as a reading that is off by its accuracy. */
const MISFIT_PER_E_FOLD = 1

const figures = MILESTONES.length * LINES.length

/** The one bin of a bond whose air nobody reads: its metal is what was measured. */
export function wholeRange(tauMinutes: number | null): LagBin {
  const [fast, slow] = lagRange(tauMinutes)
  return {
    fastMinutes: fast,
    expectedMinutes: tauMinutes ?? AT_ONCE_MINUTES,
    slowMinutes: slow,
    panelC: [0, 0, 0],
    progress: Array.from({ length: figures }, () => 0),
    reachedAtMs: Array.from({ length: figures }, () => null),
    misfit: 0,
  }
}

function lagRange(tauMinutes: number | null): readonly [fast: number, slow: number] {
  if (tauMinutes === null) return [AT_ONCE_MINUTES, SLOWEST_MINUTES]
  return [FASTEST_SHARE * tauMinutes, Math.max(SLOWEST_MINUTES, 2 * tauMinutes)]
}

/** The range cut into bins of one ratio, each where `from` stands. */
export function cutIntoBins(from: LagBin, tauMinutes: number | null): LagBin[] {
  const [fast, slow] = lagRange(tauMinutes)
  const usual = tauMinutes ?? AT_ONCE_MINUTES
  // Of a panel of which nothing is known the first bin holds all that is quicker than any panel.
  const [cuts, startMinutes] = tauMinutes === null ? [BINS - 1, FASTEST_MINUTES] : [BINS, fast]
  const edge = (i: number): number => (i < 0 ? fast : startMinutes * (slow / startMinutes) ** (i / cuts))
  return Array.from({ length: BINS }, (_, n) => {
    const i = n - (BINS - cuts)
    const [fastMinutes, slowMinutes] = [edge(i), edge(i + 1)]
    const holdsUsual = fastMinutes <= usual && usual < slowMinutes
    const expectedMinutes = holdsUsual ? usual : Math.sqrt(fastMinutes * slowMinutes)
    const folds = Math.log(Math.max(expectedMinutes, FASTEST_MINUTES) / Math.max(usual, FASTEST_MINUTES))
    return {
      ...copyOf(from),
      fastMinutes,
      expectedMinutes,
      slowMinutes,
      misfit: MISFIT_PER_E_FOLD * folds ** 2,
    }
  })
}

export function copyOf(bin: LagBin): LagBin {
  return { ...bin, progress: [...bin.progress], reachedAtMs: [...bin.reachedAtMs] }
}

/** The bin that the expected line follows: of those left the one that foretold best. */
export function likeliest(bins: readonly LagBin[]): LagBin {
  let best = bins[0]!
  for (let i = 1; i < bins.length; i++) if (bins[i]!.misfit < best.misfit) best = bins[i]!
  return best
}

/** Of all bins that are left the least progress on the cold line, the most on the warm, the likeliest's expected. */
export function progressOf(bins: readonly LagBin[], i: number): number {
  const line = i % LINES.length
  if (line === 1) return likeliest(bins).progress[i]!
  let worst = bins[0]!.progress[i]!
  for (let b = 1; b < bins.length; b++) {
    const value = bins[b]!.progress[i]!
    if (line === 0 ? value < worst : value > worst) worst = value
  }
  return worst
}

/** When the figure passed one: on the cold line in the last of the bins, on the warm in the first; else null. */
export function reachedOf(bins: readonly LagBin[], i: number): number | null {
  const line = i % LINES.length
  if (line === 1) return likeliest(bins).reachedAtMs[i]!
  let found: number | null = null
  for (const bin of bins) {
    const at = bin.reachedAtMs[i]!
    if (at === null) {
      if (line === 0) return null
    } else if (found === null || (line === 0 ? at > found : at < found)) found = at
  }
  return found
}

/** Coldest and warmest that the metal may be, and what is expected. */
export function panelOf(bins: readonly LagBin[]): Triple {
  let [cold, warm] = [Infinity, -Infinity]
  for (const { panelC } of bins) {
    cold = Math.min(cold, panelC[0])
    warm = Math.max(warm, panelC[2])
  }
  return [cold, likeliest(bins).panelC[1], warm]
}

/** Minutes of a span that come after the application. */
export function minutesAfter(appliedAtMs: number, fromMs: number, toMs: number): number {
  return Math.max(0, toMs - Math.max(fromMs, appliedAtMs)) / MS_PER_MINUTE
}

/** Curves of the three lines: what is not published counts against us on the outer two. */
export type LineCurves = readonly [
  careful: readonly RateCurve[],
  expected: readonly RateCurve[],
  hasty: readonly RateCurve[],
]
