import type { MoveCheck, ProblemReason, ReadyInstant } from '@clampclock/contracts'
import type { ReadyInstant as Ready } from '@clampclock/cure'
import { isRunning, type BondRow } from './bond-store.ts'
import type { Estimated } from './history.ts'
import { shopTime } from './notes.ts'
import { readingReasons } from './who-and-with-what.ts'

/**
 * Rule 3: a bond may be moved once it has reached handling strength on the conservative estimate. A joint that was
 * clamped too late waits for a person as well (rule 2), one of class S1 for its readings (rule 8).
 */
export function moveCheckOf(
  bond: BondRow,
  { estimate, asOf, fault }: Estimated,
  timeZone: string,
): MoveCheck {
  const readyAt = toReady(estimate.handlingStrength.readyAt.conservative)
  if (!isRunning(bond)) return { mayMove: true, asOf, readyAt, reasons: [] }

  const reasons: ProblemReason[] = []
  const { conservative } = estimate.handlingStrength.progress
  if (bond.state === 'applied') {
    reasons.push({
      code: 'not-clamped',
      message: `${bond.joint.name}: the joint is not clamped yet`,
      fix: 'Close and clamp it, then let it cure',
    })
  }
  if (fault !== null) reasons.push(cannotCompute(bond.joint.name))
  else if (conservative < 1) reasons.push(notReadyReason(bond, conservative, readyAt, timeZone))
  reasons.push(...readingReasons(bond, timeZone))
  for (const incident of bond.incidents) {
    if (incident.kind !== 'clampedAfterWorkTime' || incident.disposition) continue
    reasons.push({
      code: 'clamped-late',
      message: `${bond.joint.name}: it was clamped after the work time had run out`,
      fix: 'Abandon it, or have somebody entitled accept it with a written reason',
    })
  }
  return { mayMove: reasons.length === 0, asOf, readyAt, reasons }
}

function cannotCompute(jointName: string): ProblemReason {
  return {
    code: 'cannot-compute',
    message: `${jointName}: cannot be computed: not ready`,
    fix: 'See the alert: a reading, a thermometer or the data sheet is at fault',
  }
}

function notReadyReason(
  bond: BondRow,
  fraction: number,
  readyAt: ReadyInstant,
  timeZone: string,
): ProblemReason {
  // Rounded down: 99.7 % must not read as done.
  const percent = Math.floor(fraction * 100)
  const reached = `${bond.joint.name}: at ${percent} % of handling strength on the careful estimate`
  if (readyAt.kind === 'at')
    return {
      code: 'handling-strength',
      message: `${reached}; ready ${shopTime(readyAt.at.getTime(), timeZone)}`,
    }
  const why = {
    tooCold: { message: 'at this temperature it does not cure', fix: 'Warm the bay or the panel' },
    beyondForecast: { message: 'not within the next days', fix: 'Warm the bay or the panel' },
    noTemperature: { message: 'nobody knows how warm it is', fix: 'Measure the panel' },
  }[readyAt.reason]
  return { code: 'handling-strength', message: `${reached}; ${why.message}`, fix: why.fix }
}

/** Over several bonds: all must be ready, so the latest counts. */
export function combinedMoveCheck(checks: readonly MoveCheck[], now: Date): MoveCheck {
  const reasons = checks.flatMap((check) => check.reasons)
  const waiting = checks.filter((check) => !check.mayMove).map((check) => check.readyAt)
  return {
    mayMove: reasons.length === 0,
    asOf: now,
    readyAt: latest(waiting) ?? { kind: 'at', at: now },
    reasons,
  }
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
