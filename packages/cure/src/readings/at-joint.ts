import type { EstimateNote } from './notes.ts'
import type { ForecastPoint, Reading } from './reading.ts'

/** The air, read by hand. */
export interface AirRead {
  readonly atMs: number
  readonly temperatureC: number
  /** Of the thermometer that it was read with, degC. */
  readonly accuracyC: number
}

/** What the air at the joint was read as by hand when the adhesive went on: the one look at the bay's thermometer by another. */
export interface AirAtJoint extends AirRead {
  /** The thermometer that the panel is read with may have read it: then it was held against the bay's as well. */
  readonly isByPanelThermometer: boolean
  /** The coldest metal that the adhesive may be put on, degC. */
  readonly coldestMetalC: number
  /** A hand thermometer was held against the bay's at another joint of late, and the two agreed. */
  readonly isBayBorneOut?: boolean
}

/** A reading of the metal; which thermometer it was by. */
export interface MetalReading extends Reading {
  readonly isByPanelThermometer: boolean
  /** This instrument was held against the bay's thermometer at another joint of late, and the two agreed. */
  readonly isBorneOut?: boolean
}

export interface Compared {
  readonly air: readonly Reading[]
  readonly metal: readonly MetalReading[]
  readonly forecast: readonly ForecastPoint[]
  /** What does not agree, and what nothing bears out. */
  readonly notes: readonly EstimateNote[]
}
