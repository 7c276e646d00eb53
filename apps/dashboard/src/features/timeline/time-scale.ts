import { dayStart, formatMs } from '../../lib/instants.ts'
import { reader } from '../../lib/reader.ts'
import { atWall, startOfDay, wallTime } from '@clampclock/quantities'

/** A stretch of a shop's calendar: whole local days, so a day of the clock change is 23 or 25 h long. */
export interface Span {
  readonly startMs: number
  readonly endMs: number
}

export interface Tick {
  readonly atMs: number
  readonly label: string
  /** The first of a day; the label is then the day. */
  readonly isDay: boolean
}

export function spanOf(firstDay: string, days: number, zone: string): Span {
  return { startMs: dayStart(firstDay, zone), endMs: dayStart(firstDay, zone, days) }
}

/**
 * Marks at each day and every `every` local hours between: what the shop's wall clock says there. With am and pm, which
 * take twice the room, half as many.
 */
export function ticksOf({ startMs, endMs }: Span, every: number, zone: string): readonly Tick[] {
  const ticks: Tick[] = []
  const hours = reader().clock === '12h' ? every * 2 : every
  for (let dayMs = startMs; dayMs < endMs; dayMs = startOfDay(dayMs, zone, 1)) {
    const { year, month, day } = wallTime(dayMs, zone)
    ticks.push({ atMs: dayMs, label: formatMs(dayMs, zone, 'day'), isDay: true })
    for (let hour = hours; hour < 24; hour += hours) {
      const atMs = atWall({ year, month, day, hour }, zone)
      // An hour that the spring change skips comes out as the next one, which has its own mark.
      if (wallTime(atMs, zone).hour === hour)
        ticks.push({ atMs, label: formatMs(atMs, zone, 'clock'), isDay: false })
    }
  }
  return ticks
}

export interface Place {
  /** Share of the span before the start and between start and end, both 0 to 1. */
  readonly left: number
  readonly width: number
}

/** Where a period lies in the span; undefined when it lies outside. */
export function placeIn({ startMs, endMs }: Span, fromMs: number, toMs: number): Place | undefined {
  const from = Math.max(fromMs, startMs)
  const to = Math.min(toMs, endMs)
  if (to <= from) return undefined
  const length = endMs - startMs
  return { left: (from - startMs) / length, width: (to - from) / length }
}

export function percent(share: number): string {
  return `${(share * 100).toFixed(3)}%`
}
