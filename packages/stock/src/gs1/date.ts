import { endOfMonthDate } from '@clampclock/quantities'

/** Years that a two-digit year may lie ahead or behind (General Specifications, 7.12). */
const BEHIND = 51
const AHEAD = 50

/**
 * The day of a YYMMDD date: `2031-05-31`. Day 00 means the last day of its month. The century is the one that brings the
 * year nearest: 51 or more above this year's last two digits is the last century, 50 or more below is the next.
 *
 * @param currentYear Four digits: the rule depends on when it is read.
 * @returns Undefined when it is no date of the calendar.
 */
export function dateOfYymmdd(text: string, currentYear: number): string | undefined {
  const match = /^(\d{2})(\d{2})(\d{2})$/.exec(text)
  if (!match) return undefined
  const [yy, month, day] = match.slice(1).map(Number) as [number, number, number]
  if (month < 1 || month > 12) return undefined
  const year = fullYear(yy, currentYear)
  const last = endOfMonthDate(year, month)
  if (day === 0) return last
  const date = `${last.slice(0, 8)}${String(day).padStart(2, '0')}`
  return date <= last ? date : undefined
}

function fullYear(yy: number, currentYear: number): number {
  const century = currentYear - (currentYear % 100)
  const ahead = yy - (currentYear % 100)
  if (ahead >= BEHIND) return century - 100 + yy
  return ahead <= -AHEAD ? century + 100 + yy : century + yy
}
