import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { beadAmount, cartridgeReach, type BeadPlan, type BeadShape } from './bead.ts'
import { between } from '../testing.ts'

const metre = { shape: 'round', diameterMm: 6, lengthMm: 1000, cartridgeMl: 200 } as const

describe('beadAmount', () => {
  it('adds bead, skim coat, waste and what the nozzles keep', () => {
    const amount = beadAmount({
      ...metre,
      lengthMm: 3000,
      skimWidthMm: 25,
      skimFilmMm: 0.2,
      wasteShare: 0.1,
      nozzleHoldUpMl: 6,
    })
    expect(amount.beadMl).toBeCloseTo(84.823, 3)
    expect(amount.skimMl).toBeCloseTo(15, 12)
    expect(amount.wasteMl).toBeCloseTo((84.823 + 15) / 9, 3)
    expect(amount).toMatchObject({ cartridges: 1, nozzles: 1, nozzleMl: 6 })
    expect(amount.totalMl).toBeCloseTo(amount.beadMl + amount.skimMl + amount.wasteMl + amount.nozzleMl, 12)
  })

  it('takes a cartridge when it takes a cartridge exactly, and one more for a drop more', () => {
    const exactly = { shape: 'triangular', widthMm: 10, heightMm: 8, cartridgeMl: 200 } as const
    expect(beadAmount({ ...exactly, lengthMm: 5000 }).cartridges).toBe(1)
    expect(beadAmount({ ...exactly, lengthMm: 5001 }).cartridges).toBe(2)
  })

  it('counts extra nozzles against the cartridges', () => {
    const plan = { ...metre, lengthMm: 6500, nozzleHoldUpMl: 8 }
    expect(beadAmount(plan)).toMatchObject({ cartridges: 1, nozzles: 1 })
    expect(beadAmount({ ...plan, nozzles: 3 })).toMatchObject({ cartridges: 2, nozzles: 3, nozzleMl: 24 })
  })

  it('never gives fewer nozzles than cartridges', () => {
    expect(beadAmount({ ...metre, lengthMm: 20_000, nozzles: 1 })).toMatchObject({
      cartridges: 3,
      nozzles: 3,
    })
  })

  it('spreads a bead over its flange, down to the glass beads and no further', () => {
    const thin = beadAmount({ ...metre, diameterMm: 2, flangeWidthMm: 25, glassBeadMm: 0.25 })
    expect(thin).toMatchObject({ filmMm: 0.25, squeezeOutShare: 0 })
    const thick = beadAmount({ ...metre, flangeWidthMm: 25, glassBeadMm: 0.25 })
    expect(thick.filmMm).toBeCloseTo(28.274 / 25, 4)
    expect(thick.squeezeOutShare).toBeCloseTo(1 - (0.25 * 25) / 28.274, 4)
  })

  it('sets dispensing time against work time', () => {
    const plan = { ...metre, lengthMm: 5000, flowMlPerMinute: 30, workTimeMinutes: 5 }
    expect(beadAmount(plan).dispensingMinutes).toBeCloseTo(141.372 / 30, 4)
    expect(beadAmount(plan).isTimely).toBe(true)
    expect(beadAmount({ ...plan, workTimeMinutes: 4 }).isTimely).toBe(false)
    expect(beadAmount(metre)).toMatchObject({ dispensingMinutes: null, isTimely: null, filmMm: null })
  })

  it('never takes less for more', () => {
    const length = between(0, 50_000)
    const more = between(0, 5000)
    fc.assert(
      fc.property(length, more, between(0, 0.5), (lengthMm, extraMm, wasteShare) => {
        const plan = { ...metre, wasteShare, nozzleHoldUpMl: 5 }
        const [less, all] = [
          beadAmount({ ...plan, lengthMm }),
          beadAmount({ ...plan, lengthMm: lengthMm + extraMm }),
        ]
        expect(all.totalMl).toBeGreaterThanOrEqual(less.totalMl)
        expect(all.cartridges).toBeGreaterThanOrEqual(less.cartridges)
        expect(less.cartridges * plan.cartridgeMl + 1e-6).toBeGreaterThanOrEqual(less.totalMl)
      }),
    )
  })

  it.each<[string, Partial<BeadShape & BeadPlan>, RegExp]>([
    ['a negative length', { lengthMm: -1 }, /lengthMm is -1/],
    ['a bead of no width', { diameterMm: 0 }, /diameterMm is 0/],
    ['a negative film', { skimFilmMm: -0.2, skimWidthMm: 10 }, /skimFilmMm is -0.2/],
    ['all of it wasted', { wasteShare: 1 }, /wasteShare is 1/],
    ['half a nozzle', { nozzles: 0.5 }, /nozzles is 0.5/],
    ['an empty cartridge', { cartridgeMl: 0 }, /cartridgeMl is 0/],
    ['a nozzle that holds a cartridge', { nozzleHoldUpMl: 200 }, /nozzleHoldUpMl is 200/],
    ['a flange of no width', { flangeWidthMm: NaN }, /flangeWidthMm is NaN/],
    ['a gun that stands still', { flowMlPerMinute: 0 }, /flowMlPerMinute is 0/],
  ])('refuses %s by name', (_, part, message) => {
    expect(() => beadAmount({ ...metre, ...part } as BeadShape & BeadPlan)).toThrow(message)
  })
})

