import type { MoveCheck, ReadyInstant } from '@clampclock/contracts'
import { describe, expect, it } from 'vitest'
import type { BondRow } from './bond-store.ts'
import { latest, vehicleCheck, type AnsweredAttempt } from './move-check.ts'

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

/** An attempt at a joint of its own, as much of it as is asked of here. */
const attempt = (
  jointId: string,
  state: string,
  answer: MoveCheck,
  kinds: string[] = [],
): AnsweredAttempt => ({
  row: {
    id: `${jointId} ${state}`,
    jointId,
    state,
    wasLifted: false,
    incidents: kinds.map((kind) => ({ kind, disposition: null })),
  } as unknown as BondRow,
  check: answer,
})

describe('vehicleCheck', () => {
  it('waits for every joint, and gives all their reasons', () => {
    const whole = vehicleCheck(
      [
        attempt('a', 'clamped', check(at(-1), [])),
        attempt('b', 'clamped', check(at(2), ['handling-strength'])),
        attempt('c', 'clamped', check(at(1), ['clamped-late']), ['clampedAfterWorkTime']),
      ],
      now,
    )
    expect(whole).toMatchObject({ mayMove: false, readyAt: at(2) })
    expect(whole.reasons.map(({ code }) => code)).toEqual(['handling-strength', 'clamped-late'])
  })

  it('lets a vehicle without bonds, or with ready ones only, go now', () => {
    expect(vehicleCheck([], now)).toEqual({
      mayMove: true,
      asOf: now,
      readyAt: at(0),
      reasons: [],
      measureAgain: null,
    })
    expect(vehicleCheck([attempt('a', 'clamped', check(at(-3), []))], now).mayMove).toBe(true)
  })

  it('does not forget what is over: released early, or left with adhesive on it', () => {
    const early = attempt('a', 'released', check(at(-3), ['released-early']), ['earlyRelease'])
    expect(vehicleCheck([early], now)).toMatchObject({
      mayMove: false,
      reasons: [{ code: 'released-early' }],
    })
    const left = attempt('a', 'abandoned', check(at(-3), ['adhesive-left']), ['leftWithAdhesive'])
    expect(vehicleCheck([left], now).mayMove).toBe(false)
    expect(vehicleCheck([left, attempt('a', 'released', check(at(-1), []))], now).mayMove).toBe(true)
    expect(vehicleCheck([early, attempt('a', 'released', check(at(-1), []))], now).mayMove).toBe(false)
  })
})
