import { describe, expect, it } from 'vitest'
import { usabilityFaults } from './usability.ts'

const good = {
  state: 'opened',
  remainingMl: 150,
  neededMl: 100,
  effectiveExpiryMs: 2000,
  expiryReason: 'Printed expiry',
  holdReason: null,
  fitsDispenser: true,
  atMs: 1000,
} as const

describe('usabilityFaults', () => {
  it('finds nothing wrong with a good cartridge', () => {
    expect(usabilityFaults(good)).toEqual([])
  })

  it('names every reason at once', () => {
    const faults = usabilityFaults({
      ...good,
      atMs: 2000,
      holdReason: 'recalled',
      fitsDispenser: false,
      remainingMl: 10,
    })
    expect(faults.map(({ kind }) => kind)).toEqual(['expired', 'onHold', 'noDispenserFits', 'tooLittle'])
  })

  it('does not complain of the contents of an empty one', () => {
    expect(usabilityFaults({ ...good, state: 'empty', remainingMl: 0 })).toEqual([
      { kind: 'usedUp', state: 'empty' },
    ])
  })
})
