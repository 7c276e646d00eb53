import { patterns as calendar } from './en/calendar.ts'

/** English is the source of the keys and of the names of arguments. */
export const areas = { calendar } as const
