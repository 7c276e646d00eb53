import { dayOf } from '../../lib/search.ts'

export interface ScheduleSearch {
  /** First day shown, on the shop's calendar; today when left out. */
  readonly from?: string | undefined
  readonly days?: 1 | 3 | 7 | undefined
}

export function readScheduleSearch(raw: Record<string, unknown>): ScheduleSearch {
  const days = ([1, 3, 7] as const).find((count) => count === Number(raw['days']))
  return { from: dayOf(raw['from']), days }
}
