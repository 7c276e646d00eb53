import { describe, expect, it } from 'vitest'
import { creditedFromMs, toldLateMinutes } from './told-late.ts'

const MINUTE = 60_000

describe('what is entered long after it happened', () => {
  it('counts from when it happened if it is entered within a quarter of an hour', () => {
    expect(creditedFromMs(0, 0)).toBe(0)
    expect(creditedFromMs(0, 15 * MINUTE)).toBe(0)
    expect(toldLateMinutes(0, 15 * MINUTE)).toBeNull()
  })

  it('counts from a quarter of an hour before the entry otherwise', () => {
    expect(creditedFromMs(0, 16 * MINUTE)).toBe(MINUTE)
    expect(creditedFromMs(7 * MINUTE, 247 * MINUTE)).toBe(232 * MINUTE)
    expect(toldLateMinutes(7 * MINUTE, 247 * MINUTE)).toBe(240)
    expect(toldLateMinutes(0, 15 * MINUTE + 1)).toBe(15)
  })
})
