/**
 * Ready times per second: 1,000 running bonds with 2,000 readings each (one every 5 minutes, a week), work
 * time, handling strength and full cure on three lines. Full: from the first reading. Incremental: one more
 * reading to a state that was kept, and the estimate from it. Against odex: the same nine integrals to the
 * same 1e-12, on a few of the bonds.
 *
 * npm run bench -- cure [--bonds 1000] [--readings 2000] [--odex 9]
 */
import { createRequire } from 'node:module'
import { parseArgs } from 'node:util'
import {
  addReading,
  addReadings,
  estimateBond,
  estimateFrom,
  startProgress,
  type BondHistory,
  type DataSheet,
  type ForecastPoint,
  type Milestone,
  type Reading,
} from '@clampclock/cure'

const { values } = parseArgs({
  options: {
    bonds: { type: 'string', default: '1000' },
    readings: { type: 'string', default: '2000' },
    odex: { type: 'string', default: '9' },
  },
})
const bonds = Number(values.bonds)
const readingCount = Number(values.readings)
const STEP_MS = 5 * 60_000
const KELVIN = 273.15

/** Slow, so that the bonds still run after a week. */
const sheet: DataSheet = {
  points: [
    { temperatureC: 10, workTimeMinutes: 6000, handlingTimeMinutes: 12_000, fullCureMinutes: 48_000 },
    { temperatureC: 23, workTimeMinutes: 3000, handlingTimeMinutes: 6000, fullCureMinutes: 24_000 },
    { temperatureC: 60, workTimeMinutes: 200, handlingTimeMinutes: 400, fullCureMinutes: 1500 },
  ],
  applicationRangeC: { min: 10, max: 35 },
  lowestCureC: 5,
  highestCureC: 90,
  serviceRangeC: { min: -40, max: 176.7 },
}

/** A day of 8 to 20 degC with a sensor's flicker, another one for each bond. */
function readingsOf(bond: number): Reading[] {
  let seed = bond + 1
  return Array.from({ length: readingCount }, (_, i) => {
    seed = (seed * 16_807) % 2_147_483_647
    const day = Math.sin(((i + 7 * bond) / 288) * 2 * Math.PI)
    return {
      atMs: i * STEP_MS,
      temperatureC: 14 + 6 * day + seed / 2_147_483_647,
      accuracyC: 0.5,
      source: 'metalProbe',
    }
  })
}

const nowMs = (readingCount - 1) * STEP_MS
const forecast: ForecastPoint[] = Array.from({ length: 49 }, (_, hour) => {
  const expectedC = 14 + 6 * Math.sin((hour / 24) * 2 * Math.PI)
  return { atMs: nowMs + hour * 3_600_000, expectedC, lowC: expectedC - 2, highC: expectedC + 2 }
})
const histories: BondHistory[] = Array.from({ length: bonds }, (_, bond) => {
  return { sheet, appliedAtMs: 0, readings: readingsOf(bond), forecast, nowMs }
})

function timed<T>(work: () => T): { readonly seconds: number; readonly result: T } {
  const start = process.hrtime.bigint()
  const result = work()
  return { seconds: Number(process.hrtime.bigint() - start) / 1e9, result }
}

/** Processor time of the work, which a busy machine does not stretch. */
function cpuTimed<T>(work: () => T): { readonly seconds: number; readonly result: T } {
  const start = process.cpuUsage()
  const result = work()
  const { user, system } = process.cpuUsage(start)
  return { seconds: (user + system) / 1e6, result }
}

for (const history of histories.slice(0, 20)) estimateBond(history)
const full = timed(() => histories.map((history) => estimateBond(history)))
const states = histories.map(({ readings }) => addReadings(startProgress(sheet, 0), readings.slice(0, -1)))
const incremental = timed(() =>
  states.map((state, i) =>
    estimateFrom(addReading(state, histories[i]!.readings.at(-1)!), { nowMs, forecast }),
  ),
)

interface Solver {
  absoluteTolerance: number
  relativeTolerance: number
  maxSteps: number
  solve(
    f: (x: number, y: number[]) => number[],
    x: number,
    y: number[],
    xEnd: number,
  ): { readonly y: number[] }
}
const { Solver } = createRequire(import.meta.url)('odex') as { readonly Solver: new (n: number) => Solver }

/**
 * Slope E/R of the careful, the expected and the hasty line below the coldest published point, K: the ends of the
 * published activation energies (packages/cure, activation-range.ts) where they are worse than the sheet's own.
 */
