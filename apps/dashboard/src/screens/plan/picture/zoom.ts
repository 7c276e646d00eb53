import type { Zoom } from '../search.ts'
import { t } from '../../../lib/reader.ts'

interface Scale {
  readonly label: string
  /** Days on the canvas, and how wide an hour is on it, px. */
  readonly days: number
  readonly hourPx: number
  /** Local hours between two marks. */
  readonly hoursPerTick: number
  /** What dragging snaps to, min. */
  readonly snapMinutes: number
  /** Days on a printed page, and local hours between two marks there. */
  readonly printDays: number
  readonly printHoursPerTick: number
}

export const SCALES: Readonly<Record<Zoom, Scale>> = {
  hours: {
    get label() {
      return t('plan.hours')
    },
    days: 2,
    hourPx: 132,
    hoursPerTick: 1,
    snapMinutes: 5,
    printDays: 1,
    printHoursPerTick: 2,
  },
  day: {
    get label() {
      return t('plan.day')
    },
    days: 3,
    hourPx: 52,
    hoursPerTick: 1,
    snapMinutes: 5,
    printDays: 1,
    printHoursPerTick: 2,
  },
  days: {
    get label() {
      return t('plan.n3Days')
    },
    days: 7,
    hourPx: 17,
    hoursPerTick: 3,
    snapMinutes: 15,
    printDays: 3,
    printHoursPerTick: 6,
  },
  week: {
    get label() {
      return t('plan.week')
    },
    days: 14,
    hourPx: 7,
    hoursPerTick: 6,
    snapMinutes: 15,
    printDays: 7,
    printHoursPerTick: 12,
  },
  month: {
    get label() {
      return t('plan.month')
    },
    days: 31,
    hourPx: 1.7,
    hoursPerTick: 24,
    snapMinutes: 60,
    printDays: 31,
    printHoursPerTick: 24,
  },
}