describe('cartridgeReach', () => {
  it('is the length that takes one cartridge and not a drop more', () => {
    const beads = [
      { shape: 'round', diameterMm: 5 },
      { shape: 'triangular', widthMm: 9, heightMm: 12 },
    ] as const
    const rest = { skimWidthMm: 25, skimFilmMm: 0.2, nozzleHoldUpMl: 6, wasteShare: 0.1 }
    const table = cartridgeReach([50, 200], beads, rest)
    expect(table).toHaveLength(4)
    for (const { bead, cartridgeMl, lengthMm } of table) {
      expect(beadAmount({ ...bead, ...rest, cartridgeMl, lengthMm }).totalMl).toBeCloseTo(cartridgeMl, 9)
    }
  })
})

describe('what cannot be', () => {
  const good = { ...metre, flangeWidthMm: 20, flowMlPerMinute: 30, workTimeMinutes: 5 }
  const notch = { shape: 'triangular', widthMm: 10, heightMm: 8, lengthMm: 1000, cartridgeMl: 200 } as const

  it.each([
    [{ ...good, diameterMm: 0 }, 'diameterMm', 'mm', 'measure the nozzle cut'],
    [{ ...notch, widthMm: 0 }, 'widthMm', 'mm', 'measure the nozzle notch'],
    [{ ...notch, heightMm: -1 }, 'heightMm', 'mm', 'measure the nozzle notch'],
    [{ ...good, lengthMm: -1 }, 'lengthMm', 'mm', 'measure the joint'],
    [{ ...good, skimWidthMm: -1 }, 'skimWidthMm', 'mm', 'measure the bared metal'],
    [{ ...good, skimFilmMm: -1 }, 'skimFilmMm', 'mm', 'give the film of the skim coat'],
    [{ ...good, nozzleHoldUpMl: -1 }, 'nozzleHoldUpMl', 'mL', 'give what one nozzle keeps'],
    [{ ...good, wasteShare: 10 }, 'wasteShare', 'parts of one', 'give 0.1 for 10 %'],
    [{ ...good, cartridgeMl: 0 }, 'cartridgeMl', 'mL', 'see the cartridge'],
    [{ ...good, flangeWidthMm: 0 }, 'flangeWidthMm', 'mm', 'measure the flange'],
    [{ ...good, glassBeadMm: -0.1 }, 'glassBeadMm', 'mm', 'see the data sheet'],
    [{ ...good, flowMlPerMinute: 0 }, 'flowMlPerMinute', 'mL/min', 'time the gun'],
    [{ ...good, workTimeMinutes: 0 }, 'workTimeMinutes', 'minutes', 'see the data sheet'],
  ] as const)('%o is refused by field, unit and fix: %s, %s, %s', (plan, field, unit, fix) => {
    const refused = () => beadAmount(plan as BeadShape & BeadPlan)
    expect(refused).toThrow(RangeError)
    expect(refused).toThrow(
      new RegExp(`^${field} is .*${unit.replace('/', '\\/')}.*${fix.replace('.', '\\.')}`),
    )
  })

  it.each([0, -1, 1.5, Number.NaN])('%d nozzles are none that can be counted', (nozzles) => {
    expect(() => beadAmount({ ...good, nozzles })).toThrow(
      `nozzles is ${nozzles}, but must be a whole number, one or more: count the nozzles`,
    )
  })

  it('a nozzle that keeps a whole cartridge back is a slip', () => {
    expect(() => beadAmount({ ...good, nozzleHoldUpMl: 200 })).toThrow(
      'nozzleHoldUpMl is 200, as much as a whole cartridge (200 mL): check both',
    )
  })
})

describe('at the edge', () => {
  it('no length takes no cartridge, no nozzle, nothing', () => {
    expect(beadAmount({ ...metre, lengthMm: 0, nozzleHoldUpMl: 8 })).toMatchObject({
      cartridges: 0,
      nozzles: 0,
      totalMl: 0,
    })
  })

  it('as many nozzles as cartridges need no more adhesive than they hold', () => {
    const plan = { ...metre, lengthMm: 20_000, nozzleHoldUpMl: 8 }
    expect(beadAmount({ ...plan, nozzles: 3 })).toEqual(beadAmount(plan))
  })

  it('without glass beads nothing stops the panels, and nothing is pressed out', () => {
    expect(beadAmount({ ...metre, flangeWidthMm: 25 }).squeezeOutShare).toBe(0)
    expect(beadAmount({ ...metre, flangeWidthMm: 25, glassBeadMm: 0 }).squeezeOutShare).toBe(0)
  })

  it('dispensing that takes the whole work time is not in time, and without a flow nobody can say', () => {
    const round = { shape: 'triangular', widthMm: 10, heightMm: 8, lengthMm: 1000, cartridgeMl: 200 } as const
    // 40 mL at 10 mL a minute.
    expect(beadAmount({ ...round, flowMlPerMinute: 10, workTimeMinutes: 4 })).toMatchObject({
      dispensingMinutes: 4,
      isTimely: false,
    })
    expect(beadAmount({ ...round, flowMlPerMinute: 10 })).toMatchObject({
      dispensingMinutes: 4,
      isTimely: null,
    })
    expect(beadAmount({ ...round, workTimeMinutes: 4 })).toMatchObject({
      dispensingMinutes: null,
      isTimely: null,
    })
  })
})
