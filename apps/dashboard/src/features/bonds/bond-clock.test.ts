import { describe, expect, it } from 'vitest'
import { bondAtNoon, NOON_MS } from './bond-fixture.ts'
import { bondClock, governing } from './bond-clock.ts'
import { estimateAt } from './estimate.ts'

const minutes = (count: number) => NOON_MS + count * 60_000
const exactly = (ms: number) => ({ earliestMs: ms, latestMs: ms })

describe('bondClock', () => {
  it('counts the work time by the earliest estimate while the joint is open', () => {
    const clock = bondClock(bondAtNoon({ state: 'applied' }), exactly(minutes(1)))
    expect(clock.phase).toBe('open')
    expect(clock.workTimeEndsMs).toBeLessThanOrEqual(minutes(30))
    expect(clock.workTimeEndsMs).toBeGreaterThan(minutes(20))
  })

  it('calls an open joint late once the work time is gone', () => {
    expect(bondClock(bondAtNoon({ state: 'applied' }), exactly(minutes(40))).phase).toBe('late')
  })

  it('is not ready at the expected time, only at the conservative one', () => {
    const bond = bondAtNoon()
    const { expectedAt, readyAt } = bondClock(bond, exactly(minutes(10)))
    if (expectedAt.kind !== 'at' || readyAt.kind !== 'at') throw new Error('both must have an instant')
    expect(readyAt.atMs).toBeGreaterThan(expectedAt.atMs)
    expect(bondClock(bond, exactly(expectedAt.atMs + 1000)).phase).toBe('curing')
  })

  it('counts down without a forecast too, as if the metal stayed as measured', () => {
    const bond = bondAtNoon({ state: 'applied', forecast: [] })
    const clock = bondClock(bond, exactly(minutes(5)))
    expect(clock).toMatchObject({ phase: 'open', isIfSteady: true })
    expect(clock.workTimeEndsMs).toBeLessThanOrEqual(minutes(30))
    expect(clock.workTimeEndsMs).toBeGreaterThan(minutes(20))
    expect(bondClock(bond, exactly(minutes(45))).phase).toBe('late')
  })

  it('counts what is not known of the time against us: ready late, the work time over early', () => {
    const bond = bondAtNoon()
    const { readyAt } = bondClock(bond, exactly(minutes(10)))
    if (readyAt.kind !== 'at') throw new Error('it must have an instant')
    const around = { earliestMs: readyAt.atMs - 20_000, latestMs: readyAt.atMs + 20_000 }
    expect(bondClock(bond, around).phase).toBe('curing')
    const open = bondAtNoon({ state: 'applied' })
    const ends = bondClock(open, exactly(minutes(5))).workTimeEndsMs!
    expect(bondClock(open, { earliestMs: ends - 60_000, latestMs: ends + 300_000 }).phase).toBe('late')
  })

  it('stays over once released', () => {
    expect(bondClock(bondAtNoon({ state: 'released' }), exactly(minutes(10))).phase).toBe('released')
  })
})

describe('governing', () => {
  it('picks the open joint before the one that cures longest', () => {
    const item = (state: 'applied' | 'clamped', startMinutes: number) => {
      const bond = bondAtNoon({ state, appliedAt: new Date(minutes(startMinutes)).toISOString() })
      return { state, startMinutes, clock: bondClock(bond, exactly(minutes(20))) }
    }
    const early = item('clamped', 0)
    const late = item('clamped', 10)
    expect(governing([early, late])).toBe(late)
    expect(governing([late, item('applied', 5), early])?.state).toBe('applied')
    expect(governing([])).toBeUndefined()
  })
})

it("shows the server's last answer where the readings cannot be computed with", () => {
  const [reading] = bondAtNoon().readings
  const bond = bondAtNoon({ readings: [{ ...reading!, temperatureC: 900 }] })
  expect(estimateAt(bond, minutes(5)).handlingStrength.readyAt.conservative).toEqual({
    kind: 'never',
    reason: 'noTemperature',
  })
})
