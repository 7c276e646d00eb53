import { celsiusToFahrenheit } from '@clampclock/quantities'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { judgeAir, type AirContext } from './air-quality.ts'
import type { Claim, Known } from './reading-quality.ts'
import { between } from './testing.ts'

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
    expect(found.slice(0, 24).flat()).toEqual([])
    expect(found.at(-1)).toEqual(['stuck'])
    expect(kinds(moving, { others: still }).flat()).toEqual([])
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
