import { describe, expect, it } from 'vitest'
import { leadMs } from './server-clock.ts'

const noon = Date.parse('2031-05-04T12:00:00Z')

describe('leadMs', () => {
  it('finds a phone that runs ten minutes fast', () => {
    expect(leadMs('Sun, 04 May 2031 12:00:00 GMT', noon + 600_000, noon + 600_100)).toBe(-599_550)
  })
  it('takes a difference below the resolution of the header for none', () => {
    expect(leadMs('Sun, 04 May 2031 12:00:00 GMT', noon + 900, noon + 1_100)).toBe(0)
  })
  it('learns nothing from a slow answer or a missing header', () => {
    expect(leadMs('Sun, 04 May 2031 12:00:00 GMT', noon, noon + 9_000)).toBeUndefined()
    expect(leadMs(null, noon, noon)).toBeUndefined()
  })
})
