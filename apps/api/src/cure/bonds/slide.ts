import { message } from '@clampclock/messages'
import type { Bond, BodyOf, bondRoutes } from '@clampclock/contracts'
import { creditedFromMs } from '@clampclock/cure'
import { requireIn } from '../../foundation/permissions/actor.ts'
import { ProblemError } from '../../foundation/problems/problem-error.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import type { RecordEvent } from '../records/chain.ts'
import { lockedBond, type BondRow } from '../estimates/bond-store.ts'
import { estimateOf } from '../estimates/history.ts'
import { recordIncident } from './incidents.ts'
import { finish, instantOf, runningBond } from './lifecycle.ts'
import type { Step } from './step.ts'

/**
 * The panels were slid into place, before the clamps or under them. While the work time runs that does no harm and is
 * written down; once it may be over, what has begun to cure is torn. So it is after the release, and told then what came
 * before it: an answer that says yes does not outlive the word that the joint was moved.
 *
 * @throws {ProblemError} `bond-refused` once the work time may be over, unless it is said to have happened already: then it
 *   is an incident, which holds the joint until somebody entitled disposes of it.
 */
export async function slideBond(
  step: Step,
  bondId: string,
  { at: told, alreadyHappened, reason }: BodyOf<typeof bondRoutes.slideBond>,
): Promise<Bond> {
  const { tx, actor, now } = step
  const bond = await madeBond(step, bondId)
  const isReleased = bond.state === 'released'
  const at = instantOf(bond, told, bond.slidAt ?? bond.appliedAt, now)
  const { timeZone } = await shopById(tx, bond.shopId)
  // As for the clamps: nobody's word about the past makes it early enough, and where it cannot be computed nobody knows.
  const judgedAt = new Date(creditedFromMs(at.getTime(), now.getTime()))
  const { estimate, fault } = await estimateOf(tx, bond, timeZone, judgedAt)
  const isLate =
    fault !== null || estimate.workTime.progress.earliest >= 1 || (isReleased && at >= bond.releasedAt!)
  // Told of a bond that is released it is a word about the past, in time or not.
  if ((isLate || isReleased) && !alreadyHappened) {
    const { name: joint } = bond.joint
    const said = message(
      isReleased ? 'gate.movedReleased' : fault === null ? 'gate.movedLate' : 'gate.movedUnknown',
      { joint },
    )
    throw new ProblemError('bond-refused', said, [
      { code: 'work-time-over', message: said, fix: message('gate.movedLateFix') },
    ])
  }
  await tx.bond.update({ where: { id: bondId }, data: { slidAt: at, slidBy: actor.name } })
  const facts = { by: actor.name, reason, recordedAt: now.toISOString() }
  const events: RecordEvent[] = [{ kind: 'slid', at, facts }]
  if (isLate) events.push(await recordIncident(step, bond, { kind: 'movedAfterWorkTime', at, reason }))
  return finish(step, bond, events)
}

/** Locked; one that was given up has nothing left to be moved. */
async function madeBond(step: Step, bondId: string): Promise<BondRow> {
  const bond = await lockedBond(step.tx, bondId)
  if (bond.state !== 'released') return runningBond(step, bondId, 'makeBonds')
  requireIn(step.actor, 'makeBonds', bond.shopId)
  return bond
}
