import { describe, expect, it } from 'vitest'
import type { BakeRequest } from './bake-request.ts'
import { integrateArc } from '../temperature/integrate.ts'
import { bakeWindow } from './oven.ts'
import { rateCurve } from '../sheet/rate-curve.ts'
import { linearArc } from '../temperature/temperature-arc.ts'
import { BAKE, MINUTE_MS, SHEET, START_MS } from '../testing.ts'

const bond = {
  joint: 'left quarter',
  product: 'Example structural A',
  sheet: SHEET,
  panel: 'quarter',
  handlingReadyAt: { kind: 'at', atMs: START_MS },
  fullCureProgress: { earliest: 0.3, expected: 0.25, conservative: 0.2 },
} as const

const request: BakeRequest = { ...BAKE, bonds: [bond] }
const kinds = (part: Partial<BakeRequest>): string[] =>
  bakeWindow({ ...request, ...part }).refusals.map((refusal) => refusal.kind)

describe('bakeWindow', () => {
  it('lets a good bake pass and counts from the slowest metal at temperature', () => {
    const window = bakeWindow(request)
    expect(window.refusals).toEqual([])
    const [quarter, sill] = window.panels
    expect(sill!.heatUpMinutes).toBeGreaterThan(quarter!.heatUpMinutes)
    expect(window.heatUpMinutes.expected).toBe(sill!.heatUpMinutes)
    expect(window.heatUpMinutes.conservative).toBeGreaterThan(window.heatUpMinutes.expected)
    expect(window.windowMinutes.expected).toBeGreaterThan(window.heatUpMinutes.expected + 30)
    expect(window.peakMetalC).toBeLessThanOrEqual(73)
    expect(window.peakMetalC).toBeGreaterThan(72.9)
  })

  it('gives more credit than the dwell alone, less than the whole window at set point', () => {
    const window = bakeWindow(request)
    const curve = rateCurve(SHEET, 'fullCure')
    const { gained, fullCureProgress } = window.bonds[0]!
    expect(gained.expected).toBeGreaterThan(integrateArc(curve, linearArc(30, 60, 60), 0, 30))
    const most = window.windowMinutes.expected
    expect(gained.expected).toBeLessThan(integrateArc(curve, linearArc(most, 70, 70), 0, most))
    expect(gained.earliest).toBeGreaterThan(gained.expected)
    expect(gained.expected).toBeGreaterThan(gained.conservative)
    expect(fullCureProgress.conservative).toBeCloseTo(0.2 + gained.conservative, 12)
  })

  it('lists every joint that is not past handling strength, with its number', () => {
    const late = {
      ...bond,
      joint: 'roof',
      handlingReadyAt: { kind: 'at', atMs: START_MS + MINUTE_MS },
    } as const
    const never = { ...bond, joint: 'sill', handlingReadyAt: { kind: 'never', reason: 'tooCold' } } as const
    const { refusals } = bakeWindow({ ...request, bonds: [bond, late, never] })
    expect(refusals).toEqual([
      { kind: 'notPastHandling', joint: 'roof', moveAtMs: START_MS, handlingReadyAt: late.handlingReadyAt },
      { kind: 'notPastHandling', joint: 'sill', moveAtMs: START_MS, handlingReadyAt: never.handlingReadyAt },
    ])
  })

  it('refuses a bake that leaves a product’s service range', () => {
    const sheet = { ...SHEET, serviceRangeC: { min: -40, max: 72 } }
    expect(kinds({ bonds: [{ ...bond, sheet }] })).toEqual(['aboveServiceRange'])
    // The slow sill under the same oven does not get there.
    const sill = { ...bond, sheet, panel: 'sill' }
    expect(kinds({ bonds: [sill], program: { ...request.program, dwellMinutes: 1 } })).toEqual([])
  })

  it('refuses what the vehicle does not stand', () => {
    expect(kinds({ vehicleLimitC: 60 })).toEqual(['aboveVehicleLimit', 'aboveVehicleLimit'])
    expect(kinds({ vehicleLimitC: 75 })).toEqual([])
  })

  it('refuses a target that colder air never reaches, whatever the set point', () => {
    const window = bakeWindow({ ...request, program: { ...request.program, setPointC: 62 } })
    const refusal = { kind: 'targetNotReached', metalTargetC: 60, coldestAirC: 59 } as const
    expect(window.refusals).toEqual([
      { ...refusal, panel: 'quarter' },
      { ...refusal, panel: 'sill' },
    ])
    expect(window.windowMinutes.conservative).toBe(Infinity)
    expect(window.windowMinutes.expected).toBeLessThan(Infinity)
  })

  it('refuses air that is too warm to cool down in', () => {
    expect(kinds({ program: { ...request.program, coolAirC: 40 } })).toEqual(['neverCool', 'neverCool'])
  })

  it('cautions about a joint that gets warmer than its cure gains from', () => {
    const sheet = { ...SHEET, highestCureC: 65 }
    expect(bakeWindow({ ...request, bonds: [{ ...bond, sheet }] }).cautions).toEqual([
      expect.objectContaining({ kind: 'aboveHighestCure', joint: 'left quarter', highestCureC: 65 }),
    ])
    const done = { earliest: 1, expected: 1, conservative: 1 }
    expect(bakeWindow({ ...request, bonds: [{ ...bond, sheet, fullCureProgress: done }] }).cautions).toEqual(
      [],
    )
  })

  it('counts no heat-up for metal that is warm enough already', () => {
    expect(bakeWindow({ ...request, metalStartC: 61 }).heatUpMinutes.conservative).toBe(0)
  })

  it.each<[string, Partial<BakeRequest>, RegExp]>([
    ['a probe at 900 degC', { metalStartC: 900 }, /metalStartC is 900/],
    [
      'a negative dwell',
      { program: { ...request.program, dwellMinutes: -1 } },
      /program\.dwellMinutes is -1/,
    ],
    [
      'a ramp of zero',
      { program: { ...request.program, rampCPerMinute: 0 } },
      /program\.rampCPerMinute is 0/,
    ],
    ['no panel', { panels: [], bonds: [] }, /panels is empty/],
    ['a bond on no panel', { bonds: [{ ...bond, panel: 'door' }] }, /bonds\[0\]\.panel is 'door'/],
    [
      'a time constant below zero',
      { panels: [{ name: 'quarter', tauMinutes: -4 }] },
      /panels\[0\]\.tauMinutes is -4/,
    ],
  ])('refuses %s by name', (_, part, message) => {
    expect(() => bakeWindow({ ...request, ...part })).toThrow(message)
  })
})
