import { MS_PER_MINUTE } from '@clampclock/quantities'
import { STEP_MINUTES, type AirHabits } from './air-habits.ts'
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
import { STALE_LIMIT_MINUTES } from './reading.ts'

/** A reading that was doubted as a jump, and how far up the jump went, degC. */
export interface Jumped extends Pick<Known, 'atMs' | 'temperatureC'> {
  readonly riseC: number
}

export interface AirContext {
  /** Of the same thermometer, by time, believed, before the first claim; a day of it suffices. */
  readonly own: readonly Known[]
  /** Of the same thermometer, by time, believed, on file from the first claim on: what comes later for an instant between. */
  readonly onFile?: readonly Known[]
  /** Of the other thermometers of the shop, and of metal that cures there, by time. */
  readonly others: readonly Known[]
  /** What it has done of itself; left out where too little is known of it. */
  readonly habits?: AirHabits | undefined
  /** The reading before the first claim, where it was doubted as a jump: what stays up there is doubted with it. */
  readonly jumped?: Jumped | undefined
  /** An oven's air: its values are not those of a room, so only when and how they came is judged. */
  readonly isOven: boolean
}

/** What makes each reading of a thermometer doubtful, in the order of the claims, which are sorted by time. */
export function judgeAir(claims: readonly Claim[], context: AirContext): readonly ReadingFinding[][] {
  const late = enteredLate(claims)
  if (context.isOven) return late
  const { habits } = context
  const others = nearestIn(context.others)
  let { jumped: upThere } = context
  let last = context.own.at(-1)
  let run = runOf(context.own)
  const findings = claims.map((claim, i) => {
    const before = last && claim.atMs - last.atMs <= AIR_MEMORY_MS ? last : undefined
    const knownC = [...(before ? [before] : []), ...others(claim.atMs)].map(
      ({ temperatureC }) => temperatureC,
    )
    run = { ...(run?.temperatureC === claim.temperatureC ? run : claim), toMs: claim.atMs }
    const jump = jumped(claim, last, upThere, context)
    upThere = jump.map(({ riseC }) => ({ ...claim, riseC }))[0]
    const found = [
      ...unitSlip(claim.temperatureC, knownC),
      ...outOfRange(claim, USUAL_ROOM_C),
      ...tooFast(claim, before),
      ...spike(claim, last, claims[i + 1], context),
      ...jump,
      ...stuck(run, context.others, habits),
      ...late[i]!,
    ]
    // Late, or read by one out of calibration, it still tells what the next may be; a wrong value does not.
    if (found.every(({ kind }) => kind === 'late' || kind === 'outOfCalibration')) last = claim
    return found
  })
  return throughTheRun(claims, findings)
}

/** What shows the same digits for too long has done so since the second of them. */
function throughTheRun(
  claims: readonly Claim[],
  findings: readonly ReadingFinding[][],
): readonly ReadingFinding[][] {
  const all = [...findings]
  for (let i = all.length - 1; i > 0; i--) {
    const stands = all[i]!.find((finding) => finding.kind === 'stuck')
    if (!stands || all[i - 1]!.some(({ kind }) => kind === 'stuck')) continue
    if (claims[i - 1]!.atMs > (stands.sinceMs ?? Infinity)) all[i - 1] = [...all[i - 1]!, stands]
  }
  return all
}

/**
 * A log of the past is one claim: where its first reading came late, its last ones are no better. A logger that sends
 * each hour what it read in it is no such log.
 */
