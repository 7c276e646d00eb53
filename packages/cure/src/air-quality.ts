import { MS_PER_MINUTE } from '@clampclock/quantities'
import type { ReadingFinding } from './reading-finding.ts'
import {
  AIR_MEMORY_MS,
  airStepC,
  entered,
  OTHERS_MOVED_C,
  outOfRange,
  SPIKE_C,
  SPIKE_NEIGHBOUR_MS,
  STUCK_HOURS,
  unitSlip,
  USUAL_ROOM_C,
  type Claim,
  type Known,
} from './reading-quality.ts'

export interface AirContext {
  /** Of the same thermometer, by time, believed, before the first claim; a day of it suffices. */
  readonly own: readonly Known[]
  /** Of the other thermometers of the shop, and of metal that cures there, by time. */
  readonly others: readonly Known[]
  /** An oven's air: its values are not those of a room, so only when and how they came is judged. */
  readonly isOven: boolean
}

/** What makes each reading of a thermometer doubtful, in the order of the claims, which are sorted by time. */
export function judgeAir(claims: readonly Claim[], context: AirContext): readonly ReadingFinding[][] {
  if (context.isOven) return claims.map(entered)
  const others = nearestIn(context.others)
  let last = context.own.at(-1)
  let run = runOf(context.own)
  const findings = claims.map((claim, i) => {
    const before = last && claim.atMs - last.atMs <= AIR_MEMORY_MS ? last : undefined
    const knownC = [...(before ? [before] : []), ...others(claim.atMs)].map(
      ({ temperatureC }) => temperatureC,
    )
    run = { ...(run?.temperatureC === claim.temperatureC ? run : claim), toMs: claim.atMs }
    const found = [
      ...unitSlip(claim.temperatureC, knownC),
      ...outOfRange(claim, USUAL_ROOM_C),
      ...tooFast(claim, before),
      ...spike(claim, last, claims[i + 1]),
      ...stuck(run, context.others),
      ...entered(claim),
    ]
    // Late, or read by one out of calibration, it still tells what the next may be; a wrong value does not.
    if (found.every(({ kind }) => kind === 'late' || kind === 'outOfCalibration')) last = claim
    return found
  })
  return findings
}

interface Run {
  readonly temperatureC: number
  readonly atMs: number
  readonly toMs: number
}

/** How long the thermometer has shown the digits that it shows. */
function runOf(own: readonly Known[]): Run | undefined {
  const last = own.at(-1)
  if (!last) return undefined
  let first = last
  for (let i = own.length - 1; i >= 0 && own[i]!.temperatureC === last.temperatureC; i--) first = own[i]!
  return { temperatureC: last.temperatureC, atMs: first.atMs, toMs: last.atMs }
}

/** A few of `readings` around an instant: what the rest of the shop reads then. */
function nearestIn(readings: readonly Known[]): (atMs: number) => readonly Known[] {
  return (atMs) => {
    const i = firstFrom(readings, atMs)
    return readings
      .slice(Math.max(0, i - NEIGHBOURS), i + NEIGHBOURS)
      .filter((reading) => Math.abs(reading.atMs - atMs) <= SPIKE_NEIGHBOUR_MS)
  }
}

/** Enough to have one of each thermometer of a shop. */
const NEIGHBOURS = 8

function tooFast({ atMs, temperatureC, accuracyC }: Claim, previous: Known | undefined): ReadingFinding[] {
  if (!previous) return []
  const minutes = (atMs - previous.atMs) / MS_PER_MINUTE
  const change = temperatureC - previous.temperatureC
  const most = airStepC(minutes)
  if (Math.abs(change) <= most + accuracyC + previous.accuracyC) return []
  const previousC = previous.temperatureC
  return [{ kind: 'tooFast', previousC, minutes, reachC: previousC + Math.sign(change) * most }]
}

/** Off both neighbours on the same side: a change that stays is none. */
function spike(claim: Claim, before: Known | undefined, after: Known | undefined): ReadingFinding[] {
  if (!before || !after) return []
  if (claim.atMs - before.atMs > SPIKE_NEIGHBOUR_MS || after.atMs - claim.atMs > SPIKE_NEIGHBOUR_MS) return []
  const [low, high] = [
    Math.min(before.temperatureC, after.temperatureC),
    Math.max(before.temperatureC, after.temperatureC),
  ]
  const betweenC = (low + high) / 2
  const isOutside = claim.temperatureC < low || claim.temperatureC > high
  return isOutside && Math.abs(claim.temperatureC - betweenC) > SPIKE_C ? [{ kind: 'spike', betweenC }] : []
}

function stuck({ atMs, toMs }: Run, others: readonly Known[]): ReadingFinding[] {
  const hours = (toMs - atMs) / (60 * MS_PER_MINUTE)
  if (hours < STUCK_HOURS) return []
  let [low, high] = [Infinity, -Infinity]
  // Of late only, so that a thermometer that has been stuck for weeks costs no more to judge.
  for (
    let i = firstFrom(others, toMs - STUCK_HOURS * 60 * MS_PER_MINUTE);
    i < others.length && others[i]!.atMs <= toMs;
    i++
  ) {
    low = Math.min(low, others[i]!.temperatureC)
    high = Math.max(high, others[i]!.temperatureC)
  }
  return high - low >= OTHERS_MOVED_C ? [{ kind: 'stuck', hours: Math.floor(hours) }] : []
}

/** The first of `readings` at `atMs` or later. */
function firstFrom(readings: readonly Known[], atMs: number): number {
  let [low, high] = [0, readings.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (readings[middle]!.atMs < atMs) low = middle + 1
    else high = middle
  }
  return low
}
