import type { MoveCheck, ReadyInstant } from '@clampclock/contracts'
import { asTold } from '../../foundation/words/from-text.ts'
import { describe, expect, it } from 'vitest'
import type { BondRow } from './bond-store.ts'
import { latest, moveCheckOf, vehicleCheck, type AnsweredAttempt } from './move-check.ts'

const now = new Date('2031-05-07T12:00:00Z')
const at = (hours: number): ReadyInstant => ({ kind: 'at', at: new Date(now.getTime() + hours * 3_600_000) })
const never: ReadyInstant = { kind: 'never', reason: 'tooCold' }
const check = (readyAt: ReadyInstant, codes: string[]): MoveCheck => ({
  mayMove: codes.length === 0,
  asOf: now,
  readyAt,
  reasons: codes.map((code) => ({ code, message: asTold(code) })),
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

describe('moveCheckOf', () => {
  const line = (conservative: number, expected: number) => ({
    progress: { conservative, expected, earliest: expected + 1 },
    readyAt: {
      conservative: { kind: 'at', atMs: now.getTime() },
      expected: { kind: 'at', atMs: now.getTime() },
      earliest: { kind: 'at', atMs: now.getTime() },
    },
  })
  const answer = (
    conservative: number,
    expected: number,
    { state = 'clamped', fault = null }: { state?: string; fault?: string | null } = {},
  ) =>
    moveCheckOf(
      {
        ...attempt('a', state, check(at(0), [])).row,
        joint: { name: 'Sill', safetyClass: 'S3' },
        panelReadings: [],
      } as unknown as BondRow,
      {
        estimate: { handlingStrength: line(conservative, expected), notes: [] },
        asOf: now,
        fault,
        measureAgain: null,
      } as unknown as Parameters<typeof moveCheckOf>[1],
      'UTC',
    )

  it('asks the careful line, not the expected one', () => {
    expect(answer(0.999, 1.4)).toMatchObject({ mayMove: false, reasons: [{ code: 'handling-strength' }] })
    expect(answer(1, 1.4)).toMatchObject({ mayMove: true, reasons: [] })
  })

  it('says no of what cannot be computed, and of what is not closed', () => {
    expect(answer(2, 2, { fault: 'a reading of 900 degC' })).toMatchObject({
      mayMove: false,
      reasons: [{ code: 'cannot-compute' }],
    })
    expect(answer(2, 2, { state: 'applied' })).toMatchObject({
      mayMove: false,
      reasons: [{ code: 'not-clamped' }],
    })
  })
})
