import { DateTime } from 'luxon'
import { describe, expect, it } from 'vitest'
import { workingTime } from './calendars.ts'
import type { ExceptionFact, ShiftFact } from './facts.ts'

const NIGHT = [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({
  resourceId: null,
  weekday,
  fromMinute: 0,
  untilMinute: 360,
}))
const DAY = NIGHT.map((shift) => ({ ...shift, fromMinute: 420, untilMinute: 960 }))

function worked(
  zone: string,
  day: string,
  shifts: readonly ShiftFact[],
  exceptions: ExceptionFact[] = [],
  who: string | null = null,
) {
  const originMs = DateTime.fromISO(day, { zone }).toMillis()
  const horizonMinutes = DateTime.fromISO(day, { zone })
    .plus({ days: 1 })
    .startOf('day')
    .diff(DateTime.fromMillis(originMs))
    .as('minutes')
  const time = workingTime({ timeZone: zone, originMs, horizonMinutes, shifts, exceptions }, who)
  const minutes = (list: readonly (readonly [number, number])[]) =>
    list.reduce((sum, [from, until]) => sum + until - from, 0)
  return { ...time, minutes: minutes(time.shifts), overtimeMinutes: minutes(time.overtime) }
}

/** Transitions as the IANA time zone database (2024a) has them: the day, and how much longer or shorter its night is. */
const NIGHTS = [
  ['America/New_York', '2031-03-09', 300],
  ['America/New_York', '2031-11-02', 420],
  ['Europe/Berlin', '2031-03-30', 300],
  ['Europe/Berlin', '2031-10-26', 420],
  ['Australia/Lord_Howe', '2030-10-06', 330],
  ['Australia/Lord_Howe', '2031-04-06', 390],
  ['America/Santiago', '2031-09-07', 300],
  ['Pacific/Auckland', '2031-09-28', 300],
  ['Pacific/Auckland', '2031-04-06', 420],
  ['America/Phoenix', '2031-03-09', 360],
] as const

describe('a shift from 00:00 to 06:00', () => {
  it.each(NIGHTS)('in %s on %s is %i min long', (zone, day, minutes) => {
    expect(worked(zone, day, NIGHT).minutes).toBe(minutes)
  })

  it('and a day shift of the same day keeps its length and its place on the clock', () => {
    for (const [zone, day] of NIGHTS) {
      const { shifts } = worked(zone, day, DAY)
      const start = DateTime.fromISO(day, { zone }).plus({ minutes: shifts[0]![0] })
      expect(start.toFormat('HH:mm'), zone).toBe('07:00')
      expect(shifts[0]![1] - shifts[0]![0], zone).toBe(540)
    }
  })
})

it('counts a time that the spring change skips as the instant of the change', () => {
  const skipped = [{ resourceId: null, weekday: 7, fromMinute: 150, untilMinute: 360 }]
  // 02:30 is not on the clock of New York that night; it goes from 02:00 to 03:00.
  expect(worked('America/New_York', '2031-03-09', skipped).shifts).toEqual([[120, 300]])
})

const day = '2031-05-05'
const exception = (more: Partial<ExceptionFact>): ExceptionFact => ({
  resourceId: null,
  kind: 'closed',
  firstDay: day,
  lastDay: day,
  fromMinute: null,
  untilMinute: null,
  ...more,
})

describe('exceptions', () => {
  const zone = 'America/New_York'

  it('close the shop for a day, or for part of it', () => {
    expect(worked(zone, day, DAY, [exception({})]).minutes).toBe(0)
    expect(worked(zone, day, DAY, [exception({ fromMinute: 720, untilMinute: 1440 })]).minutes).toBe(300)
  })

  it('take one person away, and nobody else', () => {
    const away = [exception({ kind: 'absent', resourceId: 'ann' })]
    expect(worked(zone, day, DAY, away, 'ann').minutes).toBe(0)
    expect(worked(zone, day, DAY, away, 'ben').minutes).toBe(540)
  })

  it('allow overtime outside the shifts, on a closed day too, and not while absent', () => {
    const extra = exception({ kind: 'overtime', fromMinute: 900, untilMinute: 1080 })
    expect(worked(zone, day, DAY, [extra])).toMatchObject({ minutes: 540, overtimeMinutes: 120 })
    expect(worked(zone, day, DAY, [extra, exception({})])).toMatchObject({ minutes: 0, overtimeMinutes: 180 })
    const away = exception({ kind: 'absent', resourceId: 'ann' })
    expect(worked(zone, day, DAY, [extra, away], 'ann')).toMatchObject({ minutes: 0, overtimeMinutes: 0 })
  })

  it('let somebody have hours of their own instead of those of the shop', () => {
    const own = [...DAY, { resourceId: 'ann', weekday: 1, fromMinute: 600, untilMinute: 660 }]
    expect(worked(zone, day, own, [], 'ann').shifts).toEqual([[600, 660]])
  })
})
