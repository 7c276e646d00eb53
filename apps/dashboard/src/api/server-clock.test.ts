import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { carried, leadFrom, narrowed } from './server-clock.ts'

const noon = Date.parse('2031-05-04T12:00:00Z')
const NOON = 'Sun, 04 May 2031 12:00:00 GMT'
const device = (monotonicMs: number, wallMs: number) => ({ monotonicMs, wallMs })

describe('the server’s time on a device', () => {
  it('does not depend on what the wall clock says', () => {
    const slow = leadFrom(NOON, 5000, device(5100, noon - 3_600_000))
    const fast = leadFrom(NOON, 5000, device(5100, noon + 3_600_000))
    expect(slow).toMatchObject({ lowMs: noon - 5100, highMs: noon + 1000 - 5000 })
    expect(fast).toMatchObject({ lowMs: slow!.lowMs, highMs: slow!.highMs })
  })

  it('is as uncertain as the answer was slow', () => {
    const lead = leadFrom(NOON, 0, device(20_000, noon))!
    expect(lead.highMs - lead.lowMs).toBe(21_000)
    expect(leadFrom(null, 0, device(0, noon))).toBeUndefined()
    expect(leadFrom('yesterday, or so', 0, device(0, noon))).toBeUndefined()
  })

  it('gets surer with each answer, and believes the later one where they contradict each other', () => {
    const first = leadFrom(NOON, 0, device(900, noon))!
    const second = leadFrom('Sun, 04 May 2031 12:00:10 GMT', 10_300, device(10_400, noon + 9_500))!
    const both = narrowed(first, second)
    expect(both.lowMs).toBe(Math.max(first.lowMs, second.lowMs))
    expect(both.highMs).toBe(Math.min(first.highMs, second.highMs))
    const other = leadFrom('Sun, 04 May 2031 13:00:00 GMT', 20_000, device(20_100, noon + 19_200))!
    expect(narrowed(both, other)).toEqual(other)
  })

  it('allows for a sleep and for a wall clock that was set, whichever it was', () => {
    const lead = leadFrom(NOON, 0, device(100, noon))!
    // An hour by the wall clock, a second by the monotonic one.
    const after = carried(lead, device(1100, noon + 3_600_900))
    expect(after.lowMs).toBe(lead.lowMs)
    expect(after.highMs).toBe(lead.highMs + 3_599_900)
    const setBack = carried(lead, device(1100, noon - 3_600_000))
    expect(setBack.highMs).toBe(lead.highMs)
    expect(setBack.lowMs).toBeLessThan(lead.lowMs - 3_599_000)
  })

  it('always holds the true time between its bounds', () => {
    const ms = fc.integer({ min: 0, max: 60_000 })
    fc.assert(
      fc.property(ms, ms, ms, fc.integer({ min: -9e6, max: 9e6 }), (sent, there, back, wallOff) => {
        // The server's clock is `noon` where the device's monotonic one is nought.
        const written = new Date(noon + sent + there).toUTCString()
        const received = sent + there + back
        const lead = leadFrom(written, sent, device(received, noon + received + wallOff))!
        expect(lead.lowMs).toBeLessThanOrEqual(noon)
        expect(lead.highMs).toBeGreaterThanOrEqual(noon)
      }),
    )
  })
})
