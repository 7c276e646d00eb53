import { describe, expect, it } from 'vitest'
import { bondClock } from './bond-clock.ts'
import { bondAtNoon, NOON_MS } from './bond-fixture.ts'
import { moveAnswer } from './move-answer.ts'

const hours = (count: number) => NOON_MS + count * 3_600_000
const serverYes = { mayMove: true, reasons: [] }
const serverNo = { mayMove: false, reasons: [{ code: 'handling-strength', message: 'at 99 %' }] }

describe('moveAnswer', () => {
  it('gives the latest conservative time while anything cures', () => {
    const clocks = [
      bondClock(bondAtNoon(), hours(1)),
      bondClock(bondAtNoon({ appliedAt: new Date(hours(0.5)).toISOString() }), hours(1)),
    ]
    const answer = moveAnswer(serverNo, clocks)
    expect(answer.kind).toBe('notYet')
    const late = clocks[1]!.readyAt
    expect(answer).toEqual({ kind: 'notYet', atMs: late.kind === 'at' ? late.atMs : 0 })
  })

  it('does not take the yes of a server that is ahead of the clock here', () => {
    expect(moveAnswer(serverYes, [bondClock(bondAtNoon(), hours(1))]).kind).toBe('notYet')
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
    const ready = [bondClock(bondAtNoon({ readings }), hours(6))]
    expect(ready[0]?.phase).toBe('ready')
    expect(moveAnswer(serverNo, ready).kind).toBe('asking')
    expect(moveAnswer(serverYes, ready).kind).toBe('yes')
    const unread = { mayMove: false, reasons: [{ code: 'too-few-readings', message: '1 of 2' }] }
    expect(moveAnswer(unread, ready).kind).toBe('lacking')
  })

  it('says no while a joint is open, whatever the time', () => {
    expect(moveAnswer(serverYes, [bondClock(bondAtNoon({ state: 'applied' }), hours(9))]).kind).toBe('no')
  })

  it('gives the reason when no time can be given', () => {
    const cold = bondAtNoon({
      readings: [],
      forecast: [],
    })
    expect(moveAnswer(serverNo, [bondClock(cold, hours(1))])).toEqual({ kind: 'no', reason: 'noTemperature' })
  })

  it('says that a person must look first, whatever the clocks say', () => {
    const held = { mayMove: false, reasons: [{ code: 'released-early', message: 'at 22 %' }] }
    expect(moveAnswer(held, [bondClock(bondAtNoon({ state: 'released' }), hours(9))])).toEqual({
      kind: 'held',
    })
    expect(moveAnswer(held, [bondClock(bondAtNoon(), hours(1))])).toEqual({ kind: 'held' })
  })

  it('follows the server where nothing is bonded', () => {
    expect(moveAnswer(serverYes, [])).toEqual({ kind: 'yes' })
  })
})
