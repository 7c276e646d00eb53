import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { allot, applicationOf, missingIn, NO_BAY, type Draft } from './application.ts'

const full: Draft = {
  cartridgeIds: ['a', 'b'],
  dispenserId: 'd',
  bayId: NO_BAY,
  panelC: 21,
  thermometer: { source: 'infrared', instrumentId: 'i', accuracyC: undefined },
  airC: 20,
  humidityPercent: 55,
  hygrometerId: '',
  airReadWith: '',
  amountMl: 70,
  prepared: ['bareMetal', 'solventWiped', 'flashedOff', 'dryFit'],
  confirmed: [],
  shortBecause: '',
  overrides: { belowRange: 'Heated with a lamp', empty: '  ' },
}
const cartridges = [
  { id: 'a', remainingMl: 40 },
  { id: 'b', remainingMl: 200 },
]

describe('allot', () => {
  it('empties the first before the next is begun', () => {
    expect(allot(70, cartridges)).toEqual([
      { cartridgeId: 'a', amountMl: 40 },
      { cartridgeId: 'b', amountMl: 30 },
    ])
  })
  it('leaves out a cartridge that is not needed', () => {
    expect(allot(30, cartridges)).toHaveLength(1)
  })
  it('asks of the last what is short, so that the service can say so', () => {
    expect(allot(300, cartridges).at(-1)).toEqual({ cartridgeId: 'b', amountMl: 260 })
  })
  it('leaves what is kept for other joints, as long as the others suffice', () => {
    const [a, b] = [
      { id: 'a', remainingMl: 147, freeMl: 41 },
      { id: 'b', remainingMl: 20, freeMl: 20 },
    ]
    expect(allot(53, [a, b])).toEqual([
      { cartridgeId: 'a', amountMl: 41 },
      { cartridgeId: 'b', amountMl: 12 },
    ])
    expect(allot(70, [a, b])).toEqual([
      { cartridgeId: 'a', amountMl: 50 },
      { cartridgeId: 'b', amountMl: 20 },
    ])
    expect(allot(53, [a])).toEqual([{ cartridgeId: 'a', amountMl: 53 }])
  })
  it('shares out the whole amount whatever is chosen', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.array(fc.integer({ min: 0, max: 220 }), { minLength: 1, maxLength: 6 }),
        (amountMl, held) => {
          const shares = allot(
            amountMl,
            held.map((remainingMl, index) => ({ id: `${index}`, remainingMl })),
          )
          expect(shares.reduce((sum, share) => sum + share.amountMl, 0)).toBeCloseTo(amountMl, 6)
        },
      ),
    )
  })
})

describe('missingIn', () => {
  it('names what is not filled in', () => {
    expect(missingIn({ ...full, cartridgeIds: [], panelC: undefined }).map(({ field }) => field)).toEqual([
      'cartridge',
      'panel',
    ])
    expect(missingIn(full)).toEqual([])
  })
  it('takes it for no answer that nobody said where the vehicle stands', () => {
    expect(missingIn({ ...full, bayId: '' }).map(({ field }) => field)).toEqual(['bay'])
    expect(applicationOf({ ...full, bayId: 'b' }, cartridges, undefined)).toMatchObject({ bayId: 'b' })
  })
  it('asks what read the air only where a hygrometer may have', () => {
    const named = { ...full, hygrometerId: 'h' }
    expect(missingIn(named).map(({ field }) => field)).toEqual(['airReadWith'])
    expect(missingIn({ ...named, airReadWith: 'panelThermometer' })).toEqual([])
    expect(applicationOf({ ...named, airReadWith: 'hygrometer' }, cartridges, undefined)).toMatchObject({
      airReadWith: 'hygrometer',
    })
    // Chosen for a hygrometer that was taken back: it says nothing any more.
    expect(applicationOf({ ...full, airReadWith: 'hygrometer' }, cartridges, undefined)).not.toHaveProperty(
      'airReadWith',
    )
  })
  it('takes nought degrees for an answer', () => {
    expect(missingIn({ ...full, panelC: 0, airC: 0 })).toEqual([])
  })
})

describe('applicationOf', () => {
  it('writes the request, with overrides that have a reason', () => {
    const body = applicationOf(full, cartridges, '2031-05-04T12:00:00Z')
    expect(body).toMatchObject({
      cartridgeId: 'a',
      amountMl: 40,
      moreCartridges: [{ cartridgeId: 'b', amountMl: 30 }],
      bayId: null,
      prepared: { surfaces: true, dryFit: true, skimCoat: false },
      preparation: ['bareMetal', 'solventWiped', 'flashedOff', 'dryFit'],
      panel: { temperatureC: 21, accuracyC: 1, source: 'infrared', instrumentId: 'i' },
      hygrometerId: null,
      confirmed: [],
      shortAmount: null,
      overrides: [{ code: 'belowRange', reason: 'Heated with a lamp' }],
      appliedAt: '2031-05-04T12:00:00Z',
    })
  })
  it('is none while something is missing', () => {
    expect(applicationOf({ ...full, airC: undefined }, cartridges, undefined)).toBeUndefined()
  })
})
