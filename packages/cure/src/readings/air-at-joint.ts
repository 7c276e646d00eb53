import { MS_PER_MINUTE } from '@clampclock/quantities'
import type { AirAtJoint, AirRead, Compared, MetalReading } from './at-joint.ts'
import { provenOnly } from './proof.ts'
import type { ForecastPoint, Reading } from './reading.ts'
import { readingBand } from './temperature-line.ts'
import { widened, widenedForecast } from './widened.ts'

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
export function apartAtJoint(air: readonly Reading[], joint: AirRead): number | null {
  const nearest = nearestAtJoint(air, joint)
  if (nearest === null) return null
  return Math.abs(nearest.apartC) > nearest.accuracyC + joint.accuracyC ? nearest.apartC : 0
}

interface Nearest {
  /** The bay's thermometer above the air at the joint, degC. */
  readonly apartC: number
  readonly accuracyC: number
  /** Of one thermometer: where several hang in the bay they bear one another out. */
  readonly isOfOne: boolean
}

/** The reading of the bay's air that is nearest to what was read at the joint. */
function nearestAtJoint(air: readonly Reading[], joint: AirRead): Nearest | null {
  const around = air.filter(
    ({ atMs, suspect }) => !suspect && Math.abs(atMs - joint.atMs) <= TOGETHER_MINUTES * MS_PER_MINUTE,
  )
  const before = around.findLast(({ atMs }) => atMs <= joint.atMs)
  const after = around.find(({ atMs }) => atMs > joint.atMs)
  return [before, after]
    .flatMap((reading): Nearest[] => {
      if (!reading) return []
      const { accuracyC, lowC } = reading
      return [{ apartC: apart(reading, joint), accuracyC, isOfOne: lowC === undefined }]
    })
    .reduce<Nearest | null>(
      (nearest, one) => (nearest && Math.abs(nearest.apartC) <= Math.abs(one.apartC) ? nearest : one),
      null,
    )
}

/** Of two thermometers of the bay that disagree the one that is nearer: it may be right. */
function apart(reading: Reading, { temperatureC }: AirRead): number {
  const [low, , high] = readingBand(reading)
  const [coldest, warmest] = [low + reading.accuracyC, high - reading.accuracyC]
  return Math.max(0, coldest - temperatureC) + Math.min(0, warmest - temperatureC)
}

/** Neither of the two repeats itself better than this, degC: far nearer than it is to the truth. Common practice, no source. */
const REPEATS_C = 0.4

/**
 * How much of a difference counts against the warmer of the two, degC: all of what the accuracies do not explain. Two honest
 * instruments are seldom further apart than one of them is good for, so from there on it begins to count, and grows to
 * the whole where the accuracies end: a lie that is just small enough to be explained by them is covered all the same.
 */
function countedC(apartC: number, accuracyC: number, jointAccuracyC: number): number {
  const [from, to] = [Math.max(accuracyC, jointAccuracyC), accuracyC + jointAccuracyC]
  const farC = Math.abs(apartC)
  if (farC <= from) return 0
  return (farC + REPEATS_C) * Math.min(1, (farC - from) / (to - from))
}

/**
 * Where the bay's thermometer and the one at the joint cannot both be right, nobody knows which is: all that was read
 * by the warmer of them may have been as far too warm, on the cold line, and all that was read by the colder one as
 * far too cold, on the warm line. The lines only get further apart by it. What is forecast was learned from the bay's.
 * What nothing was held against is treated after that (proof.ts).
 */
export function comparedAtJoint(
  air: readonly Reading[],
  metal: readonly MetalReading[],
  joint: AirAtJoint,
  forecast: readonly ForecastPoint[] = [],
): Compared {
  const nearest = nearestAtJoint(air, joint)
  if (nearest === null) return heldAgainstNothing({ air, metal, forecast, notes: [] }, joint)
  const { apartC, accuracyC } = nearest
  const byC = countedC(apartC, accuracyC, joint.accuracyC)
  const told = apartAtJoint(air, joint) ?? 0
  const { atMs, temperatureC: jointC } = joint
  const [airSide, metalSide] = apartC > 0 ? (['low', 'high'] as const) : (['high', 'low'] as const)
  const taken: Compared = {
    air: air.map((reading) => widened(reading, airSide, byC)),
    metal: metal.map((reading) =>
      joint.isByPanelThermometer && reading.isByPanelThermometer ? widened(reading, metalSide, byC) : reading,
    ),
    forecast: widenedForecast(forecast, airSide, byC),
    notes: told === 0 ? [] : [{ kind: 'airAtJointApart', atMs, jointC, bayC: jointC + told }],
  }
  return provenOnly(taken, joint, nearest.isOfOne ? apartC : null)
}

/**
 * The bay's thermometer was silent when the air was read by hand: so that bears out neither of them. Where all that it says
 * is in doubt, the thermometer that read the air is what is left to go by, and no other: to doubt the bay's makes a probe
 * that nothing was held against no better. A bay without any has nothing to hold a probe against, and goes by it.
 */
function heldAgainstNothing(compared: Compared, joint: AirAtJoint): Compared {
  if (compared.air.length === 0) return compared
  const isInDoubt = compared.air.every(({ suspect }) => suspect)
  return provenOnly(compared, isInDoubt ? joint : { ...joint, isByPanelThermometer: false }, null)
}
