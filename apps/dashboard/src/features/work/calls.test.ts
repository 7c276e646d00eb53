import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CALLED_AT_MINUTES, callBetween, isUrgent, type Call, type Stood } from './calls.ts'

const open = (minutes: number): Stood => ({ phase: 'open', leftMs: minutes * 60_000 })
const LATE: Stood = { phase: 'late', leftMs: 0 }
const CURING: Stood = { phase: 'curing', leftMs: null }

describe('what is called out', () => {
  it.each([
    [open(15.01), open(15), { kind: 'workTime', minutes: 15 }],
    [open(16), open(0.5), { kind: 'workTime', minutes: 1 }],
    [open(0.2), LATE, { kind: 'workTime', minutes: 0 }],
    [CURING, { phase: 'ready', leftMs: null }, { kind: 'timeHasCome' }],
    // On the screen when it was opened.
    [undefined, open(4), undefined],
    [open(5), open(4.9), undefined],
    // A colder reading gave more time: nothing to call.
    [open(4), open(6), undefined],
    [open(0.5), CURING, undefined],
    [LATE, CURING, undefined],
    [{ phase: 'open', leftMs: null } as const, open(0.5), undefined],
  ] as const)('from %j to %j: %j', (before, now, call) => {
    expect(callBetween(before, now)).toEqual(call)
  })

  it('is each call once, in order, however seldom somebody looks, and always the end', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.001, max: 20, noNaN: true }), { maxLength: 40 }), (steps) => {
        const calls: number[] = []
        let before = open(30)
        let left = 30
        for (const step of [...steps, 1000]) {
          left -= step
          const now = left > 0 ? open(left) : LATE
          const call = callBetween(before, now)
          if (call?.kind === 'workTime') calls.push(call.minutes)
          before = now
        }
        expect(calls.at(-1)).toBe(0)
        expect(calls).toEqual([...new Set(calls)].toSorted((a, b) => b - a))
        expect(CALLED_AT_MINUTES).toEqual(expect.arrayContaining(calls))
      }),
    )
  })

  it('hurries in the last minute alone', () => {
    const called = CALLED_AT_MINUTES.map((minutes): Call => ({ kind: 'workTime', minutes }))
    expect(called.map(isUrgent)).toEqual([false, false, true, true])
    expect(isUrgent({ kind: 'timeHasCome' })).toBe(false)
  })
})
