import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Profile, intervalsProfile, never, plainProfile, product } from './profile.ts'

const horizonMinutes = 400
const profiles = fc
  .array(fc.record({ gap: fc.integer({ min: 1, max: 60 }), ratePerMinute: fc.integer({ min: 0, max: 5 }) }), {
    minLength: 1,
    maxLength: 12,
  })
  .map((steps) => {
    let atMinute = 0
    return new Profile(
      steps.map(({ gap, ratePerMinute }) => {
        const point = { atMinute, ratePerMinute }
        atMinute += gap
        return point
      }),
      horizonMinutes,
    )
  })
const minutes = fc.integer({ min: 0, max: horizonMinutes })
const works = fc.integer({ min: 0, max: 300 })

/** Adds up the rates minute by minute. */
function finishByCounting(profile: Profile, start: number, work: number): number {
  let left = work
  for (let minute = start; minute < start + 5000; minute++) {
    if (left <= 0) return minute
    let rate = 0
    for (let i = 0; i < profile.at.length; i++) if (profile.at[i]! <= minute) rate = profile.rate[i]!
    left -= rate
  }
  return never
}

describe('Profile', () => {
  it('ends a task where counting minute by minute ends it', () => {
    fc.assert(
      fc.property(profiles, minutes, works, (profile, start, work) => {
        expect(profile.finish(start, work)).toBe(finishByCounting(profile, start, work))
      }),
    )
  })

  it('never ends earlier for a later start', () => {
    fc.assert(
      fc.property(profiles, minutes, minutes, works, (profile, a, b, work) => {
        expect(profile.finish(Math.min(a, b), work)).toBeLessThanOrEqual(profile.finish(Math.max(a, b), work))
      }),
    )
  })

  it('finds the latest start that still meets a deadline', () => {
    fc.assert(
      fc.property(profiles, minutes, works, (profile, end, work) => {
        const start = profile.latestStart(end, work)
        if (start >= 0) expect(profile.finish(start, work)).toBeLessThanOrEqual(end)
        if (start < end) expect(profile.finish(start + 1, work)).toBeGreaterThan(end)
      }),
    )
  })

  it('works only where all of its factors do', () => {
    const early = intervalsProfile(
      [
        [60, 120],
        [200, 260],
      ],
      horizonMinutes,
    )
    const late = intervalsProfile([[90, 240]], horizonMinutes)
    const both = product([plainProfile, early, late], horizonMinutes)
    expect(both.finish(0, 31)).toBe(201)
    expect(both.nextWorking(0)).toBe(90)
    expect(both.nextBreak(90)).toBe(120)
  })

  it('says never where work stands still for good', () => {
    expect(intervalsProfile([[0, 10]], horizonMinutes).finish(5, 6)).toBe(never)
  })

  it('joins shifts that touch, so that nothing breaks between them', () => {
    expect(
      intervalsProfile(
        [
          [0, 10],
          [10, 20],
        ],
        horizonMinutes,
      ).nextBreak(0),
    ).toBe(20)
  })
})
