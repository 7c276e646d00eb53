/** A bay's air, minute by minute, by a small building of its own: nothing of packages/cure is used here. */
import { between, type Random } from './random.ts'

const MINUTES_PER_DAY = 1440

export interface Weather {
  /** The heating fails this many minutes after the bond is made; Infinity where it does not. */
  readonly failsAfterMinutes: number
  /** Outdoors falls by so much within some hours of that. */
  readonly snapC: number
}

export interface Place {
  /** Air by minutes since the start of the history. */
  readonly airC: Float64Array
  readonly bondAtMinute: number
}

/**
 * One node: a building that follows outdoors with a time constant of hours and is heated to a set point by day, to
 * a lower one by night, with power that has a limit. Doors open now and then.
 */
export function placeOf(random: Random, historyDays: number, days: number, weather: Weather): Place {
  const minutes = Math.round((historyDays + days) * MINUTES_PER_DAY)
  const bondAtMinute = Math.round(historyDays * MINUTES_PER_DAY + between(random, 7 * 60, 18 * 60))
  const buildingTau = between(random, 180, 720)
  const outdoorMeanC = between(random, -2, 14)
  const swingC = between(random, 2, 6)
  const isHeated = random() < 0.75
  const [dayC, nightC] = [between(random, 17, 23), between(random, 14, 18)]
  const gainC = isHeated ? 0 : between(random, 6, 12)
  const powerCPerMinute = between(random, 0.05, 0.15)
  const airC = new Float64Array(minutes)
  let front = 0
  let c = isHeated ? nightC : outdoorMeanC + gainC
  let doorUntil = -1
  for (let i = 0; i < minutes; i++) {
    front += between(random, -0.05, 0.05) - front * 0.0004
    const hour = (i / 60) % 24
    const sinceFailure = i - bondAtMinute - weather.failsAfterMinutes
    const snapC = sinceFailure > 0 ? -weather.snapC * Math.min(1, sinceFailure / 360) : 0
    const outdoorC = outdoorMeanC + front * 4 + snapC + swingC * Math.sin(((hour - 9) / 24) * 2 * Math.PI)
    if (hour > 7 && hour < 18 && random() < 1 / 300) doorUntil = i + between(random, 3, 15)
    const tau = i < doorUntil ? 60 : buildingTau
    c += (outdoorC + gainC - c) / tau
    const target = hour >= 6 && hour < 19 ? dayC : nightC
    if (isHeated && !(sinceFailure > 0) && c < target) c += Math.min(powerCPerMinute, target - c)
    airC[i] = c
  }
  return { airC, bondAtMinute }
}
