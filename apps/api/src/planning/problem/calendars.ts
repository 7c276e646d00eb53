import { DateTime } from 'luxon'
import type { ExceptionFact, ShiftFact, ShopFacts } from './facts.ts'
import { clip, union, without, type Interval } from './intervals.ts'

/** When somebody or something works, in minutes from the origin. */
export interface WorkingTime {
  readonly shifts: readonly Interval[]
  /** Outside the shifts, for work that is planned in overtime. */
  readonly overtime: readonly Interval[]
}

type ClockFacts = Pick<ShopFacts, 'timeZone' | 'originMs' | 'horizonMinutes' | 'shifts' | 'exceptions'>

/**
 * The working time of one person, or of the shop (`resourceId` null), over the horizon. Shifts are times of the shop's
 * clock, so on the day of a clock change a shift that spans it is an hour shorter or longer; a time that the spring
 * change skips counts as the instant of the change. Overtime counts on closed days too, but nobody works while absent.
 */
export function workingTime(facts: ClockFacts, resourceId: string | null): WorkingTime {
  const own = facts.shifts.filter((shift) => shift.resourceId === resourceId)
  const week = own.length > 0 ? own : facts.shifts.filter((shift) => shift.resourceId === null)
  const away = absences(facts, resourceId)
  const closed = exceptionIntervals(facts, ({ kind }) => kind === 'closed')
  const shifts = without(weekIntervals(facts, week), [...closed, ...away])
  const extra = exceptionIntervals(
    facts,
    (each) => each.kind === 'overtime' && (each.resourceId === null || each.resourceId === resourceId),
  )
  return { shifts, overtime: without(extra, [...shifts, ...away]) }
}

/** When one resource is out of use, or one person away. */
export function absences(facts: ClockFacts, resourceId: string | null): Interval[] {
  if (resourceId === null) return []
  return exceptionIntervals(facts, (each) => each.kind === 'absent' && each.resourceId === resourceId)
}

function weekIntervals(facts: ClockFacts, week: readonly ShiftFact[]): Interval[] {
  return within(
    facts,
    daysOf(facts).flatMap((day) =>
      week
        .filter(({ weekday }) => weekday === day.weekday)
        .map(({ fromMinute, untilMinute }): Interval => [
          minuteAt(facts, day, fromMinute),
          minuteAt(facts, day, untilMinute),
        ]),
    ),
  )
}

function exceptionIntervals(facts: ClockFacts, wanted: (each: ExceptionFact) => boolean): Interval[] {
  const days = daysOf(facts)
  return within(
    facts,
    facts.exceptions
      .filter(wanted)
      .flatMap(({ firstDay, lastDay, fromMinute, untilMinute }) =>
        days
          .filter((day) => firstDay <= day.toISODate()! && day.toISODate()! <= lastDay)
          .map((day): Interval => [
            minuteAt(facts, day, fromMinute ?? 0),
            minuteAt(facts, day, untilMinute ?? 1440),
          ]),
      ),
  )
}

function within({ horizonMinutes }: ClockFacts, intervals: readonly Interval[]): Interval[] {
  return clip(union(intervals), [0, horizonMinutes])
}

function daysOf({ originMs, horizonMinutes, timeZone }: ClockFacts): DateTime[] {
  const first = DateTime.fromMillis(originMs, { zone: timeZone }).startOf('day')
  const end = originMs + horizonMinutes * 60_000
  const days: DateTime[] = []
  for (let day = first; day.toMillis() < end; day = day.plus({ days: 1 }).startOf('day')) days.push(day)
  return days
}

function minuteAt({ originMs }: ClockFacts, day: DateTime, minute: number): number {
  const at =
    minute === 1440
      ? day.plus({ days: 1 }).startOf('day')
      : day.set({ hour: Math.floor(minute / 60), minute: minute % 60 })
  // What the spring change skips comes out an hour late; the shop's clock jumps there at the change itself.
  const wanted = Math.floor(minute / 60) % 24
  const skipped = minute < 1440 && at.hour !== wanted
  const instant = skipped ? changeBefore(at) : at
  return Math.round((instant.toMillis() - originMs) / 60_000)
}

/** The first instant after the change that skipped the time asked for. */
function changeBefore(late: DateTime): DateTime {
  let at = late
  while (at.minus({ minutes: 1 }).offset === late.offset) at = at.minus({ minutes: 1 })
  return at
}
