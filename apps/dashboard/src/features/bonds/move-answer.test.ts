import { describe, expect, it } from 'vitest'
import { bondClock } from './bond-clock.ts'
import { bondAtNoon, NOON_MS } from './bond-fixture.ts'
import { moveAnswer } from './move-answer.ts'

const hours = (count: number) => NOON_MS + count * 3_600_000
const at = (count: number) => ({ earliestMs: hours(count), latestMs: hours(count) })
const serverYes = { mayMove: true, reasons: [] }
const serverNo = { mayMove: false, reasons: [{ code: 'handling-strength', message: 'at 99 %' }] }

describe('moveAnswer', () => {
  it('gives the latest conservative time while anything cures', () => {
    const clocks = [
      bondClock(bondAtNoon(), at(1)),
      bondClock(bondAtNoon({ appliedAt: new Date(hours(0.5)).toISOString() }), at(1)),
    ]
    const answer = moveAnswer(serverNo, clocks, false)
    expect(answer.kind).toBe('notYet')
    const late = clocks[1]!.readyAt
    expect(answer).toEqual({ kind: 'notYet', atMs: late.kind === 'at' ? late.atMs : 0 })
  })

  it('does not take the yes of a server that is ahead of the clock here', () => {
    expect(moveAnswer(serverYes, [bondClock(bondAtNoon(), at(1))], false).kind).toBe('notYet')
  })

  it('asks the server when the clock here has run down, and then believes it', () => {
    // A fresh reading at each hour keeps the conservative line close to the expected one.
    const readings = Array.from({ length: 13 }, (_, half) => ({
      at: new Date(hours(half / 2)).toISOString(),
      temperatureC: 23,
      accuracyC: 0,
      source: 'metalProbe' as const,
      by: 'T',
    }))
    const ready = [bondClock(bondAtNoon({ readings }), at(6))]
    expect(ready[0]?.phase).toBe('ready')
    expect(moveAnswer(serverNo, ready, false).kind).toBe('asking')
    expect(moveAnswer(serverYes, ready, false).kind).toBe('yes')
    // However sure it was: what is old, or may have changed, is asked for again.
    expect(moveAnswer(serverYes, ready, true).kind).toBe('asking')
    const unread = { mayMove: false, reasons: [{ code: 'too-few-readings', message: '1 of 2' }] }
    expect(moveAnswer(unread, ready, false).kind).toBe('lacking')
  })

  it('says no while a joint is open, whatever the time', () => {
    expect(moveAnswer(serverYes, [bondClock(bondAtNoon({ state: 'applied' }), at(9))], false).kind).toBe('no')
  })

  it('gives the reason when no time can be given', () => {
    const cold = bondAtNoon({
      readings: [],
      forecast: [],
    })
    expect(moveAnswer(serverNo, [bondClock(cold, at(1))], false)).toEqual({
      kind: 'no',
      reason: 'noTemperature',
    })
  })

  it('says that a person must look first, whatever the clocks say', () => {
    const held = { mayMove: false, reasons: [{ code: 'released-early', message: 'at 22 %' }] }
    expect(moveAnswer(held, [bondClock(bondAtNoon({ state: 'released' }), at(9))], false)).toEqual({
      kind: 'held',
    })
    expect(moveAnswer(held, [bondClock(bondAtNoon(), at(1))], false)).toEqual({ kind: 'held' })
  })

  it('follows the server where nothing is bonded', () => {
    expect(moveAnswer(serverYes, [], true)).toEqual({ kind: 'asking' })
    expect(moveAnswer(serverYes, [], false)).toEqual({ kind: 'yes' })
  })
})
