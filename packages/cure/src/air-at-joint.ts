import { MS_PER_MINUTE } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C } from './data-sheet.ts'
import type { EstimateNote } from './notes.ts'
import type { ForecastPoint, Reading } from './reading.ts'
import { readingBand } from './temperature-line.ts'

/** What the air at the joint was read as by hand when the adhesive went on: the one look at the bay's thermometer by another. */
export interface AirAtJoint {
  readonly atMs: number
  readonly temperatureC: number
  /** Of the thermometer that it was read with, degC. */
  readonly accuracyC: number
  /** The thermometer that the panel is read with may have read it: then it was held against the bay's as well. */
  readonly isByPanelThermometer: boolean
}

/** A reading of the metal; which thermometer it was by. */
export interface MetalReading extends Reading {
  readonly isByPanelThermometer: boolean
}

export interface Compared {
  readonly air: readonly Reading[]
  readonly metal: readonly Reading[]
  readonly forecast: readonly ForecastPoint[]
  /** Null where the two can both be right, or where there was nothing to compare. */
  readonly note: Extract<EstimateNote, { readonly kind: 'airAtJointApart' }> | null
}

/** Further apart in time than this they were not of the same air, minutes. Common practice, no source. */
const TOGETHER_MINUTES = 30

/** What a hand thermometer is good for where nobody says, degC. Common practice, no source. */
export const HAND_AIR_ACCURACY_C = 1

/**
 * How far the bay's thermometer read above the air at the joint (below: negative), degC, where their accuracies do not
 * explain it; 0 where they do, null where the bay's did not read within half an hour. Of the readings right before and
 * after the nearer one counts: a door may have opened between.
 *
 * @param air of the bay, by time, suspect ones left out of account.
 */
export function apartAtJoint(air: readonly Reading[], joint: AirAtJoint): number | null {
  const around = air.filter(
    ({ atMs, suspect }) => !suspect && Math.abs(atMs - joint.atMs) <= TOGETHER_MINUTES * MS_PER_MINUTE,
  )
  const before = around.findLast(({ atMs }) => atMs <= joint.atMs)
  const after = around.find(({ atMs }) => atMs > joint.atMs)
  let nearest: number | null = null
  for (const reading of [before, after]) {
    if (!reading) continue
    const apartC = apart(reading, joint)
    if (nearest === null || Math.abs(apartC) < Math.abs(nearest)) nearest = apartC
  }
  return nearest
}

function apart(reading: Reading, { temperatureC, accuracyC }: AirAtJoint): number {
  const [low, , high] = readingBand(reading)
  if (low > temperatureC + accuracyC) return low + reading.accuracyC - temperatureC
  if (high < temperatureC - accuracyC) return high - reading.accuracyC - temperatureC
  return 0
}

/**
 * Where the bay's thermometer and the one at the joint cannot both be right, nobody knows which is: all that was read
 * by the warmer of them may have been as far too warm, on the cold line, and all that was read by the colder one as
 * far too cold, on the warm line. The lines only get further apart by it. What is forecast was learned from the bay's.
 */
export function comparedAtJoint(
  air: readonly Reading[],
  metal: readonly MetalReading[],
  joint: AirAtJoint,
  forecast: readonly ForecastPoint[] = [],
): Compared {
  const apartC = apartAtJoint(air, joint) ?? 0
  if (apartC === 0) return { air, metal, forecast, note: null }
  const { atMs, temperatureC: jointC, isByPanelThermometer } = joint
  const [airSide, metalSide] = apartC > 0 ? (['low', 'high'] as const) : (['high', 'low'] as const)
  const byC = Math.abs(apartC)
  return {
    air: air.map((reading) => widened(reading, airSide, byC)),
    metal: metal.map((reading) =>
      isByPanelThermometer && reading.isByPanelThermometer ? widened(reading, metalSide, byC) : reading,
    ),
    forecast: forecast.map((point) =>
      airSide === 'low'
        ? { ...point, lowC: Math.max(PLAUSIBLE_TEMPERATURE_C.min, point.lowC - byC) }
        : { ...point, highC: Math.min(PLAUSIBLE_TEMPERATURE_C.max, point.highC + byC) },
    ),
    note: { kind: 'airAtJointApart', atMs, jointC, bayC: jointC + apartC },
  }
}

function widened(reading: Reading, side: 'low' | 'high', byC: number): Reading {
  const [low, , high] = readingBand(reading)
  const { min, max } = PLAUSIBLE_TEMPERATURE_C
  return side === 'low'
    ? { ...reading, lowC: Math.max(min, low - byC), highC: Math.min(max, high) }
    : { ...reading, lowC: Math.max(min, low), highC: Math.min(max, high + byC) }
}
