import { describe, expect, it } from 'vitest'
import type { ShopOverview } from '../../api/types.ts'
import { findingsOf } from './findings.ts'

function overview(id: string, stock: Partial<ShopOverview['stock']>, bonds: Partial<ShopOverview['bonds']>) {
  return {
    shop: { id, name: id, timeZone: 'utc', temperatureUnit: 'C', version: 1 },
    stock: {
      sealed: 9,
      opened: 1,
      expired: 0,
      openedPastOpenLife: 0,
      expiresSoon: 0,
      onHold: 0,
      noDispenserFits: 0,
      ...stock,
    },
    bays: { total: 3, occupied: 1 },
    bonds: { curing: 0, mayBeMoved: 0, openIncidents: 0, movedEarly: 0, plannedTooEarly: 0, ...bonds },
    alerts: [],
    openAlerts: 0,
  } satisfies ShopOverview
}

describe('findingsOf', () => {
  it('puts a joint in doubt before stock, however many cartridges there are', () => {
    const { present } = findingsOf([overview('a', { expired: 40 }, { movedEarly: 1, openIncidents: 1 })], [])
    expect(present.map((finding) => finding.key)).toEqual(['movedEarly', 'expired'])
  })

  it('adds up over shops and names only those concerned', () => {
    const { present } = findingsOf(
      [overview('a', { expired: 2 }, {}), overview('b', {}, {}), overview('c', { expired: 3 }, {})],
      [],
    )
    expect(present[0]?.total).toBe(5)
    expect(present[0]?.perShop.map((entry) => entry.shopId)).toEqual(['a', 'c'])
  })

  it('counts clashes from the alerts of the shop', () => {
    const { present } = findingsOf([overview('a', {}, {})], [{ shopId: 'a' }, { shopId: 'elsewhere' }])
    expect(present).toMatchObject([{ key: 'bayClash', total: 1 }])
  })

  it('says what was looked for when nothing is wrong', () => {
    const { present, absent } = findingsOf([overview('a', {}, {})], [])
    expect(present).toEqual([])
    expect(absent).toContain('expired cartridges on hand')
  })
})
