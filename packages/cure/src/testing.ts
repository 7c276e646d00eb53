/** Generators and one invented sheet for this package's tests; no part of its surface. */
import fc from 'fast-check'
import type { BakeRequest } from './oven/bake-request.ts'
import type { BondHistory } from './estimate/estimate.ts'
import type { DataSheet, SheetPoint } from './sheet/data-sheet.ts'
import { panelArcs } from './temperature/panel-heat.ts'
import { arcC } from './temperature/temperature-arc.ts'
import type { ForecastPoint, Reading, ReadingSource } from './readings/reading.ts'

export const START_MS = Date.parse('2026-11-25T14:00:00Z')
export const MINUTE_MS = 60_000

/** An invented adhesive: doubles in speed about every 10 degC. */
export const SHEET: DataSheet = {
  points: [
    { temperatureC: 10, workTimeMinutes: 95, handlingTimeMinutes: 600, fullCureMinutes: 2880 },
    { temperatureC: 23, workTimeMinutes: 45, handlingTimeMinutes: 240, fullCureMinutes: 1440 },
    { temperatureC: 60, workTimeMinutes: 4, handlingTimeMinutes: 30, fullCureMinutes: 90 },
  ],
  applicationRangeC: { min: 10, max: 35 },
  lowestCureC: 5,
  highestCureC: 90,
  serviceRangeC: { min: -40, max: 176.7 },
}

/** An invented bake of two panels, without a bond on them. */
export const BAKE: BakeRequest = {
  program: {
    airStartC: 25,
    setPointC: 70,
    rampCPerMinute: 5,
    airToleranceC: 3,
    metalTargetC: 60,
    dwellMinutes: 30,
    coolAirC: 20,
    touchC: 35,
  },
  moveAtMs: START_MS,
  metalStartC: 20,
  panels: [
    { name: 'quarter', tauMinutes: 4 },
    { name: 'sill', tauMinutes: 12 },
  ],
  bonds: [],
}

/**
 * Numbers spread evenly over a range, its ends among them. (fc.double spreads over bit patterns: of a range
 * that holds zero, nearly all it gives are next to nothing.)
 */
export function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 1_000_000 }).map((step) => min + ((max - min) * step) / 1_000_000)
}

/** Good sheets of one to four points, from flat to steep. */
export const anySheet: fc.Arbitrary<DataSheet> = fc
  .record({
    steps: fc.array(fc.record({ riseC: between(3, 15), factor: between(1.1, 3.5) }), { maxLength: 3 }),
    coldestC: between(5, 25),
    workTimeMinutes: between(5, 120),
    handling: between(1.2, 8),
    full: between(1.2, 8),
    below: between(0, 10),
    above: between(1, 60),
  })
  .map(({ steps, coldestC, workTimeMinutes, handling, full, below, above }) => {
    const points: SheetPoint[] = []
    let [temperatureC, work] = [coldestC, workTimeMinutes]
    for (const step of [{ riseC: 0, factor: 1 }, ...steps]) {
      temperatureC += step.riseC
      work /= step.factor
      const handlingTimeMinutes = work * handling
      const fullCureMinutes = handlingTimeMinutes * full
      points.push({ temperatureC, workTimeMinutes: work, handlingTimeMinutes, fullCureMinutes })
    }
    return {
      points,
      applicationRangeC: { min: 5, max: 40 },
      lowestCureC: coldestC - below,
      highestCureC: temperatureC + above,
      serviceRangeC: { min: -40, max: 176.7 },
    }
  })

const anySource: fc.Arbitrary<ReadingSource> = fc.constantFrom('metalProbe', 'infrared', 'bayAir')

