import type { PastTemperature } from '../temperature/forecast-grid.ts'

/**
 * How far the air of a place may fall, and rise, while nobody measures: degC by whole hours of silence, from 0 on.
 * Plain data. Between hours it goes straight on, beyond the last hour it stays.
 */
export interface PlaceLimits {
  readonly fallC: readonly number[]
  readonly riseC: readonly number[]
}

/** The tables go this far. */
export const HOURS = 24
const MS_PER_HOUR = 3_600_000
/** Readings further apart than this do not tell what was between them, hours. */
const LONGEST_STEP_HOURS = 2
/** A place is judged by its own past from this much of it on, days. */
const ENOUGH_DAYS = 7
/** What a fall that was seen may be exceeded by: three weeks have not seen everything. Common practice, no source. */
const UNSEEN_SHARE = 1.25

/**
 * The heating fails in a cold snap, or a door stays open: 4 degC in the first hour, 3 in each of the next five, then 1
 * an hour. It may happen tonight for the first time, so a place's own past only ever adds to it. Common practice, no
 * source.
 */
function failingHeatC(hours: number): number {
  if (hours <= 1) return 4 * hours
  return 4 + 3 * Math.min(hours - 1, 5) + Math.max(0, hours - 6)
}

/** Heating comes on with full power, the sun comes in: 6 degC in the first hour, then 3 an hour. Common practice. */
function heatingUpC(hours: number): number {
  return hours <= 1 ? 6 * hours : 6 + 3 * (hours - 1)
}

const byHour = (value: (hours: number) => number): number[] =>
  Array.from({ length: HOURS + 1 }, (_, hour) => value(hour))

/** For a place of which nothing is known. */
export const UNKNOWN_PLACE: PlaceLimits = { fallC: byHour(failingHeatC), riseC: byHour(heatingUpC) }

/**
 * The largest fall and rise of a place's air over each length of time, by its own readings and never less than
 * what failing heat, or heating up, can do.
 *
 * @param past sorted by time.
 */
export function limitsOfPlace(past: readonly PastTemperature[]): PlaceLimits {
  const first = past[0]
  const last = past.at(-1)
  if (!first || !last || last.atMs - first.atMs < ENOUGH_DAYS * 24 * MS_PER_HOUR) return UNKNOWN_PLACE
  const fallC = [...UNKNOWN_PLACE.fallC]
  const riseC = [...UNKNOWN_PLACE.riseC]
  const hourly = hourlyExtremes(past, first.atMs)
  for (let hour = 1; hour <= HOURS; hour++) {
    for (let i = 0; i + hour < hourly.length; i++) {
      const [from, to] = [hourly[i], hourly[i + hour]]
      if (from === undefined || to === undefined) continue
      fallC[hour] = Math.max(fallC[hour]!, UNSEEN_SHARE * (from.highestC - to.lowestC))
      riseC[hour] = Math.max(riseC[hour]!, UNSEEN_SHARE * (to.highestC - from.lowestC))
    }
  }
  for (let hour = 1; hour <= HOURS; hour++) {
    fallC[hour] = Math.max(fallC[hour]!, fallC[hour - 1]!)
    riseC[hour] = Math.max(riseC[hour]!, riseC[hour - 1]!)
  }
  return { fallC, riseC }
}

interface Extremes {
  highestC: number
  lowestC: number
}

/** Highest and lowest in each hour; undefined where nothing was read for longer than a step. */
function hourlyExtremes(past: readonly PastTemperature[], startMs: number): (Extremes | undefined)[] {
  const hours: (Extremes | undefined)[] = []
  const add = (hour: number, c: number): void => {
    const kept = (hours[hour] ??= { highestC: c, lowestC: c })
    kept.highestC = Math.max(kept.highestC, c)
    kept.lowestC = Math.min(kept.lowestC, c)
  }
  for (const [i, { atMs, temperatureC }] of past.entries()) {
    const at = (atMs - startMs) / MS_PER_HOUR
    add(Math.floor(at), temperatureC)
    const before = past[i - 1]
    if (!before) continue
    const since = (before.atMs - startMs) / MS_PER_HOUR
    if (at - since > LONGEST_STEP_HOURS) continue
    for (let hour = Math.floor(since) + 1; hour < at; hour++) {
      const c = before.temperatureC + ((temperatureC - before.temperatureC) * (hour - since)) / (at - since)
      add(hour, c)
    }
  }
  return hours
}

/** Value of a table by whole hours after `minutes`. */
export function afterMinutes(byHours: readonly number[], minutes: number): number {
  const hours = minutes / 60
  const low = Math.floor(hours)
  if (low >= byHours.length - 1) return byHours.at(-1)!
  return byHours[low]! + (hours - low) * (byHours[low + 1]! - byHours[low]!)
}
