import { expect, it } from 'vitest'
import { formatCountdown, formatDistance, speakCountdown } from './countdown.ts'

it('shows seconds below two days and rounds up', () => {
  expect(formatCountdown(0)).toBe('0:00')
  expect(formatCountdown(1)).toBe('0:01')
  expect(formatCountdown(545_000)).toBe('9:05')
  expect(formatCountdown(7_745_000)).toBe('2:09:05')
  expect(formatCountdown((3 * 24 + 4) * 3_600_000 + 9 * 60_000)).toBe('3 d 04:09')
  expect(formatCountdown(-5)).toBe('0:00')
})

it('speaks minutes, and never promises more than the clock', () => {
  expect(speakCountdown(61_000, 'ready')).toBe('2 minutes')
  expect(speakCountdown(7_745_000, 'ready')).toBe('2 hours 10 minutes')
  expect(speakCountdown(61 * 60_000, 'ready')).toBe('1 hour 1 minute')
  expect(speakCountdown(119_000, 'deadline')).toBe('1 minute')
  expect(speakCountdown(59_000, 'deadline')).toBe('0 minutes')
  expect(formatCountdown(1_999, 'deadline')).toBe('0:01')
})

it('says how far off something is', () => {
  expect(formatDistance(3 * 86_400_000, 0)).toBe('in 3 days')
  expect(formatDistance(0, 7_200_000)).toBe('2 hours ago')
  expect(formatDistance(60_000, 0)).toBe('in 1 minute')
})