const coldSlopes = (own: number): readonly number[] => [
  Math.max(own, 96_000 / 8.314462618),
  own,
  Math.min(own, 30_000 / 8.314462618),
]

/** The nine fractions, one reading to the next, by the solver; the rates straight from the sheet. */
function byOdex(readings: readonly Reading[]): number[] {
  const slopes = Array.from({ length: 9 }, () => 0)
  const rates = (['workTimeMinutes', 'handlingTimeMinutes', 'fullCureMinutes'] as const).map((name) => {
    const points = sheet.points.map(
      (point) => [1 / (point.temperatureC + KELVIN), Math.log(point[name])] as const,
    )
    const [coldest, next] = [points[0]!, points[1]!]
    const below = coldSlopes((next[1] - coldest[1]) / (next[0] - coldest[0]))
    return (c: number, line: number): number => {
      if (c < sheet.lowestCureC) return 0
      const x = 1 / (c + KELVIN)
      if (x > coldest[0]) return Math.exp(-(coldest[1] + (x - coldest[0]) * below[line]!))
      const a = x > points[1]![0] ? points[0]! : points[1]!
      const b = x > points[1]![0] ? points[1]! : points[2]!
      return Math.exp(-(a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1])))
    }
  })
  const progress = Array.from({ length: 9 }, () => 0)
  for (let i = 1; i < readings.length; i++) {
    const [from, to] = [readings[i - 1]!, readings[i]!]
    const minutes = (to.atMs - from.atMs) / 60_000
    const solver = new Solver(9)
    solver.absoluteTolerance = 1e-16
    solver.relativeTolerance = 1e-12
    solver.maxSteps = 100_000
    // As lean as it can be made: one array, no closures inside.
    const derivative = (t: number): number[] => {
      const c = from.temperatureC + ((to.temperatureC - from.temperatureC) * t) / minutes
      for (let line = 0; line < 3; line++) {
        const lineC = c + (line - 1) * from.accuracyC
        for (let m = 0; m < 3; m++) slopes[m * 3 + line] = rates[m]!(lineC, line)
      }
      return slopes
    }
    const { y } = solver.solve(
      derivative,
      0,
      Array.from({ length: 9 }, () => 0),
      minutes,
    )
    y.forEach((value, n) => (progress[n]! += value))
  }
  return progress
}

const few = histories.slice(0, Number(values.odex))
/** The clock runs over the same bond this often: once is too short to time. */
const AGAIN = 50
// The machine is shared: solver and clock take turns, and the ratio is the median of the turns' processor
// times.
const rounds = few.map((history) => {
  const solver = cpuTimed(() => byOdex(history.readings))
  const clock = cpuTimed(() => {
    for (let again = 0; again < AGAIN; again++) addReadings(startProgress(sheet, 0), history.readings)
  })
  return { progress: solver.result, odexSeconds: solver.seconds, seconds: clock.seconds / AGAIN }
})
const median = (numbers: readonly number[]): number =>
  numbers.toSorted((a, b) => a - b)[numbers.length >> 1] ?? NaN
const milestones: readonly Milestone[] = ['workTime', 'handlingStrength', 'fullCure']
let worst = 0
rounds.forEach(({ progress }, b) =>
  milestones.forEach((milestone, m) => {
    const ours = full.result[b]![milestone].progress
    ;[ours.conservative, ours.expected, ours.earliest].forEach((value, line) => {
      worst = Math.max(worst, Math.abs(value / progress[m * 3 + line]! - 1))
    })
  }),
)

const same = full.result.every(
  (estimate, i) => JSON.stringify(estimate) === JSON.stringify(incremental.result[i]),
)
if (!same) throw new Error('the incremental estimate differs from the full one')
const perSecond = (seconds: number): number => Math.round(bonds / seconds)
console.log(
  JSON.stringify({
    bench: 'cure',
    bonds,
    readings: readingCount,
    fullBondsPerSecond: perSecond(full.seconds),
    fullReadyTimesPerSecond: 9 * perSecond(full.seconds),
    incrementalBondsPerSecond: perSecond(incremental.seconds),
    incrementalReadyTimesPerSecond: 9 * perSecond(incremental.seconds),
    odexBondsPerSecond: Number((1 / median(rounds.map((round) => round.odexSeconds))).toFixed(2)),
    timesFasterThanOdex: Math.round(median(rounds.map((round) => round.odexSeconds / round.seconds))),
    largestDifferenceFromOdex: worst,
  }),
)
