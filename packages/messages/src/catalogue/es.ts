import { patterns as calendar } from './es/calendar.ts'
import type { Areas } from '../keys.ts'

export const areas: { readonly [Area in keyof Areas]: Readonly<Record<keyof Areas[Area], string>> } = {
  calendar,
}
