import { message, type Message } from '@clampclock/messages'
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
import { readyOnClock } from '../../foundation/words/params.ts'
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
      message: message('move.notClamped', { joint: bond.joint.name }),
      fix: message('move.notClampedFix'),
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

function cannotCompute(joint: string): ProblemReason {
  return {
    code: 'cannot-compute',
    message: message('move.cannotCompute', { joint }),
    fix: message('move.cannotComputeFix'),
  }
}

/** What a person can do where the wait is long because something that was read is in doubt; null where nothing is. */
function doubtFix(notes: readonly EstimateNote[], timeZone: string): Message | null {
  if (notes.some(({ kind }) => kind === 'airAtJointApart')) return message('move.fixApart')
  const unproven = notes.find((note) => note.kind === 'metalUnproven')
  if (unproven)
    return unproven.ifProvenAtMs === undefined
      ? message('move.fixUnproven')
      : message('move.fixUnprovenReady', { ready: readyOnClock(unproven.ifProvenAtMs, timeZone) })
  if (notes.some(({ kind }) => kind === 'suspectReadings')) return message('move.fixSuspect')
  const air = notes.find((note) => note.kind === 'airUnproven')
  if (!air) return null
  return air.ifProvenAtMs === undefined
    ? message('move.fixAir')
    : message('move.fixAirReady', { ready: readyOnClock(air.ifProvenAtMs, timeZone) })
}

const WHY_NEVER = {
  tooCold: 'move.notReadyTooCold',
  beyondForecast: 'move.notReadyBeyondForecast',
  noTemperature: 'move.notReadyNoTemperature',
} as const

function notReadyReason(
  bond: BondRow,
  { handlingStrength, notes }: Estimated['estimate'],
  readyAt: ReadyInstant,
  timeZone: string,
): ProblemReason {
  const code = 'handling-strength'
  // Rounded down: 99.7 % must not read as done.
  const reached = { share: handlingStrength.progress.conservative, round: 'down' } as const
  const what = { joint: bond.joint.name, reached }
  const doubt = doubtFix(notes, timeZone)
  if (readyAt.kind === 'at') {
    const ready = readyOnClock(readyAt.at.getTime(), timeZone)
    return {
      code,
      message: message('move.notReady', { ...what, ready }),
      ...(doubt === null ? {} : { fix: doubt }),
    }
  }
  const fix = message(readyAt.reason === 'noTemperature' ? 'move.measureFix' : 'move.warmFix')
  return { code, message: message(WHY_NEVER[readyAt.reason], what), fix: doubt ?? fix }
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
