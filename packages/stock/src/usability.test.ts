import { describe, expect, it } from 'vitest'
import { NEVER_OVERRIDABLE, usabilityFaults } from './usability.ts'

const good = {
  state: 'opened',
  remainingMl: 150,
  neededMl: 100,
  effectiveExpiryMs: 2000,
  expiryReason: 'Printed expiry',
  holdReason: null,
  quarantineReason: null,
  fitsDispenser: true,
  atMs: 1000,
} as const

describe('usabilityFaults', () => {
  it('refuses one that is quarantined, whatever becomes of its lot', () => {
    expect(usabilityFaults({ ...good, quarantineReason: 'It froze' })).toEqual([
      { kind: 'quarantined', reason: 'It froze' },
    ])
    expect(NEVER_OVERRIDABLE.has('quarantined')).toBe(true)
  })

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

  it.each(['inTransit', 'missing'] as const)('finds one that is %s nowhere, whatever it holds', (state) => {
    expect(usabilityFaults({ ...good, state, remainingMl: 0 })).toEqual([{ kind: 'away', state }])
  })

  it('takes what it holds to the last drop, and not at the instant at which it expires', () => {
    expect(usabilityFaults({ ...good, remainingMl: 100 })).toEqual([])
    expect(usabilityFaults({ ...good, remainingMl: 99.9 })).toEqual([
      { kind: 'tooLittle', remainingMl: 99.9, neededMl: 100 },
    ])
    expect(usabilityFaults({ ...good, atMs: 1999 })).toEqual([])
    expect(usabilityFaults({ ...good, atMs: 2000 })).toEqual([
      { kind: 'expired', reason: 'Printed expiry', atMs: 2000 },
    ])
  })

  it('lets nobody override what is used up, away, expired or held', () => {
    expect([...NEVER_OVERRIDABLE].toSorted()).toEqual(
      expect.arrayContaining(['away', 'expired', 'onHold', 'usedUp']),
    )
    expect(NEVER_OVERRIDABLE.has('noDispenserFits')).toBe(false)
  })

  it('does not complain of the contents of a discarded one', () => {
    expect(usabilityFaults({ ...good, state: 'discarded', remainingMl: 0 })).toEqual([
      { kind: 'usedUp', state: 'discarded' },
    ])
  })

  it('does not complain of the contents of an empty one', () => {
    expect(usabilityFaults({ ...good, state: 'empty', remainingMl: 0 })).toEqual([
      { kind: 'usedUp', state: 'empty' },
    ])
  })
})
