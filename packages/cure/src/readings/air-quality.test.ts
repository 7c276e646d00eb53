import { celsiusToFahrenheit } from '@clampclock/quantities'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { judgeAir, type AirContext } from './air-quality.ts'
import type { Claim, Known } from './reading-quality.ts'
import { between } from '../testing.ts'

const MINUTE = 60_000
const NOON = Date.parse('2031-05-07T16:00:00Z')
const NOTHING: AirContext = { own: [], others: [], isOven: false }
/** A quarter of an hour apart, each sent at its instant. */
const log = (temperatures: readonly number[], fromMs = NOON, changes: Partial<Claim> = {}): Claim[] =>
  temperatures.map((temperatureC, i) => {
    const atMs = fromMs + i * 15 * MINUTE
    return { atMs, enteredAtMs: atMs, temperatureC, accuracyC: 0.5, source: 'bayAir', ...changes }
  })
const kinds = (claims: readonly Claim[], context: Partial<AirContext> = {}) =>
  judgeAir(claims, { ...NOTHING, ...context }).map((found) => found.map(({ kind }) => kind))
const history = (temperatureC: number, count = 8): Known[] =>
  log(
    Array.from({ length: count }, () => temperatureC),
    NOON - count * 15 * MINUTE,
  )

describe('a log of the air', () => {
  it('is good where a shop warms up, cools down, and opens its door', () => {
    expect(kinds(log([5, 9, 14, 18, 20, 21, 12, 17, 20, 19]))).toEqual(Array.from({ length: 10 }, () => []))
  })

  it('in degF after a history in degC is doubted in every reading', () => {
    const found = judgeAir(log([68.7, 68.9, 69.1]), { ...NOTHING, own: history(20) })
    for (const each of found) expect(each.map(({ kind }) => kind)).toContain('fahrenheit')
    expect(found[0]).toContainEqual({ kind: 'fahrenheit', meantC: 20.4 })
  })

  it('in degF from its first value is doubted, with other thermometers and without', () => {
    for (const others of [[], history(21)])
      for (const found of kinds(log([68.7, 69.4]), { others })) expect(found).toContain('fahrenheit')
    // A cold morning in degF reads like a warm one in degC: the others tell.
    expect(kinds(log([41]), { others: history(6) })[0]).toContain('fahrenheit')
  })

  it('with a spike is doubted there, and nowhere else', () => {
    expect(kinds(log([20, 20.2, 33, 20.4, 20.3]))).toEqual([[], [], ['spike'], [], []])
    expect(kinds(log([20, 20.2, 31, 30.5, 30.4]))).toEqual([[], [], [], [], []])
  })

  it('between what is on file already is doubted where the two cannot both be', () => {
    const onFile = log(Array.from({ length: 20 }, () => 22)).map((each, i) => ({
      ...each,
      atMs: NOON + i * MINUTE,
    }))
    const between = (temperatureC: number): Claim[] =>
      Array.from({ length: 19 }, (_, i) => {
        const atMs = NOON + (i + 0.5) * MINUTE
        return { atMs, enteredAtMs: atMs, temperatureC, accuracyC: 0.5, source: 'bayAir' }
      })
    for (const found of kinds(between(35), { onFile })) expect(found).toContain('spike')
    for (const found of kinds(between(23), { onFile })) expect(found).toEqual([])
    // A quarter of an hour apart a door may have stood open in between.
    expect(kinds(log([15], NOON + 7 * MINUTE), { onFile: log([22, 22]) })).toEqual([[]])
  })

  it('that jumps further than air does is too fast', () => {
    const jump = log([20, 20, 2], NOON).map((each, i) => ({
      ...each,
      atMs: NOON + i * MINUTE,
      enteredAtMs: NOON + i * MINUTE,
    }))
    expect(kinds(jump)[2]).toEqual(['tooFast'])
  })

  it('that stands at the same digits is stuck once others move, and not before', () => {
    const still = log(Array.from({ length: 40 }, () => 21.3))
    const moving = log(Array.from({ length: 40 }, (_, i) => 21 - i * 0.1))
    expect(kinds(still).flat()).toEqual([])
    const found = kinds(still, { others: moving })
    expect(found.at(-1)).toEqual(['stuck'])
    // Once it shows that it stands still, it has since the second of its values; six hours do not show it yet.
    expect(found[0]).toEqual([])
    expect(found[1]).toEqual(['stuck'])
    expect(kinds(still.slice(0, 24), { others: moving }).flat()).toEqual([])
    expect(kinds(moving, { others: still }).flat()).toEqual([])
  })

  it('that shows the same digits for longer than it ever does is stuck, whatever the others do', () => {
    const habits = { longestRunMinutes: 40, largestRiseC: 1 }
    const still = log(Array.from({ length: 8 }, () => 21.3))
    expect(kinds(still.slice(0, 5), { habits }).flat()).toEqual([])
    expect(kinds(still, { habits })).toEqual([[], ...Array.from({ length: 7 }, () => ['stuck'])])
    // One with coarse digits shows the same for hours every night.
    expect(kinds(still, { habits: { ...habits, longestRunMinutes: 300 } }).flat()).toEqual([])
    // Reading by reading it is as long, since what is believed of the run is its first.
    const own = log([21.3], NOON - 105 * MINUTE)
    expect(kinds(log([21.3]), { own, habits })).toEqual([['stuck']])
  })

  it('that jumps up further than it ever did is doubted there until it jumps back', () => {
    const habits = { longestRunMinutes: 40, largestRiseC: 1 }
    const jump = ['jumped']
    expect(kinds(log([18, 25, 25.1, 24, 18.2, 18.1]), { habits })).toEqual([[], jump, jump, jump, [], []])
    // The air may fall below what it was, and the lie with it.
    const down = Array.from({ length: 12 }, (_, i) => 25 - i)
    expect(kinds(log([18, ...down]), { habits })).toEqual([[], ...down.map(() => jump)])
    // Reading by reading: what is kept of the one before tells.
    const jumped = { atMs: NOON - 15 * MINUTE, temperatureC: 25, riseC: 7 }
    const own = log([18], NOON - 600 * MINUTE)
    expect(kinds(log([22.5]), { habits, own, jumped })).toEqual([jump])
    expect(kinds(log([18.3]), { habits, own, jumped })).toEqual([[]])
    // A lie of 3 degC is more than a place does that never rose by more than 1: it repeats itself far better than it is true.
    expect(kinds(log([18, 21, 21.2]), { habits })).toEqual([[], jump, jump])
    expect(kinds(log([18, 20, 21.2]), { habits }).flat()).toEqual([])
    // A door that opens on it takes half of it away at once, and does not end it.
    expect(kinds(log([18, 21, 21.1, 19.5, 19.4]), { habits })).toEqual([[], jump, jump, jump, jump])
  })

  it('that jumps with the rest of the shop, falls, or comes from a place that does so, is good', () => {
    const habits = { longestRunMinutes: 40, largestRiseC: 1 }
    const others = log([17, 22, 23])
    expect(kinds(log([18, 25, 25]), { habits, others }).flat()).toEqual([])
    expect(kinds(log([25, 18, 12]), { habits }).flat()).toEqual([])
    expect(kinds(log([18, 25]), { habits: { ...habits, largestRiseC: 6 } }).flat()).toEqual([])
    expect(kinds(log([18, 25])).flat()).toEqual([])
  })

  it('of an instrument that keeps its habits is never doubted', () => {
    const steps = fc.array(between(-14, 3), { minLength: 1, maxLength: 40 })
    fc.assert(
      fc.property(steps, between(0, 3), (changes, largestRiseC) => {
        let c = 20
        const temperatures = changes.map((change) => {
          c = Math.min(40, Math.max(-20, c + Math.min(change, Math.max(2, largestRiseC) - 1e-9)))
          return c
        })
        const habits = { longestRunMinutes: 60, largestRiseC }
        const found = kinds(log(temperatures), { own: log([20], NOON - 15 * MINUTE), habits }).flat()
        expect(found.filter((kind) => kind === 'jumped')).toEqual([])
      }),
    )
  })

  it('of the past is late to its end, and one that is sent each hour only where it is old', () => {
    const sentAt = (until: number) =>
      log([20, 20.1, 20.2, 20.1, 20.3], NOON - 65 * MINUTE).map((each) => ({
        ...each,
        enteredAtMs: NOON + until * MINUTE,
      }))
    expect(kinds(sentAt(0))).toEqual(Array.from({ length: 5 }, () => ['late']))
    expect(kinds(sentAt(-5))).toEqual([['late'], ['late'], ['late'], [], []])
  })

  it('entered late is so marked, and is no reason to doubt the next', () => {
    const late = log([20, 20.1], NOON).map((each) => ({ ...each, enteredAtMs: NOON + 90 * MINUTE }))
    expect(kinds([...late, ...log([20.2], NOON + 30 * MINUTE)])).toEqual([['late'], ['late'], []])
  })

  it('of an oven is as hot as it is', () => {
    expect(kinds(log([20, 80, 160, 180, 60]), { isOven: true }).flat()).toEqual([])
  })

  it('with its unit slipped is always doubted, from any history', () => {
    fc.assert(
      fc.property(fc.array(between(-20, 41.9), { minLength: 1, maxLength: 20 }), (temperatures) => {
        for (const c of temperatures) {
          const [found] = kinds(log([celsiusToFahrenheit(c)]), { own: history(c) })
          expect(found).toContain('fahrenheit')
        }
      }),
    )
  })

  it('that changes no faster than air does is never too fast', () => {
    const steps = fc.array(fc.tuple(between(1, 120), between(-1, 1)), { minLength: 1, maxLength: 40 })
    fc.assert(
      fc.property(steps, (changes) => {
        let [atMs, c] = [NOON, 15]
        const claims = changes.map(([minutes, share]): Claim => {
          atMs += minutes * MINUTE
          c = Math.min(42, Math.max(-25, c + share * Math.min(15 + minutes, 60)))
          return { atMs, enteredAtMs: atMs, temperatureC: c, accuracyC: 0.5, source: 'bayAir' }
        })
        // The last that was believed is what the next is held against: where one is doubted for its unit, so is the chain.
        const found = kinds(claims)
        if (found.flat().some((kind) => kind !== 'tooFast')) return
        expect(found.flat()).toEqual([])
      }),
    )
  })
})
