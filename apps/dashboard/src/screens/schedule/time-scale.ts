import { DateTime } from 'luxon'

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
  const start = DateTime.fromISO(firstDay, { zone }).startOf('day')
  return { startMs: start.toMillis(), endMs: start.plus({ days }).toMillis() }
}

/** Marks at each day and every `hours` local hours between: what the shop's wall clock says there. */
export function ticksOf({ startMs, endMs }: Span, hours: number, zone: string): readonly Tick[] {
  const ticks: Tick[] = []
  for (
    let day = DateTime.fromMillis(startMs, { zone });
    day.toMillis() < endMs;
    day = day.plus({ days: 1 }).startOf('day')
  ) {
    const next = day.plus({ days: 1 }).startOf('day').toMillis()
    ticks.push({ atMs: day.toMillis(), label: day.setLocale('en').toFormat('ccc d LLL'), isDay: true })
    for (let hour = hours; hour < 24; hour += hours) {
      const at = day.set({ hour })
      // An hour that the spring change skips comes out as the next one, which has its own mark.
      if (at.hour === hour && at.toMillis() < next)
        ticks.push({ atMs: at.toMillis(), label: at.toFormat('HH:mm'), isDay: false })
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
