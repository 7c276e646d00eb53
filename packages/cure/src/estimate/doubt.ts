import type {
  BondCurvePoint,
  BondEstimate,
  MilestoneEstimate,
  ReadyInstant,
  ThreeLines,
} from './estimate-figures.ts'
import { weakerBasis } from '../sheet/rate-curve.ts'

/**
 * Of an estimate that leaves suspect readings out and one that believes them all: the later on the conservative
 * line, the earlier on the earliest, the first on the expected. So a suspect reading never helps.
 */
export function withDoubt(trusted: BondEstimate, doubted: BondEstimate, count: number): BondEstimate {
  return {
    workTime: milestone(trusted.workTime, doubted.workTime),
    handlingStrength: milestone(trusted.handlingStrength, doubted.handlingStrength),
    fullCure: milestone(trusted.fullCure, doubted.fullCure),
    notes: [...trusted.notes, { kind: 'suspectReadings', count }],
  }
}

function milestone(a: MilestoneEstimate, b: MilestoneEstimate): MilestoneEstimate {
  return {
    milestone: a.milestone,
    progress: progress(a.progress, b.progress),
    readyAt: {
      earliest:
        instant(a.readyAt.earliest) <= instant(b.readyAt.earliest) ? a.readyAt.earliest : b.readyAt.earliest,
      expected: a.readyAt.expected,
      conservative:
        instant(a.readyAt.conservative) >= instant(b.readyAt.conservative)
          ? a.readyAt.conservative
          : b.readyAt.conservative,
    },
    basis: weakerBasis(a.basis, b.basis),
  }
}

const instant = (ready: ReadyInstant): number => (ready.kind === 'at' ? ready.atMs : Infinity)

function progress(a: ThreeLines<number>, b: ThreeLines<number>): ThreeLines<number> {
  return {
    earliest: Math.max(a.earliest, b.earliest),
    expected: a.expected,
    conservative: Math.min(a.conservative, b.conservative),
  }
}

/** The same for drawn points, at the instants of the first. */
export function curveWithDoubt(
  trusted: readonly BondCurvePoint[],
  doubted: readonly BondCurvePoint[],
): BondCurvePoint[] {
  let next = 0
  return trusted.map((point) => {
    while (next < doubted.length - 1 && doubted[next]!.atMs < point.atMs) next++
    const after = doubted[next]!
    const before = after.atMs <= point.atMs ? after : (doubted[next - 1] ?? after)
    const span = after.atMs - before.atMs
    const share = span === 0 ? 0 : (point.atMs - before.atMs) / span
    const mix = (value: (point: BondCurvePoint) => number): number =>
      value(before) + share * (value(after) - value(before))
    return {
      atMs: point.atMs,
      temperatureC: {
        low: Math.min(
          point.temperatureC.low,
          mix(({ temperatureC }) => temperatureC.low),
        ),
        expected: point.temperatureC.expected,
        high: Math.max(
          point.temperatureC.high,
          mix(({ temperatureC }) => temperatureC.high),
        ),
      },
      progress: progress(point.progress, {
        earliest: mix((one) => one.progress.earliest),
        expected: 0,
        conservative: mix((one) => one.progress.conservative),
      }),
    }
  })
}
