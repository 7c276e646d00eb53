import type { Milestone } from '../sheet/data-sheet.ts'
import type { EstimateNote } from '../readings/notes.ts'
import type { Basis } from '../sheet/rate-curve.ts'

export type ReadyInstant =
  | { readonly kind: 'at'; readonly atMs: number }
  /**
   * `tooCold`: no progress at all in sight. `beyondForecast`: later than the forecast reaches.
   * `noTemperature`: nothing to go by.
   */
  | { readonly kind: 'never'; readonly reason: 'tooCold' | 'beyondForecast' | 'noTemperature' }

/** One value for each line: sensors and forecast on their warm side, as they are, on their cold side. */
export interface ThreeLines<T> {
  readonly earliest: T
  readonly expected: T
  readonly conservative: T
}

export interface MilestoneEstimate {
  readonly milestone: Milestone
  /** Fraction reached at `nowMs`; goes on past one. */
  readonly progress: ThreeLines<number>
  readonly readyAt: ThreeLines<ReadyInstant>
  /** The weakest basis that any of the three figures rests on. */
  readonly basis: Basis
}

export interface BondEstimate {
  /** Here the *earliest* is the cautious one: the joint must be closed by then. */
  readonly workTime: MilestoneEstimate
  /** Here, as for full cure, the *conservative* is: the job may be moved from then on. */
  readonly handlingStrength: MilestoneEstimate
  readonly fullCure: MilestoneEstimate
  readonly notes: readonly EstimateNote[]
}

/** One instant of a bond as it is drawn. */
export interface BondCurvePoint {
  readonly atMs: number
  /** The panel, degC. */
  readonly temperatureC: { readonly low: number; readonly expected: number; readonly high: number }
  readonly progress: ThreeLines<number>
}
