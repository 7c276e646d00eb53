import { describe, expect, it } from 'vitest'
import { formatMinutes } from './duration.ts'

describe('formatMinutes', () => {
  it.each([
    [0, '0 min'],
    [45, '45 min'],
    [59.6, '1 h 00 min'],
    [185, '3 h 05 min'],
    [200, '3 h 20 min'],
    [1439.7, '1 d 0 h'],
    [3120, '2 d 4 h'],
    [Infinity, 'never'],
    [-12, '-12 min'],
  ])('shows %d as %s', (minutes, text) => {
    expect(formatMinutes(minutes)).toBe(text)
  })

  it('rounds towards the careful side when asked', () => {
    expect(formatMinutes(0.2, 'up')).toBe('1 min')
    expect(formatMinutes(4.9, 'down')).toBe('4 min')
    expect(formatMinutes(-4.9, 'down')).toBe('-5 min')
  })

  it('refuses NaN by name', () => {
    expect(() => formatMinutes(NaN)).toThrow(/minutes is NaN/)
  })
})
