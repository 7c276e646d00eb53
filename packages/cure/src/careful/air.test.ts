import { describe, expect, it } from 'vitest'
import { estimateBond } from '../estimate/estimate.ts'
import type { Reading, ReadingSource } from '../readings/reading.ts'
import { MINUTE_MS, SHEET, START_MS } from '../testing.ts'
import { before, between, since } from './air.ts'
import { UNKNOWN_PLACE } from './place.ts'

const read = (source: ReadingSource, minutes: number, temperatureC: number): Reading => ({
  atMs: START_MS + minutes * MINUTE_MS,
  temperatureC,
  accuracyC: 0.5,
  source,
})
const coldestOf = ({ pieces }: ReturnType<typeof before>) =>
  Math.min(...pieces.flatMap(({ from, to }) => [from[0], to[0]]))

/** How long one reading speaks for the time about it: air for an hour, metal for half of one, common practice, no source. */
describe.each([
  ['bayAir', 'air', 60],
  ['metalProbe', 'metal', 30],
  ['infrared', 'metal', 30],
] as const)('a reading by %s', (source, kind, minutes) => {
  const first = read(source, 0, 16)
  it('is joined to the next within its limit, and not beyond', () => {
    const joined = between(kind, first, read(source, minutes, 16), [], UNKNOWN_PLACE)
    expect(joined.note).toBeUndefined()
    expect(coldestOf(joined)).toBe(15.5)
    const silent = between(kind, first, read(source, minutes + 1, 16), [], UNKNOWN_PLACE)
    expect(silent.note).toMatchObject({ kind: 'gapBridged', limitMinutes: minutes })
    expect(coldestOf(silent)).toBeLessThan(15.5)
  })

  it('speaks for what was before it as long, and is taken to have risen before that', () => {
    const at = read(source, 300, 16)
    const from = (minute: number) =>
      before(kind, at, START_MS + minute * MINUTE_MS, [15.5, 16, 16.5], UNKNOWN_PLACE)
    expect(from(300 - minutes).note).toBeUndefined()
    expect(coldestOf(from(300 - minutes))).toBe(15.5)
    const longer = from(300 - minutes - 1)
    expect(longer.note).toMatchObject({ kind: 'gapBridged', limitMinutes: minutes })
    // Heating up: 6 degC in the first hour, then 3 an hour, common practice.
    expect(coldestOf(longer)).toBeCloseTo(
      15.5 - (6 * Math.min(60, minutes + 1)) / 60 - (minutes === 60 ? 3 / 60 : 0),
    )
    expect(coldestOf(from(0))).toBeCloseTo(15.5 - 6 - 3 * 4)
  })

  it('is stale after it', () => {
    const at = (toMinute: number) =>
      since(kind, first, START_MS + toMinute * MINUTE_MS, [], UNKNOWN_PLACE, undefined)
    expect(at(minutes).note).toBeUndefined()
    expect(at(minutes + 1).note).toMatchObject({ kind: 'staleTemperature', limitMinutes: minutes })
  })
})

it('gives a bond that was measured late no more than the metal can have risen through', () => {
  const share = (minute: number) =>
    estimateBond({
      sheet: SHEET,
      appliedAtMs: START_MS,
      readings: [read('metalProbe', minute, 22)],
      forecast: [],
      nowMs: START_MS + minute * MINUTE_MS,
    }).handlingStrength.progress
  const late = share(180)
  expect(share(30).conservative / share(30).expected).toBeGreaterThan(0.9)
  expect(late.conservative / late.expected).toBeLessThan(0.7)
})
