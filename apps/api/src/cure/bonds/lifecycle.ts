import { inEnglish } from '../../foundation/words/words.ts'
import { written } from '../../foundation/words/params.ts'
import { message, type Message } from '@clampclock/messages'
import type { Bond, BodyOf, bondRoutes, MoveCheck } from '@clampclock/contracts'
import { creditedFromMs } from '@clampclock/cure'
import { requireIn } from '../../foundation/permissions/actor.ts'
import { invalidField, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import { bondChanged } from './events.ts'
import { appendToRecord, type RecordEvent } from '../records/chain.ts'
import { qualificationFacts } from './recorded-facts.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { bondRow, lockedBond, type BondRow } from '../estimates/bond-store.ts'
import { estimateOf } from '../estimates/history.ts'
import { recordIncident } from './incidents.ts'
import { moveCheckOf } from '../estimates/move-check.ts'
import { overriddenReasons, recordOverrides } from './overrides.ts'
import { isRunning } from '../../work/index.ts'
import type { Step } from './step.ts'
import { toBond } from '../estimates/to-bond.ts'
import { qualifiedFor } from './who-and-with-what.ts'

export async function clampBond(
  step: Step,
  bondId: string,
  body: BodyOf<typeof bondRoutes.clampBond>,
): Promise<Bond> {
  const { tx, actor, now } = step
  const bond = await runningBond(step, bondId, 'makeBonds')
  if (bond.state === 'clamped')
    throw wrongState(message('cure-problem.clampedAlready', { joint: bond.joint.name }))
  const at = instantOf(bond, body.at, bond.appliedAt, now)
  const { timeZone } = await shopById(tx, bond.shopId)
  const { reasons, qualification } = await qualifiedFor(tx, actor, bond.joint.safetyClass, at, timeZone)
  const overridden = overriddenReasons(actor, bond.shopId, reasons, body.overrides, 'bond-refused')
  // Nobody's word about the past closes a joint in time.
  const judgedAt = new Date(creditedFromMs(at.getTime(), now.getTime()))
  const { estimate, fault } = await estimateOf(tx, bond, timeZone, judgedAt)
  await tx.bond.update({
    where: { id: bondId },
    data: { state: 'clamped', clampedAt: at, clampedBy: actor.name, clampedRecordedAt: now },
  })
  const facts = {
    by: actor.name,
    note: body.note,
    qualification: qualificationFacts(qualification),
    recordedAt: now.toISOString(),
  }
  const events: RecordEvent[] = [{ kind: 'clamped', at, facts }]
  events.push(...(await recordOverrides(step, bond, 'clamped', overridden)))
  // The cautious side of the work time is its earliest end; where it cannot be computed, nobody can say that it lasted.
  if (fault !== null || estimate.workTime.progress.earliest >= 1) {
    const late = lateSentence(fault !== null, judgedAt > at)
    const said = body.note ? message('incident.withNote', { what: { message: late }, note: body.note }) : late
    const reason = inEnglish(said)
    events.push(await recordIncident(step, bond, { kind: 'clampedAfterWorkTime', at, reason, said }))
  }
  return finish(step, bond, events)
}

function lateSentence(isUnknown: boolean, isToldLate: boolean): Message {
  if (isUnknown) return message('incident.clampedUnknown')
  return message(isToldLate ? 'incident.clampedToldLate' : 'incident.clampedLate')
}

export async function checkMove(step: Step, bondId: string): Promise<MoveCheck> {
  const bond = await bondRow(step.tx, bondId)
  requireIn(step.actor, 'readShop', bond.shopId)
  const { timeZone } = await shopById(step.tx, bond.shopId)
  return moveCheckOf(bond, await estimateOf(step.tx, bond, timeZone, step.now), timeZone)
}

export async function releaseBond(
  step: Step,
  bondId: string,
  body: BodyOf<typeof bondRoutes.releaseBond>,
): Promise<Bond> {
  const bond = await runningBond(step, bondId, 'makeBonds')
  await releaseLocked(step, bond, body)
  return finish(step, bond, [])
}

const HAS_AN_INCIDENT: ReadonlySet<string> = new Set([
  'clamped-late',
  'applied-against-refusal',
  'to-be-redone',
])

/**
 * Takes the clamps off a locked, running bond.
 *
 * @throws {ProblemError} `not-ready` unless it is ready, what may be overridden is overridden by somebody entitled, or it is said to have happened already: then it is an early release.
 */
export async function releaseLocked(
  step: Step,
  bond: BondRow,
  body: BodyOf<typeof bondRoutes.releaseBond>,
): Promise<void> {
  const { tx, actor, now } = step
  const at = instantOf(bond, body.at, bond.clampedAt ?? bond.appliedAt, now)
  const { timeZone } = await shopById(tx, bond.shopId)
  const estimated = await estimateOf(tx, bond, timeZone, at)
  const check = moveCheckOf(bond, estimated, timeZone)
  const overridden = body.alreadyHappened
    ? []
    : overriddenReasons(actor, bond.shopId, check.reasons, body.overrides, 'not-ready')
  await tx.bond.update({
    where: { id: bond.id },
    data: { state: 'released', releasedAt: at, releasedBy: actor.name },
  })
  const incidents = await recordOverrides(step, bond, 'released', overridden)
  const { conservative } = estimated.estimate.handlingStrength.progress
  // What has an incident of its own waits already; whatever else stood against it makes the release early.
  const against = body.alreadyHappened ? check.reasons.filter(({ code }) => !HAS_AN_INCIDENT.has(code)) : []
  if (against.length > 0) {
    const early = { kind: 'earlyRelease', at, reason: body.reason, fractionReached: conservative } as const
    incidents.push(await recordIncident(step, bond, early, against))
  }
  const { alreadyHappened, reason } = body
  const facts = { by: actor.name, alreadyHappened, reason, conservativeProgress: conservative }
  await appendToRecord(tx, bond, now, [{ kind: 'released', at, facts }, ...incidents])
}

export async function abandonBond(
  step: Step,
  bondId: string,
  body: BodyOf<typeof bondRoutes.abandonBond>,
): Promise<Bond> {
  const { tx, actor, now } = step
  const bond = await runningBond(step, bondId, 'makeBonds')
  const at = instantOf(bond, body.at, bond.appliedAt, now)
  await tx.bond.update({
    where: { id: bondId },
    data: {
      state: 'abandoned',
      abandonedAt: at,
      abandonedBy: actor.name,
      abandonReason: body.reason,
      wasLifted: body.wasLifted,
    },
  })
  const { reason, wasLifted } = body
  const left = { kind: 'leftWithAdhesive', at, reason } as const
  return finish(step, bond, [
    { kind: 'abandoned', at, facts: { by: actor.name, reason, wasLifted } },
    // Its adhesive is on the vehicle until it is bonded again, or somebody entitled has looked at it. What was done wrong
    // before waits on for whoever it waits for.
    await recordIncident(step, bond, left),
  ])
}

export async function runningBond(
  { tx, actor }: Step,
  bondId: string,
  permission: 'makeBonds',
): Promise<BondRow> {
  const bond = await lockedBond(tx, bondId)
  requireIn(actor, permission, bond.shopId)
  if (!isRunning(bond))
    throw wrongState(message('cure-problem.bondIs', { joint: bond.joint.name, state: bond.state }))
  return bond
}

/** An instant of the request: now when left out, never in the future, never before what it follows. */
export function instantOf(bond: BondRow, at: Date | undefined, notBefore: Date, now: Date): Date {
  const instant = at ?? now
  if (instant > now) throw invalidField('body.at', message('problem.inFuture'))
  if (instant < notBefore)
    throw invalidField(
      'body.at',
      message('cure-problem.beforeWhatItFollows', {
        at: written(notBefore, bond.joint.repairOrder.shop.timeZone),
      }),
    )
  return instant
}

/** Writes the record, tells everybody, keeps the bay as long as the bond now needs it, and answers the bond as it stands. */
export async function finish(
  { tx, now }: Step,
  { id, organizationId, shopId }: BondRow,
  events: readonly RecordEvent[],
): Promise<Bond> {
  await appendToRecord(tx, { id, organizationId, shopId }, now, events)
  await announce(tx, { organizationId, shopId, topic: 'bonds', subjectId: id })
  await tell(tx, bondChanged, { organizationId, bondId: id, now })
  const { timeZone } = await shopById(tx, shopId)
  return toBond(tx, await bondRow(tx, id), timeZone, now)
}
