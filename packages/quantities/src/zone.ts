/** What a wall clock in a zone shows. Months and weekdays count from 1, the week from Monday. */
export interface WallTime {
  readonly year: number
  readonly month: number
  readonly day: number
  readonly hour: number
  readonly minute: number
  readonly second: number
  readonly weekday: number
}

/** A day of the calendar and a time on it; the time is midnight where none is given. */
export type OnTheWall = Pick<WallTime, 'year' | 'month' | 'day'> & Partial<Pick<WallTime, 'hour' | 'minute'>>

const DAY_MS = 86_400_000

/** Building a formatter takes a hundred times as long as using it. */
const formatters = new Map<string, Intl.DateTimeFormat>()

function formatterOf(zone: string): Intl.DateTimeFormat {
  const known = formatters.get(zone)
  if (known !== undefined) return known
  const formatter = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  })
  formatters.set(zone, formatter)
  return formatter
}

/**
 * What the wall clock of an IANA zone shows at an instant (years 1 and later), by the runtime's own time zone data.
 *
 * @throws RangeError for a zone that the runtime does not know, or an instant that is none.
 */
export function wallTime(atMs: number, zone: string): WallTime {
  const parts: Record<string, number> = {}
  for (const { type, value } of formatterOf(zone).formatToParts(atMs)) parts[type] = Number(value)
  const { year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0 } = parts
  const weekday = ((new Date(Date.UTC(year, month - 1, day)).getUTCDay() + 6) % 7) + 1
  return { year, month, day, hour, minute, second, weekday }
}

/** ms that the zone's clocks are ahead of UTC. */
function offsetMs(atMs: number, zone: string): number {
  const { year, month, day, hour, minute, second } = wallTime(atMs, zone)
  return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(atMs / 1000) * 1000
}

/**
 * The instant at which a zone's wall clock shows a time: the first of two where the clocks go back over it, and as much
 * later as the clocks jump where they skip it. Days and months beyond their end run over into the next.
 *
 * @throws RangeError as `wallTime`.
 */
export function atWall({ year, month, day, hour = 0, minute = 0 }: OnTheWall, zone: string): number {
  const asUtc = Date.UTC(year, month - 1, day, hour, minute)
  // No zone changes its clocks twice within two days.
  const before = asUtc - offsetMs(asUtc - DAY_MS, zone)
  const after = asUtc - offsetMs(asUtc + DAY_MS, zone)
  const fits = [before, after].filter((atMs) => atMs + offsetMs(atMs, zone) === asUtc)
  return fits.length === 0 ? before : Math.min(...fits)
}

/** The first instant of the day that an instant falls on, or of the day so many days later. */
export function startOfDay(atMs: number, zone: string, laterDays = 0): number {
  const { year, month, day } = wallTime(atMs, zone)
  return atWall({ year, month, day: day + laterDays }, zone)
}

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/

/** Reads YYYY-MM-DD; undefined for a day that is not on the calendar. */
export function readDay(text: string): OnTheWall | undefined {
  const [, year, month, day] = DAY.exec(text)?.map(Number) ?? []
  if (year === undefined || month === undefined || day === undefined) return undefined
  const date = new Date(Date.UTC(year, month - 1, day))
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day ? { year, month, day } : undefined
}

/** As `toISOString` writes the date: 2031-05-04. */
export function writeDay({ year, month, day }: OnTheWall): string {
  return new Date(Date.UTC(year, month - 1, day)).toISOString().slice(0, 10)
}
