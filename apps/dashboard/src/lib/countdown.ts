import { t } from './reader.ts'

/** A countdown in ms as a clock: '9:05' (m:ss), '2:09:05' (h:mm:ss), '3 d 04:09' from two days up. Never negative. */
export function formatCountdown(remainingMs: number, towards: 'deadline' | 'ready' = 'ready'): string {
  // Until ready it is rounded up: a clock that shows 0:00 means it. To a deadline down.
  const round = towards === 'deadline' ? Math.floor : Math.ceil
  const seconds = Math.max(0, round(remainingMs / 1000))
  const two = (value: number) => String(value).padStart(2, '0')
  const [hours, minutes, rest] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60]
  if (hours >= 48) return `${Math.floor(hours / 24)} d ${two(hours % 24)}:${two(minutes)}`
  return hours > 0 ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`
}

/**
 * The same for a screen reader: whole minutes, in words. Time that is left for something is rounded down, time until
 * something may be done up: what is spoken never promises more than the clock.
 */
export function speakCountdown(remainingMs: number, towards: 'deadline' | 'ready'): string {
  const round = towards === 'deadline' ? Math.floor : Math.ceil
  const minutes = Math.max(0, round(remainingMs / 60_000))
  if (minutes < 60) return t('lib.minutes', { n: minutes })
  return `${t('lib.hours', { n: Math.floor(minutes / 60) })} ${t('lib.minutes', { n: minutes % 60 })}`
}

/** How long ago or ahead, coarsely: 'in 3 days', '2 hours ago'. */
export function formatDistance(toMs: number, nowMs: number): string {
  const ahead = toMs >= nowMs
  const minutes = Math.abs(toMs - nowMs) / 60_000
  const words =
    minutes < 60
      ? t('lib.minutes', { n: Math.round(minutes) })
      : minutes < 48 * 60
        ? t('lib.hours', { n: Math.round(minutes / 60) })
        : t('lib.days', { n: Math.round(minutes / 1440) })
  return ahead ? t('lib.ahead', { words }) : t('lib.ago', { words })
}
