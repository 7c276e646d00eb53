import { describe, expect, it } from 'vitest'
import { byUsefulness, standingOf } from './standing.ts'

const now = Date.parse('2031-05-04T12:00:00Z')
const good = {
  state: 'sealed' as 'sealed' | 'opened' | 'empty' | 'discarded',
  hold: null as { reason: string; since: string } | null,
  quarantine: null as { reason: string; since: string } | null,
  effectiveExpiryAt: '2031-08-01T06:00:00Z',
  expiryReason: 'Printed expiry 31 July 2031.',
  fitsDispenser: true,
  urgency: 'good' as 'good' | 'soon' | 'expired',
  remainingMl: 200,
}

describe('standingOf', () => {
  it('lets a good one be used', () => {
    expect(standingOf(good, now)).toMatchObject({ mayUse: true, word: 'Good' })
  })
  it('turns it down the moment its expiry passes, before the server says so', () => {
    expect(standingOf({ ...good, effectiveExpiryAt: '2031-05-04T12:00:00Z' }, now)).toMatchObject({
      mayUse: false,
      word: 'Expired',
    })
  })
  it('turns down what is on hold or fits no dispenser', () => {
    expect(standingOf({ ...good, hold: { reason: 'Recall', since: '' } }, now).sentence).toContain('Recall')
    expect(standingOf({ ...good, fitsDispenser: false }, now)).toMatchObject({
      mayUse: false,
      tone: 'warning',
    })
  })
  it('turns down what is quarantined, though its lot is not held', () => {
    const frozen = { ...good, quarantine: { reason: 'It froze', since: '' } }
    expect(standingOf(frozen, now)).toMatchObject({
      mayUse: false,
      word: 'Quarantined',
      sentence: 'Quarantined: It froze',
    })
  })
  it('says expired before on hold: nothing brings it back', () => {
    const both = { ...good, urgency: 'expired' as const, hold: { reason: 'Recall', since: '' } }
    expect(standingOf(both, now).word).toBe('Expired')
  })
})

it('offers what is kept for this very joint before all, unless it may not be used', () => {
  const list = [
    { ...good, id: 'openedEnough', state: 'opened' as const },
    { ...good, id: 'kept' },
    { ...good, id: 'keptDead', effectiveExpiryAt: '2031-05-01T06:00:00Z' },
  ]
  expect(list.sort(byUsefulness(50, now, ['kept', 'keptDead'])).map(({ id }) => id)).toEqual([
    'kept',
    'openedEnough',
    'keptDead',
  ])
})

it('takes an opened one that holds 52.97 for a need that reads 53', () => {
  const list = [
    { ...good, id: 'sealed' },
    { ...good, id: 'opened', state: 'opened' as const, remainingMl: 52.97 },
  ]
  expect(list.sort(byUsefulness(52.9704, now))[0]!.id).toBe('opened')
})

it('offers the opened one that suffices first, then by expiry, and the unusable last', () => {
  const list = [
    { ...good, id: 'late' },
    { ...good, id: 'early', effectiveExpiryAt: '2031-06-01T06:00:00Z' },
    {
      ...good,
      id: 'openedTooLittle',
      state: 'opened' as const,
      remainingMl: 10,
      effectiveExpiryAt: '2031-07-01T06:00:00Z',
    },
    { ...good, id: 'openedEnough', state: 'opened' as const, effectiveExpiryAt: '2031-09-01T06:00:00Z' },
    { ...good, id: 'dead', effectiveExpiryAt: '2031-05-01T06:00:00Z' },
  ]
  expect(list.sort(byUsefulness(50, now)).map(({ id }) => id)).toEqual([
    'openedEnough',
    'early',
    'openedTooLittle',
    'late',
    'dead',
  ])
})
