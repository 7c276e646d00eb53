import type { DataSheet } from '../sheet/data-sheet.ts'
import type { EstimateNote } from '../readings/notes.ts'
import type { Reading } from '../readings/reading.ts'
import type { LagBin, LineCurves } from './bins.ts'
import type { PlaceLimits } from './place.ts'

/**
 * Where a bond stood at its last reading: plain data, so it can be stored and taken up again. Adding a
 * reading costs the same however long the bond has been curing.
 */
export interface ProgressState {
  readonly sheet: DataSheet
  readonly curves: LineCurves
  readonly appliedAtMs: number
  readonly panelTauMinutes: number | null
  readonly place: PlaceLimits
  readonly lastReading: Reading | null
  readonly readings: number
  /** The last reading of the bay's air; null as long as nobody has read it: then the metal's own readings are joined. */
  readonly air: Reading | null
  /** The last reading of the metal. */
  readonly metal: Reading | null
  /** Up to here the bins are led; null before any reading. */
  readonly atMs: number | null
  /** Readings since, which wait for the next of the air. */
  readonly pending: readonly Reading[]
  /** How fast the metal follows the air: what no reading has ruled out. */
  readonly bins: readonly LagBin[]
  /** Where all stood when the metal was last measured. */
  readonly mark: Mark | null
  /** Counts how often readings left no bin, and all came back. */
  readonly epoch: number
  /** Coldest and warmest temperature that has counted towards each figure, degC; null before any has. */
  readonly countedC: readonly (readonly [coldest: number, warmest: number] | null)[]
  readonly notes: readonly EstimateNote[]
  /**
   * The same bond with every suspect reading reckoned with; null as long as there is none. Only the colder of the
   * two counts on the cold line, only the warmer on the warm one.
   */
  readonly doubted: ProgressState | null
}

/** Where all bins stood when the metal was last measured, and what they went through since: by milestone. */
export interface Mark {
  readonly atMs: number
  /** False where nobody has measured it yet: then its start was assumed. */
  readonly isMeasured: boolean
  readonly lowC: number
  readonly highC: number
  /** Least and most progress of all bins at the mark. */
  readonly cold: readonly number[]
  readonly warm: readonly number[]
  /** Coldest and warmest of any bin since. */
  readonly coldestC: number
  readonly warmestC: number
}

/** Takes a picture of the bins at every step, for whoever draws them. */
export interface Sampler {
  readonly stepMs: number
  readonly take: (running: RunningProgress, atMs: number) => void
}

/** A state in the making; `addReadings` and `estimateBond` work on their own copy. */
export interface RunningProgress extends ProgressState {
  lastReading: Reading | null
  readings: number
  air: Reading | null
  metal: Reading | null
  atMs: number | null
  pending: Reading[]
  bins: LagBin[]
  mark: Mark | null
  epoch: number
  countedC: (readonly [number, number] | null)[]
  notes: readonly EstimateNote[]
  doubted: ProgressState | null
  sampler?: Sampler
  /** Only the cold line is asked for from here on. */
  coldOnly?: boolean
  /** Bins need not be led beyond a milestone they have passed. */
  stopsAtOne?: boolean
}
