import type { MoveCheck, ReadyInstant } from '@clampclock/contracts'
import { describe, expect, it } from 'vitest'
import { combinedMoveCheck, latest } from './move-check.ts'

const now = new Date('2031-05-07T12:00:00Z')
const at = (hours: number): ReadyInstant => ({ kind: 'at', at: new Date(now.getTime() + hours * 3_600_000) })
const never: ReadyInstant = { kind: 'never', reason: 'tooCold' }
const check = (readyAt: ReadyInstant, codes: string[]): MoveCheck => ({
  mayMove: codes.length === 0,
  asOf: now,
  readyAt,
  reasons: codes.map((code) => ({ code, message: code })),
})

describe('latest', () => {
  it('is the last of them, and never beats every instant', () => {
    expect(latest([at(3), at(5), at(1)])).toEqual(at(5))
    expect(latest([at(3), never, at(9)])).toEqual(never)
    expect(latest([])).toBeUndefined()
  })
})

describe('combinedMoveCheck', () => {
  it('waits for every bond, and gives all their reasons', () => {
    const combined = combinedMoveCheck(
      [check(at(-1), []), check(at(2), ['handling-strength']), check(at(1), ['clamped-late'])],
      now,
    )
    expect(combined).toMatchObject({ mayMove: false, readyAt: at(2) })
    expect(combined.reasons.map(({ code }) => code)).toEqual(['handling-strength', 'clamped-late'])
  })

  it('lets a vehicle without bonds, or with ready ones only, go now', () => {
    expect(combinedMoveCheck([], now)).toEqual({ mayMove: true, asOf: now, readyAt: at(0), reasons: [] })
    expect(combinedMoveCheck([check(at(-3), [])], now).mayMove).toBe(true)
  })
})
