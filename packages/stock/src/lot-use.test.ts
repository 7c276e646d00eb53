import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lotUse, type LotCartridge } from './lot-use.ts'
import { usabilityFaults, type CartridgeState } from './usability.ts'

const NOW = 1000
const STATES: readonly CartridgeState[] = ['sealed', 'opened', 'empty', 'discarded', 'inTransit', 'missing']
const EVERY_ONE: readonly LotCartridge[] = STATES.flatMap((state) =>
  [NOW, NOW + 1].flatMap((effectiveExpiryMs) =>
    [null, 'It froze'].map((quarantineReason) => ({ state, effectiveExpiryMs, quarantineReason })),
  ),
)

const piece = (state: CartridgeState, ...is: ('expired' | 'quarantined')[]): LotCartridge => ({
  state,
  effectiveExpiryMs: is.includes('expired') ? NOW : NOW + 1,
  quarantineReason: is.includes('quarantined') ? 'It froze' : null,
})

/** What the gate would say of it, were it here. */
function refusals(cartridge: LotCartridge, state = cartridge.state) {
  return usabilityFaults({
    ...cartridge,
    state,
    atMs: NOW,
    expiryReason: 'Printed',
    holdReason: null,
    fitsDispenser: true,
    remainingMl: 200,
    neededMl: 10,
  })
}
const isLeft = ({ state }: LotCartridge) => state !== 'empty' && state !== 'discarded'

describe('lotUse', () => {
  it.each([
    ['usable', [piece('sealed'), piece('opened', 'expired'), piece('sealed', 'quarantined')]],
    ['usable', [piece('opened')]],
    ['away', [piece('inTransit'), piece('sealed', 'quarantined'), piece('empty')]],
    ['away', [piece('missing'), piece('opened', 'expired')]],
    ['quarantined', [piece('sealed', 'quarantined'), piece('opened', 'quarantined')]],
    ['quarantined', [piece('sealed', 'quarantined'), piece('sealed', 'expired')]],
    ['quarantined', [piece('inTransit', 'quarantined')]],
    ['expired', [piece('sealed', 'expired'), piece('inTransit', 'expired'), piece('empty')]],
    ['expired', [piece('sealed', 'expired', 'quarantined')]],
    ['noneLeft', [piece('empty'), piece('discarded', 'quarantined')]],
    ['noneLeft', []],
  ] as const)('says %s of such a mix', (says, mix) => {
    expect(lotUse(mix, null, NOW)).toBe(says)
    expect(lotUse(mix, 'Pistons crack', NOW)).toBe('onHold')
  })

  it('is true of every mix: it says what the gate says of each cartridge', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...EVERY_ONE), { maxLength: 6 }), (mix) => {
        const left = mix.filter(isLeft)
        const holds = {
          onHold: false,
          usable: left.some((each) => refusals(each).length === 0),
          away:
            left.every((each) => refusals(each).length > 0) &&
            left.some((each) => refusals(each, 'sealed').length === 0),
          quarantined:
            left.every((each) => refusals(each, 'sealed').length > 0) &&
            left.some((each) => refusals(each).every(({ kind }) => kind !== 'expired')),
          expired:
            left.length > 0 && left.every((each) => refusals(each).some(({ kind }) => kind === 'expired')),
          noneLeft: left.length === 0,
        }
        expect(holds[lotUse(mix, null, NOW)]).toBe(true)
        expect(Object.values(holds).filter(Boolean)).toHaveLength(1)
      }),
      { numRuns: 2000 },
    )
  })
})
