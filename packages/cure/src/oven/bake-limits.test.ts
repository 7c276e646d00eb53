import { describe, expect, it } from 'vitest'
import { judgeBake, type BakedBond, type BakeQuestion } from './bake-limits.ts'

const bond: BakedBond = {
  joint: 'left quarter',
  product: 'Example structural A',
  serviceRangeC: { min: -40, max: 120 },
  panel: null,
  handlingReadyAt: { kind: 'at', atMs: 1000 },
}
const question: BakeQuestion = {
  moveAtMs: 1000,
  metal: [{ panel: null, peakC: 80 }],
  bonds: [bond],
  vehicleLimitC: 80,
}
const judged = (part: Partial<BakeQuestion>) => judgeBake({ ...question, ...part }).refusals

describe('judgeBake', () => {
  it('lets pass what is exactly at every limit', () => {
    expect(judged({})).toEqual([])
    expect(judged({ metal: [{ panel: null, peakC: 120 }], vehicleLimitC: null })).toEqual([])
  })

  it('refuses a hair above each, with the numbers', () => {
    expect(judged({ metal: [{ panel: null, peakC: 80.1 }] })).toEqual([
      { kind: 'aboveVehicleLimit', panel: null, peakMetalC: 80.1, vehicleLimitC: 80 },
    ])
    expect(judged({ metal: [{ panel: null, peakC: 120.1 }], vehicleLimitC: null })).toEqual([
      {
        kind: 'aboveServiceRange',
        joint: 'left quarter',
        product: 'Example structural A',
        peakMetalC: 120.1,
        highestC: 120,
      },
    ])
    expect(judged({ moveAtMs: 999 })).toEqual([
      {
        kind: 'notPastHandling',
        joint: 'left quarter',
        moveAtMs: 999,
        handlingReadyAt: bond.handlingReadyAt,
      },
    ])
  })

  it('holds a bond against its own panel only', () => {
    const metal = [
      { panel: 'roof', peakC: 130 },
      { panel: 'sill', peakC: 70 },
    ]
    const bonds = ['roof', 'sill'].map((panel) => ({ ...bond, joint: panel, panel }))
    expect(judged({ metal, bonds, vehicleLimitC: null }).map((one) => 'joint' in one && one.joint)).toEqual([
      'roof',
    ])
  })

  it('refuses a joint that was pulled early whatever its clock says, and one with no ready time', () => {
    expect(judged({ bonds: [{ ...bond, heldBy: 'releasedEarly' }] })).toEqual([
      { kind: 'held', joint: 'left quarter', state: 'releasedEarly' },
    ])
    const never = { ...bond, handlingReadyAt: { kind: 'never', reason: 'tooCold' } } as const
    expect(judged({ bonds: [never] }).map(({ kind }) => kind)).toEqual(['notPastHandling'])
  })

  it('says what it held the metal against', () => {
    expect(judgeBake(question).limits).toEqual({
      vehicleC: 80,
      rated: [{ joint: 'left quarter', product: 'Example structural A', rangeC: { min: -40, max: 120 } }],
    })
  })
})
