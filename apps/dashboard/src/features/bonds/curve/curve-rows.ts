import { celsiusToFahrenheit } from '@clampclock/quantities'
import { weekdayText } from '@clampclock/messages'
import { reader } from '../../../lib/reader.ts'
import type { BondCurve } from '../../../api/types.ts'
import { formatMs, isMidnight } from '../../../lib/instants.ts'
import { atWall, startOfDay, wallTime } from '@clampclock/quantities'

type Three = { readonly earliest: number; readonly expected: number; readonly conservative: number }

/** One instant of the plot: temperatures in the reader's unit, progress in percent of handling strength. */
export interface CurveRow {
  readonly atMs: number
  readonly band: readonly [low: number, high: number]
  readonly metal: number
  readonly progress: Three
}

export function curveRows({ points }: Pick<BondCurve, 'points'>, unit: 'C' | 'F'): readonly CurveRow[] {
  const degrees = (c: number) => (unit === 'F' ? celsiusToFahrenheit(c) : c)
  return points.map(({ at, lowC, expectedC, highC, progress }) => ({
    atMs: Date.parse(at),
    band: [degrees(lowC), degrees(highC)],
    metal: degrees(expectedC),
    progress: {
      earliest: progress.earliest * 100,
      expected: progress.expected * 100,
      conservative: progress.conservative * 100,
    },
  }))
}

/**
 * The row at an instant, on the straight line between its neighbours; undefined outside the curve. Where two rows
 * share the instant, the later one counts: it is what was measured.
 */
export function rowAt(rows: readonly CurveRow[], atMs: number): CurveRow | undefined {
  const before = rows.findLast((row) => row.atMs <= atMs)
  if (before === undefined || before.atMs === atMs) return before
  const after = rows.find((row) => row.atMs > atMs)
  if (after === undefined) return undefined
  const share = (atMs - before.atMs) / (after.atMs - before.atMs)
  const between = (a: number, b: number) => a + (b - a) * share
  return {
    atMs,
    band: [between(before.band[0], after.band[0]), between(before.band[1], after.band[1])],
    metal: between(before.metal, after.metal),
    progress: {
      earliest: between(before.progress.earliest, after.progress.earliest),
      expected: between(before.progress.expected, after.progress.expected),
      conservative: between(before.progress.conservative, after.progress.conservative),
    },
  }
}

const STEPS_MINUTES = [5, 10, 15, 30, 60, 120, 180, 360, 720, 1440] as const
const DAY_MINUTES = 1440

/** Round times of the shop's wall clock within a span, `most` of them at most while a day lies between two. */
export function clockTicks(fromMs: number, toMs: number, zone: string, most: number): readonly number[] {
  const spanMinutes = (toMs - fromMs) / 60_000
  const least = STEPS_MINUTES.find((minutes) => spanMinutes / minutes <= most)
  const days = Math.max(1, Math.ceil(spanMinutes / DAY_MINUTES / most))
  const step = least ?? DAY_MINUTES
  const ticks: number[] = []
  for (
    let dayMs = startOfDay(fromMs, zone);
    dayMs <= toMs;
    dayMs = startOfDay(dayMs, zone, least === undefined ? days : 1)
  ) {
    const { year, month, day } = wallTime(dayMs, zone)
    for (let minute = 0; minute < DAY_MINUTES; minute += step) {
      // By the wall clock, not by adding minutes: a day of 23 hours has round times too.
      const atMs = atWall({ year, month, day, minute }, zone)
      if (atMs >= fromMs && atMs <= toMs && ticks.at(-1) !== atMs) ticks.push(atMs)
    }
  }
  return ticks
}

/** A tick of the axis: the clock, or the day at midnight. */
export function tickLabel(atMs: number, zone: string): string {
  if (!isMidnight(atMs, zone)) return formatMs(atMs, zone, 'clock')
  const { weekday, day } = wallTime(atMs, zone)
  return `${weekdayText(reader().language, weekday)} ${day}`
}