function enteredLate(claims: readonly Claim[]): ReadingFinding[][] {
  const isOfPast = claims.some(
    ({ atMs, enteredAtMs }) => enteredAtMs - atMs > STALE_LIMIT_MINUTES.bayAir * MS_PER_MINUTE,
  )
  return claims.map((claim) => {
    const found = entered(claim)
    if (!isOfPast || claim.enteredAtMs <= claim.atMs || found.some(({ kind }) => kind === 'late'))
      return found
    return [...found, { kind: 'late', minutes: Math.round((claim.enteredAtMs - claim.atMs) / MS_PER_MINUTE) }]
  })
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

/** What the air of a place may do from one reading to the next though it never did before, degC. Common practice. */
const LEAST_RISE_C = 2
/** What was seen may be exceeded by: a few weeks have not seen everything. Common practice, no source. */
const UNSEEN_SHARE = 1.25
/** Down at once by this much of the way up: a door that opens on a small lie is not its end. Common practice, no source. */
const BACK_SHARE = 0.8
/**
 * Further up at once than this thermometer ever goes: it was moved, or put over something warm. What stays up there is
 * doubted with it until it comes down as suddenly, since a lie goes down with the air as well as the truth does; and
 * unless the rest of the shop has risen too. Down is believed: that only delays.
 */
function jumped(
  claim: Claim,
  last: Known | undefined,
  upThere: Jumped | undefined,
  { habits, others }: AirContext,
): Extract<ReadingFinding, { kind: 'jumped' }>[] {
  if (!habits || !last) return []
  const mostC = Math.max(LEAST_RISE_C, UNSEEN_SHARE * habits.largestRiseC)
  const riseC = claim.temperatureC - last.temperatureC
  const isUp = riseC > mostC
  const found = { kind: 'jumped', previousC: last.temperatureC, mostC, riseC } as const
  if (upThere) {
    const isDown = upThere.temperatureC - claim.temperatureC >= BACK_SHARE * upThere.riseC
    return isDown && !isUp ? [] : [{ ...found, riseC: upThere.riseC }]
  }
  if (!isUp || claim.atMs - last.atMs > STEP_MINUTES * MS_PER_MINUTE) return []
  const nearest = (atMs: number): number | undefined => {
    const other = others[Math.min(firstFrom(others, atMs), others.length - 1)]
    return other && Math.abs(other.atMs - atMs) <= SPIKE_NEIGHBOUR_MS ? other.temperatureC : undefined
  }
  const [fromC, toC] = [nearest(last.atMs), nearest(claim.atMs)]
  return fromC !== undefined && toC !== undefined && toC - fromC >= riseC / 2 ? [] : [found]
}

/** Off both neighbours on the same side: a change that stays is none. */
function spike(
  claim: Claim,
  before: Known | undefined,
  after: Known | undefined,
  context: AirContext,
): ReadingFinding[] {
  const onFile = besideOnFile(claim, context)
  if (onFile.length > 0) return onFile
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

/** Air between two readings close together; a door that opens for a moment shows in neither. Common practice, no source. */
const BETWEEN_C_PER_MIN = 1

/** Off what the same thermometer said just before and just after, and on file already: two loggers under one name. */
function besideOnFile(claim: Claim, { own, onFile = [] }: AirContext): ReadingFinding[] {
  const i = firstFrom(onFile, claim.atMs)
  const [before, after] = [onFile[i - 1] ?? own.at(-1), onFile[i]]
  if (!before || !after) return []
  if (claim.atMs - before.atMs > SPIKE_NEIGHBOUR_MS || after.atMs - claim.atMs > SPIKE_NEIGHBOUR_MS) return []
  const [low, high] = [
    Math.min(before.temperatureC, after.temperatureC),
    Math.max(before.temperatureC, after.temperatureC),
  ]
  const minutes = Math.min(claim.atMs - before.atMs, after.atMs - claim.atMs) / MS_PER_MINUTE
  const allowedC = claim.accuracyC + Math.max(before.accuracyC, after.accuracyC) + BETWEEN_C_PER_MIN * minutes
  const offC = Math.max(low - claim.temperatureC, claim.temperatureC - high)
  return offC > allowedC ? [{ kind: 'spike', betweenC: (low + high) / 2 }] : []
}

/** A run may be longer than any before by this much, and this long at least, minutes. Common practice, no source. */
const RUN_SHARE = 1.5
const LEAST_RUN_MINUTES = 60

function stuck(
  { atMs, toMs }: Run,
  others: readonly Known[],
  habits: AirHabits | undefined,
): ReadingFinding[] {
  const hours = (toMs - atMs) / (60 * MS_PER_MINUTE)
  const found = { kind: 'stuck', hours: Math.floor(hours), sinceMs: atMs } as const
  if (habits && hours * 60 > Math.max(LEAST_RUN_MINUTES, RUN_SHARE * habits.longestRunMinutes)) return [found]
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
  return high - low >= OTHERS_MOVED_C ? [found] : []
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
