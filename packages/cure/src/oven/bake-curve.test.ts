import { describe, expect, it } from 'vitest'
import { bakeCurve } from './bake-curve.ts'
import { bakeWindow } from './oven.ts'
import { BAKE as request } from '../testing.ts'

describe('bakeCurve', () => {
  it('starts at the metal, is at the target when the window says so, and ends when it may be touched', () => {
    const { heatUpMinutes, windowMinutes } = bakeWindow(request)
    const points = bakeCurve(request)
    expect(points[0]).toEqual({ atMinutes: 0, airC: 25, metalC: [20, 20] })
    const reached = points.findIndex(({ atMinutes }) => atMinutes >= heatUpMinutes.expected)
    expect(points[reached]!.metalC[1]).toBeGreaterThanOrEqual(60)
    expect(points[reached - 1]!.metalC[1]).toBeLessThan(60)
    expect(points.at(-1)!.atMinutes).toBeCloseTo(windowMinutes.expected, 9)
    expect(points.at(-1)!.metalC[1]).toBeCloseTo(35, 9)
  })

  it('is in order of time, with a corner at the end of the ramp and a step of the air when it is rolled out', () => {
    const points = bakeCurve(request)
    for (let i = 1; i < points.length; i++)
      expect(points[i]!.atMinutes).toBeGreaterThanOrEqual(points[i - 1]!.atMinutes)
    expect(points.find(({ atMinutes }) => atMinutes === 9)?.airC).toBe(70)
    const step = points.findIndex(({ atMinutes }, i) => atMinutes === points[i - 1]?.atMinutes)
    expect(points[step - 1]!.airC).toBe(70)
    expect(points[step]!.airC).toBe(20)
    expect(points[step]!.metalC).toEqual(points[step - 1]!.metalC)
  })

  it('draws four hours of a bake that never gets there, and of a cool-down that never ends', () => {
    const cold = bakeCurve({ ...request, program: { ...request.program, setPointC: 50 } })
    expect(cold.at(-1)!.atMinutes).toBe(240)
    const warm = bakeCurve({ ...request, program: { ...request.program, coolAirC: 40 } })
    const { heatUpMinutes } = bakeWindow(request)
    expect(warm.at(-1)!.atMinutes).toBeCloseTo(heatUpMinutes.expected + 30 + 240, 9)
  })

  it('draws warm metal that needs no oven at all', () => {
    const { rampCPerMinute: _, ...program } = { ...request.program, dwellMinutes: 0 }
    const warm = { ...request, program, metalStartC: 65 }
    expect(bakeCurve(warm)[0]).toEqual({ atMinutes: 0, airC: 70, metalC: [65, 65] })
    expect(bakeWindow(warm).peakMetalC).toBe(65)
  })
})
