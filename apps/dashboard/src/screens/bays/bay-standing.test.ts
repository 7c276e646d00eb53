import { describe, expect, it } from 'vitest'
import { bondAtNoon, NOON_MS } from '../../features/bonds/bond-fixture.ts'
import { bayStanding, coldestAhead } from './bay-standing.ts'

const later = (minutes: number) => NOON_MS + minutes * 60_000

describe('bayStanding', () => {
  it('counts down to the conservative ready time while curing', () => {
    const standing = bayStanding({ bonds: [bondAtNoon()], current: null }, later(30))
    expect(standing).toMatchObject({ tone: 'curing', word: 'Curing' })
    const readyAt = standing.governing?.clock.readyAt
    expect(standing.counting?.toMs).toBe(readyAt?.kind === 'at' ? readyAt.atMs : undefined)
  })
  it('puts an open joint before everything else on the vehicle', () => {
    const bonds = [bondAtNoon(), bondAtNoon({ state: 'applied', id: 'open' })]
    expect(bayStanding({ bonds, current: null }, later(5))).toMatchObject({
      tone: 'warning',
      word: 'Joint open',
    })
    expect(bayStanding({ bonds, current: null }, later(45)).tone).toBe('danger')
  })
  it('gives no clock where no time can be given', () => {
    const cold = bondAtNoon({ readings: [], forecast: [] })
    expect(bayStanding({ bonds: [cold], current: null }, later(5))).toMatchObject({
      tone: 'warning',
      counting: null,
    })
  })
  it('tells an empty bay from one in work', () => {
    expect(bayStanding({ bonds: [], current: null }, later(0)).word).toBe('Free')
  })
})

it('finds the coldest hour ahead', () => {
  const at = (hour: number, expectedC: number) => ({ at: `h${hour}`, expectedC, lowC: expectedC - 2 })
  expect(coldestAhead([at(1, 18), at(2, 9), at(3, 12)])?.at).toBe('h2')
  expect(coldestAhead([])).toBeUndefined()
})
