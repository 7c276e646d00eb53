import type { Range } from '@clampclock/quantities'
import type { Milestone } from '../sheet/data-sheet.ts'
import type { ReadingSource } from './reading.ts'

/** What a reader must know beside the figures. Instants in ms, temperatures in degC. */
export type EstimateNote =
  /**
   * No reading for longer than the source's stale limit: the cautious line took the colder end minus
   * `marginC`.
   */
  | {
      readonly kind: 'gapBridged'
      readonly fromMs: number
      readonly toMs: number
      readonly limitMinutes: number
      readonly marginC: number
    }
  /**
   * The last reading is older than its stale limit: the cautious line took it (or the forecast) minus
   * `marginC`.
   */
  | {
      readonly kind: 'staleTemperature'
      readonly fromMs: number
      readonly toMs: number
      readonly source: ReadingSource
      readonly limitMinutes: number
      readonly marginC: number
    }
  /** No reading at all by now: nothing is known, so nothing is promised. */
  | { readonly kind: 'noTemperature' }
  /** Nothing said about the time from now on: only what has been reached already is given. */
  | { readonly kind: 'noForecast'; readonly fromMs: number }
  /** The forecast ends before this milestone is reached on the line named. */
  | { readonly kind: 'forecastEnds'; readonly toMs: number; readonly milestones: readonly Milestone[] }
  /** Readings stamped later than now were left out. */
  | { readonly kind: 'readingsAfterNow'; readonly count: number }
  /** Readings in doubt: they may only delay. */
  | { readonly kind: 'suspectReadings'; readonly count: number }
  /** Entered long after it is said to have been applied: the careful line counts from later. */
  | { readonly kind: 'toldLate'; readonly appliedAtMs: number; readonly countsFromMs: number }
  /** How fast the panel follows bay air is not known: on the outer lines it may be anything plausible. */
  | { readonly kind: 'panelLagUnknown' }
  /**
   * No time constant explains this metal reading: something else warmed or cooled it. The time before counted at the
   * coldest of everything, on the cautious line.
   */
  | { readonly kind: 'metalNotFollowingAir'; readonly atMs: number; readonly temperatureC: number }
  /**
   * The air at the joint was read as `jointC` while the bay's thermometer said `bayC`, which their accuracies do not
   * explain: the cautious line takes the warmer one to read too warm.
   */
  | {
      readonly kind: 'airAtJointApart'
      readonly atMs: number
      readonly jointC: number
      readonly bayC: number
    }
  /**
   * The thermometer that read the metal was held against no other: what it read may delay, never hasten, so that the metal is
   * taken to have come in as cold as adhesive may be put on. With it borne out the joint may be ready at `ifProvenAtMs`.
   */
  | { readonly kind: 'metalUnproven'; readonly ifProvenAtMs?: number }
  /**
   * The air at the joint is what the bay's thermometer shows, which bears nothing out: on the cautious line the air warms the
   * metal no further than the metal was measured to come, `byC` below what it reads.
   */
  | { readonly kind: 'airUnproven'; readonly byC: number; readonly ifProvenAtMs?: number }
  /** No metal reading to start from: the panel is taken to have been at bay temperature. */
  | { readonly kind: 'panelStartAssumed'; readonly atMs: number; readonly temperatureC: number }
  /** Colder than the lowest cure temperature on the cautious line: no credit between the two instants. */
  | { readonly kind: 'stalled'; readonly fromMs: number; readonly toMs: number; readonly lowestCureC: number }
  /** Warmer than the highest cure temperature as expected: no more credit than at it. */
  | { readonly kind: 'capped'; readonly fromMs: number; readonly toMs: number; readonly highestCureC: number }
  /**
   * Temperatures outside the published points counted: that part of the curve is continued, not published.
   */
  | {
      readonly kind: 'extrapolated'
      readonly milestones: readonly Milestone[]
      readonly countedC: Range
      readonly publishedC: Range
    }
  /** The sheet has one point: its slope is the rule that cure doubles in speed per 10 degC. */
  | { readonly kind: 'estimatedFromDoublingRule'; readonly publishedC: number }
  /** Warmer or colder than the cured joint is rated for, on the line that reaches furthest. */
  | {
      readonly kind: 'outsideServiceRange'
      readonly atMs: number
      readonly temperatureC: number
      readonly serviceRangeC: Range
    }

type Interval = Extract<EstimateNote, { readonly kind: 'stalled' | 'capped' }>

/** Adds an interval, or lengthens the last of its kind when it goes straight on. */
export function withInterval(notes: readonly EstimateNote[], note: Interval): readonly EstimateNote[] {
  const at = notes.findLastIndex((other) => other.kind === note.kind)
  const last = notes[at]
  if (last !== undefined && 'toMs' in last && last.toMs >= note.fromMs - 1) {
    return notes.with(at, { ...note, fromMs: (last as Interval).fromMs })
  }
  return [...notes, note]
}
