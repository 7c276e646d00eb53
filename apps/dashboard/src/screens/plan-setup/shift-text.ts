import type { WorkShift } from '../../api/types.ts'
import { t } from '../../lib/reader.ts'

/** Days of the week, 1 (Monday) to 7. */
export const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7] as const

/** The same from another day on. */
export function weekFrom(firstDay: (typeof WEEKDAYS)[number]): readonly (typeof WEEKDAYS)[number][] {
  return [...WEEKDAYS.slice(firstDay - 1), ...WEEKDAYS.slice(0, firstDay - 1)]
}

/** The shifts of a day as one types them: `07:00-12:00, 12:30-16:30`. */
export function shiftText(shifts: readonly WorkShift[], weekday: number): string {
  return shifts
    .filter((shift) => shift.weekday === weekday)
    .map(({ from, until }) => `${from}-${until}`)
    .join(', ')
}

export type ReadShifts = { readonly shifts: WorkShift[] } | { readonly fault: string }

const SHIFT = /^(\d{1,2}):(\d{2})\s*[-–]\s*(\d{1,2}):(\d{2})$/

/** Reads the shifts of a day; nothing typed is a day off. Whether they overlap, the service says. */
export function readShifts(text: string, weekday: number): ReadShifts {
  const parts = text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '')
  const shifts: WorkShift[] = []
  for (const part of parts) {
    const found = SHIFT.exec(part)
    if (!found) return { fault: t('plan-setup.isNoShiftWriteItLike07001200', { part }) }
    const [, h1 = '', m1 = '', h2 = '', m2 = ''] = found
    shifts.push({ weekday, from: `${h1.padStart(2, '0')}:${m1}`, until: `${h2.padStart(2, '0')}:${m2}` })
  }
  return { shifts }
}
