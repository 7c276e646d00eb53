import type { MoveCheck, ProblemReason, ReadyInstant } from '@clampclock/contracts'
import {
  isHeldState,
  type EstimateNote,
  type JointStanding,
  type JointState,
  type ReadyInstant as Ready,
} from '@clampclock/cure'
import type { BondRow } from './bond-store.ts'
import type { Estimated } from './history.ts'
import { shopTime } from './notes.ts'
import { heldReason, isRunning, jointsOf, standingOf, stateOf } from '../../work/index.ts'
import { readingReasons } from './enough-readings.ts'

type Known = Pick<Estimated, 'estimate' | 'asOf' | 'fault' | 'measureAgain'>

/**
 * Rule 3: may the clamps come off, may it be moved, as far as this attempt goes? The answer is that of the joint's standing
 * (packages/cure); the reasons say in words what stands against it.
 */
export function moveCheckOf(bond: BondRow, known: Known, timeZone: string): MoveCheck {
  const { estimate, asOf } = known
  const readyAt = toReady(estimate.handlingStrength.readyAt.conservative)
  const lacking = lackingReasons(bond, known, readyAt, timeZone)
  const state = stateOf(bond, lacking.length === 0)
  const reasons = [...(isRunning(bond) ? [...notClamped(bond), ...lacking] : []), ...heldBy(bond, state)]
  return {
    mayMove: reasons.length === 0 && MAY_MOVE.has(state),
    asOf,
    readyAt,
    reasons,
    measureAgain: known.measureAgain && { readyAt: toReady(known.measureAgain) },
  }
}

const MAY_MOVE: ReadonlySet<JointState> = new Set(['ready', 'releasedReady', 'accepted'])

const heldBy = (bond: BondRow, state: JointState): ProblemReason[] =>
  isHeldState(state) ? [heldReason(bond.joint.name, state)] : []

function notClamped(bond: BondRow): ProblemReason[] {
  if (bond.state !== 'applied') return []
  return [
    {
      code: 'not-clamped',
      message: `${bond.joint.name}: the joint is not clamped yet`,
      fix: 'Close and clamp it, then let it cure',
    },
  ]
}

/** Handling strength on the careful estimate, and the readings that the class asks for (rules 3 and 8). */
function lackingReasons(
  bond: BondRow,
  { estimate, fault }: Known,
  readyAt: ReadyInstant,
  timeZone: string,
): ProblemReason[] {
  const { conservative } = estimate.handlingStrength.progress
  const reached =
    fault !== null
      ? [cannotCompute(bond.joint.name)]
      : conservative < 1
        ? [notReadyReason(bond, estimate, readyAt, timeZone)]
        : []
  return [...reached, ...readingReasons(bond, timeZone)]
}

function cannotCompute(jointName: string): ProblemReason {
  return {
    code: 'cannot-compute',
    message: `${jointName}: cannot be computed: not ready`,
    fix: 'See the alert: a reading, a thermometer or the data sheet is at fault',
  }
}

/** What a person can do where the wait is long because something that was read is in doubt; null where nothing is. */
function doubtFix(notes: readonly EstimateNote[], timeZone: string): string | null {
  if (notes.some(({ kind }) => kind === 'airAtJointApart'))
    return "Measure the metal with another thermometer: the bay's thermometer and the one at the joint disagree"
  const unproven = notes.find((note) => note.kind === 'metalUnproven')
  if (unproven)
    return `Measure the metal with the same thermometer and with another within a quarter of an hour: nothing bears it out yet${sooner(unproven.ifProvenAtMs, timeZone)}`
  if (notes.some(({ kind }) => kind === 'suspectReadings'))
    return 'Measure the metal: readings are in doubt, and may only delay'
  const air = notes.find((note) => note.kind === 'airUnproven')
  if (air)
    return `Measure the metal again: the air at the joint is what the bay's thermometer shows, which bears nothing out${sooner(air.ifProvenAtMs, timeZone)}`
  return null
}

