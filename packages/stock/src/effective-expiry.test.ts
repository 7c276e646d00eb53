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

describe('the reason that is told', () => {
  const HOUR = 3_600_000
  it('is the printed day where nothing else limits it', () => {
    expect(effectiveExpiry(life).reason).toBe('Printed expiry: the end of 2031-05-31')
  })

  it.each([
    [HOUR, 'Warm storage took 1 h off'],
    [46 * HOUR, 'Warm storage took 46 h off'],
    [1.95 * DAY, 'Warm storage took 2 days off'],
    [2.4 * DAY, 'Warm storage took 2 days off'],
  ])('says of %d ms of warm storage: %s', (warmStorageLossMs, words) => {
    expect(effectiveExpiry({ ...life, warmStorageLossMs }).reason).toContain(words)
  })

  it('passes over less than an hour of warm storage', () => {
    expect(effectiveExpiry({ ...life, warmStorageLossMs: HOUR - 1 })).toEqual(effectiveExpiry(life))
  })

  it('counts one day once opened as one day', () => {
    const openedAtMs = Date.parse('2031-03-01T15:00:00Z')
    expect(effectiveExpiry({ ...life, openedAtMs, openLifeDays: 1 }).reason).toBe(
      'Opened on 2031-03-01, and counts for 1 day once opened',
    )
  })

  it('is the printed one where both end at the same instant', () => {
    const openedAtMs = effectiveExpiry(life).atMs - 10 * DAY
    expect(effectiveExpiry({ ...life, openedAtMs, openLifeDays: 10 }).limit).toBe('printedExpiry')
    expect(effectiveExpiry({ ...life, openedAtMs: openedAtMs - 1, openLifeDays: 10 }).limit).toBe('openLife')
  })
})

describe('urgency', () => {
  it('is expired from the instant itself on', () => {
    expect([urgency(1000, 999), urgency(1000, 1000)]).toEqual(['soon', 'expired'])
    expect(urgency(31 * DAY, 0)).toBe('good')
    expect([urgency(30 * DAY, 0), urgency(30 * DAY + 1, 0)]).toEqual(['soon', 'good'])
  })
})
