import { MS_PER_MINUTE, requirePositive } from '@clampclock/quantities'
import { ahead } from '../careful/air.ts'
import { likeliest } from '../careful/bins.ts'
import { newScratch } from '../careful/plain-step.ts'
import type { Sampler } from '../careful/state.ts'
import { walk } from '../careful/walk.ts'
import { MILESTONES, type Milestone } from '../sheet/data-sheet.ts'
import { curveWithDoubt } from './doubt.ts'
import type { BondCurvePoint } from './estimate-figures.ts'
import { aheadKind, upToNow, type BondHistory } from './estimate.ts'
import { runningFrom, startProgress, take } from './progress.ts'
import { requireForecast, requireReading } from '../readings/reading.ts'
import { LINES, type Triple } from '../readings/temperature-line.ts'

export interface BondCurveOptions {
  /** Whose progress is drawn; handling strength when not given. */
  readonly milestone?: Milestone
  /**
   * Distance of the points, minutes, above zero; 5 when not given. Readings and forecast points are drawn as
   * well.
   */
  readonly stepMinutes?: number
  /** First instant; the application when not given. */
  readonly fromMs?: number
  /** Last instant; the end of the forecast when not given. */
  readonly toMs?: number
}

/**
 * Points to draw a bond's temperature and progress from, by the same computation as `estimateBond`. Where a
 * gap ends, two points share an instant: the line jumps to what was measured. Empty when nothing is known of
 * the temperature.
 *
 * @throws RangeError as `estimateBond`, and for a step that is not above zero.
 */
export function bondCurve(history: BondHistory, options: BondCurveOptions = {}): BondCurvePoint[] {
  const trusted = history.readings.filter(({ suspect }) => !suspect)
  const points = believedCurve({ ...history, readings: trusted }, options)
  const doubted = trusted.length === history.readings.length ? [] : believedCurve(history, options)
  return doubted.length === 0 ? points : curveWithDoubt(points, doubted)
}

interface Sample {
  readonly atMs: number
  readonly epoch: number
  /** By bin, which its faster bound names: the metal and the progress on the three lines. */
  readonly bins: ReadonlyMap<number, readonly [Triple, Triple]>
  readonly likeliest: number
}

function believedCurve(history: BondHistory, options: BondCurveOptions): BondCurvePoint[] {
  const {
    milestone = 'handlingStrength',
    stepMinutes = 5,
    fromMs = history.appliedAtMs,
    toMs = Infinity,
  } = options
  requirePositive('stepMinutes', stepMinutes, 'minutes', 'give the distance of the points')
  const { sheet, appliedAtMs, readings, forecast, nowMs, panelTauMinutes, place } = history
  requireForecast(forecast)
  const samples: Sample[] = []
  const first = MILESTONES.indexOf(milestone) * LINES.length
  const sampler: Sampler = {
    stepMs: stepMinutes * MS_PER_MINUTE,
    take: ({ bins, epoch }, atMs) => {
      if (atMs > toMs) return
      const figures = bins.map(({ fastMinutes, panelC, progress }) => {
        const reached: Triple = [progress[first]!, progress[first + 1]!, progress[first + 2]!]
        return [fastMinutes, [panelC, reached]] as const
      })
      samples.push({ atMs, epoch, bins: new Map(figures), likeliest: likeliest(bins).fastMinutes })
    },
  }
  const start = runningFrom(startProgress(sheet, appliedAtMs, panelTauMinutes, place))
  start.sampler = sampler
  const scratch = newScratch()
  for (const [i, reading] of readings.entries()) {
    if (reading.atMs > nowMs) break
    requireReading(reading, `readings[${i}]`, readings[i - 1])
    take(start, reading, scratch)
  }
  const running = upToNow(start, nowMs, forecast, sampler)
  if (running === undefined) return []
  sampler.take(running, nowMs)
  for (const piece of ahead(aheadKind(running), forecast, nowMs)) {
    if (piece.fromMs > toMs) break
    walk(running, [piece])
  }
  return pointsOf(samples, fromMs)
}

/** Of each sample what the bins say that no reading has ruled out since. */
function pointsOf(samples: readonly Sample[], fromMs: number): BondCurvePoint[] {
  const points: BondCurvePoint[] = []
  let last: Sample | undefined
  let least = Infinity
  for (const sample of samples.toReversed()) {
    if (last?.epoch !== sample.epoch) last = sample
    if (sample.atMs < fromMs) continue
    let [low, high, cold, warm] = [Infinity, -Infinity, Infinity, -Infinity]
    for (const [bin, [panelC, progress]] of sample.bins) {
      if (!last.bins.has(bin)) continue
      low = Math.min(low, panelC[0])
      high = Math.max(high, panelC[2])
      cold = Math.min(cold, progress[0])
      warm = Math.max(warm, progress[2])
    }
    const [panelC, progress] = sample.bins.get(last.likeliest)!
    least = Math.min(least, cold)
    points.push({
      atMs: sample.atMs,
      temperatureC: { low, expected: panelC[1], high },
      progress: { earliest: warm, expected: progress[1], conservative: least },
    })
  }
  return points.reverse().filter((point, i) => !isSame(point, points[i - 1]))
}

function isSame(a: BondCurvePoint, b: BondCurvePoint | undefined): boolean {
  if (b?.atMs !== a.atMs) return false
  return (['low', 'expected', 'high'] as const).every(
    (line) => Math.abs(a.temperatureC[line] - b.temperatureC[line]) < 1e-9,
  )
}
