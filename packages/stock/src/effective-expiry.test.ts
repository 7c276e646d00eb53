import { describe, expect, it } from 'vitest'
import { effectiveExpiry, urgency } from './effective-expiry.ts'

const DAY = 86_400_000
const life = {
  printedExpiry: '2031-05-31',
  timeZone: 'America/New_York',
  openedAtMs: null,
  openLifeDays: 30,
  warmStorageLossMs: 0,
}

describe('effectiveExpiry', () => {
  it('counts the printed day to its end in the shop, not in Greenwich', () => {
    expect(new Date(effectiveExpiry(life).atMs).toISOString()).toBe('2031-06-01T04:00:00.000Z')
    expect(new Date(effectiveExpiry({ ...life, timeZone: 'Europe/Berlin' }).atMs).toISOString()).toBe(
      '2031-05-31T22:00:00.000Z',
    )
  })

  it('takes the open life when that ends first, and says so', () => {
    const openedAtMs = Date.parse('2031-03-01T15:00:00Z')
    const expiry = effectiveExpiry({ ...life, openedAtMs })
    expect(expiry.limit).toBe('openLife')
    expect(expiry.reason).toContain('30 days once opened')
    // Clocks go forward in New York on 2031-03-09: the same time of day, an hour less.
    expect(expiry.atMs).toBe(openedAtMs + 30 * DAY - 3_600_000)
  })

  it('keeps the printed expiry when the open life would last longer', () => {
    expect(effectiveExpiry({ ...life, openedAtMs: Date.parse('2031-05-20T12:00:00Z') }).limit).toBe(
      'printedExpiry',
    )
  })

  it('takes warm storage off the printed expiry, and says how much', () => {
    const expiry = effectiveExpiry({ ...life, warmStorageLossMs: 11 * DAY })
    expect(expiry).toMatchObject({
      limit: 'warmStorage',
      reason: 'Warm storage took 11 days off the printed expiry of 2031-05-31',
    })
    expect(expiry.atMs).toBe(effectiveExpiry(life).atMs - 11 * DAY)
  })
})

describe('urgency', () => {
  it('is expired from the instant itself on', () => {
    expect([urgency(1000, 999), urgency(1000, 1000)]).toEqual(['soon', 'expired'])
    expect(urgency(31 * DAY, 0)).toBe('good')
  })
})
