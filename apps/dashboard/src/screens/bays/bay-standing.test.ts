import { describe, expect, it } from 'vitest'
import { bondAtNoon, NOON_MS } from '../../features/bonds/bond-fixture.ts'
import type { Bond } from '../../api/types.ts'
import { bayStanding, coldestAhead } from './bay-standing.ts'

const later = (minutes: number) => {
  const ms = NOON_MS + minutes * 60_000
  return { earliestMs: ms, latestMs: ms }
}

const NEVER = { kind: 'never', reason: 'noTemperature' } as const

describe('bayStanding', () => {
  it('counts down to the conservative ready time while curing', () => {
    const standing = bayStanding({ bonds: [bondAtNoon()], current: null, held: [] }, later(30), false)
    expect(standing).toMatchObject({ tone: 'curing', word: 'Curing' })
    const readyAt = standing.governing?.clock.readyAt
    expect(standing.counting?.toMs).toBe(readyAt?.kind === 'at' ? readyAt.atMs : undefined)
  })
  it('puts an open joint before everything else on the vehicle', () => {
    const bonds = [bondAtNoon(), bondAtNoon({ state: 'applied', id: 'open' })]
    expect(bayStanding({ bonds, current: null, held: [] }, later(5), false)).toMatchObject({
      tone: 'warning',
      word: 'Joint open',
    })
    expect(bayStanding({ bonds, current: null, held: [] }, later(45), false).tone).toBe('danger')
  })
  it('gives no clock where no time can be given', () => {
    const cold = bondAtNoon({ readings: [], forecast: [] })
    expect(bayStanding({ bonds: [cold], current: null, held: [] }, later(5), false)).toMatchObject({
      tone: 'warning',
      counting: null,
    })
  })
  it('says that it may be moved only by a fresh answer of the service', () => {
    const answered = (moveCheck: Bond['moveCheck']) => bondAtNoon({ moveCheck })
    const yes = { mayMove: true, asOf: new Date(NOON_MS).toISOString(), readyAt: NEVER, reasons: [] }
    const no = { ...yes, mayMove: false, reasons: [{ code: 'handling-strength', message: 'at 99 %' }] }
    const missing = { ...no, reasons: [{ code: 'too-few-readings', message: '1 of 2' }] }
    const word = (check: Bond['moveCheck'], isInDoubt = false) =>
      bayStanding({ bonds: [answered(check)], current: null, held: [] }, later(6000), isInDoubt).word
    expect(word(yes)).toBe('May be moved')
    expect(word(yes, true)).toBe('Asking the service…')
    expect(word(no)).toBe('Asking the service…')
    expect(word(missing)).toBe('Cured, but something is missing')
  })
  it('does not call a vehicle ready or in work of which a joint must be looked at', () => {
    const held = [{ code: 'released-early', message: 'at 22 %' }]
    expect(bayStanding({ bonds: [], current: null, held }, later(0), false)).toMatchObject({
      tone: 'danger',
      word: 'Must be inspected or made again',
    })
  })
  it('tells an empty bay from one in work', () => {
    expect(bayStanding({ bonds: [], current: null, held: [] }, later(0), false).word).toBe('Free')
  })
})

it('finds the coldest hour ahead', () => {
  const at = (hour: number, expectedC: number) => ({ at: `h${hour}`, expectedC, lowC: expectedC - 2 })
  expect(coldestAhead([at(1, 18), at(2, 9), at(3, 12)])?.at).toBe('h2')
  expect(coldestAhead([])).toBeUndefined()
})