function sooner(atMs: number | undefined, timeZone: string): string {
  return atMs === undefined ? '' : `; it may be ready ${shopTime(atMs, timeZone)} then`
}

function notReadyReason(
  bond: BondRow,
  { handlingStrength, notes }: Estimated['estimate'],
  readyAt: ReadyInstant,
  timeZone: string,
): ProblemReason {
  // Rounded down: 99.7 % must not read as done.
  const percent = Math.floor(handlingStrength.progress.conservative * 100)
  const reached = `${bond.joint.name}: at ${percent} % of handling strength on the careful estimate`
  const doubt = doubtFix(notes, timeZone)
  if (readyAt.kind === 'at')
    return {
      code: 'handling-strength',
      message: `${reached}; ready ${shopTime(readyAt.at.getTime(), timeZone)}`,
      ...(doubt === null ? {} : { fix: doubt }),
    }
  const why = {
    tooCold: { message: 'at this temperature it does not cure', fix: 'Warm the bay or the panel' },
    beyondForecast: { message: 'not within the next days', fix: 'Warm the bay or the panel' },
    noTemperature: { message: 'nobody knows how warm it is', fix: 'Measure the panel' },
  }[readyAt.reason]
  return { code: 'handling-strength', message: `${reached}; ${why.message}`, fix: doubt ?? why.fix }
}

/** An attempt with its own answer, as a joint's is put together from them. */
export interface AnsweredAttempt {
  readonly row: BondRow
  readonly check: MoveCheck
}

/** The standing of one joint, its attempts in their order. */
export function standingOfJoint(attempts: readonly AnsweredAttempt[]): JointStanding {
  const rows = attempts.map(({ row }) => row)
  const ready = new Set(
    attempts.filter(({ check }) => !check.reasons.some(isLacking)).map(({ row }) => row.id),
  )
  return standingOf(rows, ({ id }) => ready.has(id))
}

/** Reasons that time or a reading takes away; what else stands against a joint is in its departures. */
const isLacking = ({ code }: ProblemReason): boolean =>
  code === 'handling-strength' || code === 'too-few-readings' || code === 'cannot-compute'

/** For the whole vehicle: the worst of all its joints, so the latest counts. */
export function vehicleCheck(attempts: readonly AnsweredAttempt[], now: Date): MoveCheck {
  const against = jointsOf(attempts.map((each) => ({ ...each, jointId: each.row.jointId }))).flatMap(
    (ofJoint) => {
      const { mayMove, attempt } = standingOfJoint(ofJoint)
      return mayMove || attempt === null ? [] : [ofJoint[attempt]!]
    },
  )
  const waiting = against.filter(({ row }) => isRunning(row))
  const readyAt = latest(waiting.map(({ check }) => check.readyAt)) ?? { kind: 'at', at: now }
  const measured = latest(waiting.map(({ check }) => check.measureAgain?.readyAt ?? check.readyAt))
  return {
    mayMove: against.length === 0,
    asOf: now,
    readyAt,
    reasons: against.flatMap(({ check }) => check.reasons),
    measureAgain: measured && isSooner(measured, readyAt) ? { readyAt: measured } : null,
  }
}

function isSooner(a: ReadyInstant, b: ReadyInstant): boolean {
  return a.kind === 'at' && (b.kind === 'never' || a.at < b.at)
}

export function latest(instants: readonly ReadyInstant[]): ReadyInstant | undefined {
  return instants.reduce<ReadyInstant | undefined>((late, next) => {
    if (late === undefined || next.kind === 'never') return late?.kind === 'never' ? late : next
    return late.kind === 'never' || late.at >= next.at ? late : next
  }, undefined)
}

export function toReady(ready: Ready): ReadyInstant {
  return ready.kind === 'at' ? { kind: 'at', at: new Date(ready.atMs) } : ready
}
