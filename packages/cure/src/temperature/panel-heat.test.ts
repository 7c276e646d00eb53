import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { MATERIALS } from './materials.ts'
import { minutesToTemperature, panelArcs, panelTimeConstant, peakC, type Panel } from './panel-heat.ts'
import { arcC } from './temperature-arc.ts'
import { fitTimeConstant } from './time-constant-fit.ts'
import { between } from '../testing.ts'

const sheet: Panel = {
  layers: [{ material: MATERIALS.mildSteel, thicknessMm: 1 }],
  sidesHeated: 2,
  heatTransferWPerM2K: 25,
}

describe('panelTimeConstant', () => {
  it('halves with a second side and grows with the thickness', () => {
    const one = panelTimeConstant({ ...sheet, sidesHeated: 1 })
    const two = panelTimeConstant(sheet)
    const thick = panelTimeConstant({ ...sheet, layers: [{ material: MATERIALS.mildSteel, thicknessMm: 2 }] })
    expect(one).toMatchObject({ kind: 'lumped' })
    if (one.kind !== 'lumped' || two.kind !== 'lumped' || thick.kind !== 'lumped') return
    expect(one.tauMinutes).toBeCloseTo(2 * two.tauMinutes, 12)
    expect(thick.tauMinutes).toBeCloseTo(2 * two.tauMinutes, 12)
  })

  it('refuses to take a thick poor conductor for one temperature', () => {
    const layers = [{ material: MATERIALS.glassFibre, thicknessMm: 5 }]
    expect(panelTimeConstant({ ...sheet, layers, sidesHeated: 1 })).toMatchObject({
      kind: 'notLumped',
      highestBiot: 0.1,
    })
  })

  it('refuses by name what is no panel', () => {
    const negative = { ...sheet, layers: [{ material: MATERIALS.mildSteel, thicknessMm: -1 }] }
    expect(() => panelTimeConstant(negative)).toThrow(/layers\[0\]\.thicknessMm is -1/)
    expect(() => panelTimeConstant({ ...sheet, layers: [] })).toThrow(/layers is empty/)
    expect(() => panelTimeConstant({ ...sheet, heatTransferWPerM2K: 0 })).toThrow(/heatTransferWPerM2K is 0/)
    expect(() => panelTimeConstant({ ...sheet, sidesHeated: 3 as 2 })).toThrow(/sidesHeated is 3/)
  })
})

describe('panelArcs', () => {
  it('follows a step by 1 - 1/e in one time constant', () => {
    const arcs = panelArcs(4, 20, [
      { atMinutes: 0, airC: 70 },
      { atMinutes: 60, airC: 70 },
    ])
    expect(arcC(arcs[0]!, 4)).toBeCloseTo(70 - 50 / Math.E, 10)
    expect(minutesToTemperature(arcs, 60)).toBeCloseTo(4 * Math.log(5), 9)
    expect(minutesToTemperature(arcs, 71)).toBe(Infinity)
  })

  it('lags a steady ramp by its time constant', () => {
    const arcs = panelArcs(5, 20, [
      { atMinutes: 0, airC: 20 },
      { atMinutes: 200, airC: 220 },
    ])
    expect(arcC(arcs[0]!, 200)).toBeCloseTo(215, 9)
  })

  it('finds the turn of a panel that is warmer than the air at first', () => {
    const arcs = panelArcs(10, 60, [
      { atMinutes: 0, airC: 20 },
      { atMinutes: 60, airC: 100 },
    ])
    expect(peakC(arcs)).toBeCloseTo(arcC(arcs[0]!, 60), 9)
    const first = minutesToTemperature(arcs, 50)
    expect(arcC(arcs[0]!, first)).toBeCloseTo(50, 9)
    expect(arcC(arcs[0]!, first + 0.01)).toBeLessThan(50)
  })

  it('never lets a warmer panel or warmer air fall behind', () => {
    const c = between(-20, 200)
    const more = between(0, 50)
    fc.assert(
      fc.property(c, c, c, more, between(0.2, 60), (panel, a, b, byC, tau) => {
        const air = (offset: number) => [
          { atMinutes: 0, airC: a + offset },
          { atMinutes: 30, airC: b + offset },
        ]
        const [plain] = panelArcs(tau, panel, air(0))
        const [warmer] = panelArcs(tau, panel, air(byC))
        for (const t of [0, 1, 7, 30]) expect(arcC(warmer!, t)).toBeGreaterThanOrEqual(arcC(plain!, t) - 1e-9)
      }),
    )
  })

  it('refuses by name what is no air', () => {
    expect(() => panelArcs(4, 20, [{ atMinutes: 0, airC: 20 }])).toThrow(/air has 1 points/)
    expect(() => panelArcs(0, 20, [])).toThrow(/tauMinutes is 0/)
    const backwards = [
      { atMinutes: 5, airC: 20 },
      { atMinutes: 0, airC: 20 },
    ]
    expect(() => panelArcs(4, 20, backwards)).toThrow(/air\[1\]\.atMinutes is 0/)
  })
})

describe('fitTimeConstant', () => {
  const logged = (tau: number, noise: (i: number) => number) => {
    const air = [20, 40, 70, 80, 80, 80, 75, 80, 80, 80, 40, 25, 25]
    const points = air.map((airC, i) => ({ atMinutes: 3 * i, airC }))
    let metalC = 20
    return points.map((point, i) => {
      if (i > 0) {
        const [arc] = panelArcs(tau, metalC, [points[i - 1]!, point])
        metalC = arcC(arc!, 3)
      }
      return { ...point, metalC: metalC + noise(i) }
    })
  }

  it('finds the time constant of a clean run', () => {
    fc.assert(
      fc.property(between(0.5, 60), (tau) => {
        const fit = fitTimeConstant(logged(tau, () => 0))
        expect(fit.tauMinutes / tau).toBeCloseTo(1, 5)
        expect(fit.residualC).toBeLessThan(1e-3)
      }),
      { numRuns: 30 },
    )
  })

  it('comes close with a noisy logger and says how noisy', () => {
    const fit = fitTimeConstant(logged(6, (i) => (i % 2 === 0 ? 0.5 : -0.5)))
    expect(fit.tauMinutes).toBeGreaterThan(5.6)
    expect(fit.tauMinutes).toBeLessThan(6.4)
    expect(fit.residualC).toBeCloseTo(0.5, 0)
  })

  it('refuses a run that shows nothing', () => {
    const flat = [0, 1, 2, 3].map((atMinutes) => ({ atMinutes, airC: 20, metalC: 20 }))
    expect(() => fitTimeConstant(flat)).toThrow(/within 2 degC/)
    expect(() => fitTimeConstant(flat.slice(0, 3))).toThrow(/3 lines/)
    expect(() => fitTimeConstant(flat.with(2, { atMinutes: 1, airC: 50, metalC: 20 }))).toThrow(
      /run\[2\]\.atMinutes/,
    )
    expect(() => fitTimeConstant(flat.with(2, { atMinutes: 2, airC: 20, metalC: 900 }))).toThrow(
      /run\[2\]\.metalC is 900/,
    )
    const away = [0, 5, 10, 15].map((atMinutes) => ({ atMinutes, airC: 60, metalC: 20 - atMinutes }))
    expect(() => fitTimeConstant(away)).toThrow(/edge/)
  })
})
