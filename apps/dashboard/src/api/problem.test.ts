import { describe, expect, it } from 'vitest'
import {
  isWorthRetrying,
  sortReasons,
  toProblemError,
  UnreachableError,
  waitBeforeAsking,
} from './problem.ts'

describe('toProblemError', () => {
  it('takes the code from the type and keeps every reason', () => {
    const error = toProblemError(409, {
      type: '/problems/bond-refused',
      title: 'The bond may not be started',
      reasons: [{ code: 'tooCold', message: 'The panel is at 4 degC.' }],
    })
    expect(error.code).toBe('bond-refused')
    expect(error.message).toBe('The bond may not be started')
    expect(error.reasons).toHaveLength(1)
  })

  it('survives an answer that is no problem document', () => {
    expect(toProblemError(502, 'Bad gateway').message).toContain('502')
    expect(toProblemError(502, null).code).toBe('unknown')
  })
})

describe('isWorthRetrying', () => {
  it('retries silence and server faults, never a refusal', () => {
    expect(isWorthRetrying(new UnreachableError('offline'))).toBe(true)
    expect(isWorthRetrying(toProblemError(503, {}))).toBe(true)
    expect(isWorthRetrying(toProblemError(409, {}))).toBe(false)
  })
})

describe('sortReasons', () => {
  it('puts a reason beside its field with its fix, and the rest apart', () => {
    const sorted = sortReasons(
      [
        { code: 'a', message: 'Too many.', field: 'body.cartridges', fix: 'At most 500.' },
        { code: 'b', message: 'Elsewhere.', field: 'body.other' },
        { code: 'c', message: 'General.' },
      ],
      ['cartridges'],
    )
    expect(sorted.byField).toEqual({ cartridges: 'Too many. At most 500.' })
    expect(sorted.others.map((reason) => reason.code)).toEqual(['b', 'c'])
  })

  it('puts a reason about a part of a field beside that field', () => {
    const reason = { code: 'a', message: 'No such day.', field: 'body.printedExpiry.date' }
    expect(sortReasons([reason], ['printedExpiry']).byField).toEqual({ printedExpiry: 'No such day.' })
  })
})

describe('waitBeforeAsking', () => {
  it('is as long as the service says where too much was asked of it, and never over a minute', () => {
    expect(waitBeforeAsking(0, toProblemError(429, {}, '16'))).toBe(16_000)
    expect(waitBeforeAsking(7, toProblemError(429, {}, '16'))).toBe(16_000)
    expect(waitBeforeAsking(0, toProblemError(429, {}, '86400'))).toBe(60_000)
  })

  it('is a second at least, and where the service does not say, or not in seconds', () => {
    for (const header of [null, '', 'Fri, 27 Nov 2026 20:00:00 GMT', '-5', '0'])
      expect(waitBeforeAsking(0, toProblemError(429, {}, header))).toBe(1000)
  })

  it('grows twice after silence or a fault, and then nothing is asked again', () => {
    const waits = [0, 1, 2].map((failures) => waitBeforeAsking(failures, new UnreachableError(undefined)))
    expect(waits).toEqual([1000, 2000, undefined])
    expect(waitBeforeAsking(0, toProblemError(503, {}))).toBe(1000)
  })

  it('is none for what would be refused again', () => {
    expect(waitBeforeAsking(0, toProblemError(409, {}))).toBeUndefined()
  })
})