/** Histories with gaps, cold spells, mixed sources, stale ends, with and without a forecast. */
export const anyHistory: fc.Arbitrary<BondHistory> = fc
  .record({
    sheet: anySheet,
    before: fc.integer({ min: -300, max: 120 }),
    steps: fc.array(
      fc.record({
        minutes: fc.integer({ min: 1, max: 150 }),
        temperatureC: between(-5, 80),
        accuracyC: between(0, 3),
        source: anySource,
      }),
      { minLength: 1, maxLength: 12 },
    ),
    age: fc.integer({ min: 0, max: 200 }),
    hours: fc.array(fc.record({ expectedC: between(-5, 60), below: between(0, 5), above: between(0, 5) }), {
      maxLength: 30,
    }),
    tau: fc.option(between(0.5, 60), { nil: undefined }),
  })
  .map(({ sheet, before, steps, age, hours, tau }) => {
    let atMs = START_MS - before * MINUTE_MS
    const readings: Reading[] = steps.map(({ minutes, temperatureC, accuracyC, source }, i) => {
      if (i > 0) atMs += minutes * MINUTE_MS
      return { atMs, temperatureC, accuracyC, source }
    })
    const nowMs = Math.max(atMs, START_MS) + age * MINUTE_MS
    const forecast: ForecastPoint[] = hours.map(({ expectedC, below, above }, i) => {
      return {
        atMs: nowMs + i * 60 * MINUTE_MS,
        expectedC,
        lowC: expectedC - below,
        highC: expectedC + above,
      }
    })
    const history = { sheet, appliedAtMs: START_MS, readings, forecast, nowMs }
    return tau === undefined ? history : { ...history, panelTauMinutes: tau }
  })

/** A logger's history: a reading every few minutes, each a little off the one before. */
export const anyLog: fc.Arbitrary<readonly Reading[]> = fc
  .record({
    startC: between(8, 40),
    accuracyC: between(0, 2),
    steps: fc.array(fc.record({ minutes: between(1, 15), byC: between(-0.8, 0.8) }), {
      minLength: 2,
      maxLength: 60,
    }),
  })
  .map(({ startC, accuracyC, steps }) => {
    let [atMs, temperatureC] = [START_MS, startC]
    return steps.map(({ minutes, byC }) => {
      atMs += Math.round(minutes * MINUTE_MS)
      temperatureC += byC
      return { atMs, temperatureC, accuracyC, source: 'metalProbe' }
    })
  })

/**
 * Bonds whose metal truly follows its air with one time constant, air in straight lines between its readings, read by
 * thermometers that are exact but said to be off by up to their accuracy.
 */
export const anyTrueHistory: fc.Arbitrary<
  BondHistory & { readonly tau: number; readonly metalAt: (atMs: number) => number }
> = fc
  .record({
    sheet: anySheet,
    tau: between(5, 240),
    startC: between(0, 40),
    airC: fc.array(between(0, 35), { minLength: 4, maxLength: 20 }),
    accuracyC: between(0.01, 2),
    measuredAt: fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 1, maxLength: 3 }),
  })
  .map(({ sheet, tau, startC, airC, accuracyC, measuredAt }) => {
    const every = 30
    const atMs = (minutes: number): number => START_MS + minutes * MINUTE_MS
    const arcs = panelArcs(
      tau,
      startC,
      airC.map((c, i) => ({ atMinutes: i * every, airC: c })),
    )
    const metalAt = (ms: number): number => {
      const minutes = (ms - START_MS) / MINUTE_MS
      const i = Math.min(arcs.length - 1, Math.max(0, Math.floor(minutes / every)))
      return arcC(arcs[i]!, minutes - i * every)
    }
    const last = (airC.length - 1) * every
    const metal = [...new Set([0, ...measuredAt.filter((minute) => minute % every !== 0 && minute < last)])]
    const readings: Reading[] = [
      ...metal.map((minute): Reading => {
        return { atMs: atMs(minute), temperatureC: metalAt(atMs(minute)), accuracyC, source: 'metalProbe' }
      }),
      // The air's first at a minute before, as the metal has that instant.
      { atMs: atMs(0) - 1, temperatureC: airC[0]!, accuracyC, source: 'bayAir' } as const,
      ...airC.slice(1).map((c, i): Reading => {
        return { atMs: atMs((i + 1) * every), temperatureC: c, accuracyC, source: 'bayAir' }
      }),
    ].toSorted((a, b) => a.atMs - b.atMs)
    return {
      sheet,
      appliedAtMs: START_MS,
      readings,
      forecast: [],
      nowMs: atMs(last),
      panelTauMinutes: 5,
      tau,
      metalAt,
    }
  })
