import { message, type Told } from '@clampclock/messages'
import type { Tx } from '../../foundation/database/database.ts'
import { attentionNeeded } from '../../foundation/events/attention.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { asJson } from '../../foundation/words/params.ts'
import { inEnglish } from '../../foundation/words/words.ts'
import { announce } from '../../foundation/live/hub.ts'
import { appendToRecord } from '../records/chain.ts'
import { lockedBond, type BondRow } from '../estimates/bond-store.ts'
import { estimateOf, type Estimated } from '../estimates/history.ts'
import type { AirLearned } from '../temperature/events.ts'
import { incidentEvent } from './overrides.ts'

/** Who says so in the record: nobody did it, what was learned did. */
const BY = 'Checked again by the service'

/**
 * Looks again at bonds whose clamps are off, after something about their past has changed: a reading that came late, was
 * withdrawn or corrected, a thermometer that was doubted, a data sheet that became slower. One that was not at handling
 * strength when it was released, by what is known now, gets an early release on record, once, and an alert.
 *
 * @param where Which bonds may have been touched; only those that are released are looked at.
 * @param concerns Leaves out what the change cannot have touched, as its estimate tells.
 * @returns ids of the bonds that were found to have been released too early.
 */
export async function recheckReleases(
  tx: Tx,
  where: Prisma.BondWhereInput,
  now: Date,
  concerns: (estimated: Estimated) => boolean = () => true,
): Promise<string[]> {
  const released = await tx.bond.findMany({
    where: { AND: [where, { state: 'released', incidents: { none: { kind: 'earlyRelease' } } }] },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  const early: string[] = []
  for (const { id } of released) {
    // Locked, and read again: two who change the past of one bond at once find it once.
    const bond = await lockedBond(tx, id)
    if (bond.incidents.some(({ kind }) => kind === 'earlyRelease')) continue
    const estimated = await estimateOf(tx, bond, bond.joint.repairOrder.shop.timeZone, now)
    const { estimate, fault } = estimated
    if (!concerns(estimated)) continue
    const { conservative } = estimate.handlingStrength.progress
    if (fault === null && conservative >= 1) continue
    await keepEarlyRelease(tx, bond, conservative, fault, now)
    early.push(bond.id)
  }
  return early
}

/** What came late of a bay's air concerns whatever was released in it since. */
export async function recheckReleasesIn(tx: Tx, { bayId, fromAt, now }: AirLearned): Promise<void> {
  await recheckReleases(tx, { bayId, releasedAt: { gte: fromAt } }, now)
}

async function keepEarlyRelease(
  tx: Tx,
  bond: BondRow,
  fractionReached: number,
  fault: Told | null,
  now: Date,
): Promise<void> {
  const { id: bondId, organizationId, shopId, joint } = bond
  const learned =
    fault === null
      ? message('incident.learnedAt', { reached: { share: fractionReached, round: 'down' } })
      : message('incident.learnedNotComputed')
  const reason = inEnglish(learned)
  const facts = { kind: 'earlyRelease', at: bond.releasedAt!, recordedBy: BY, reason, fractionReached }
  const { id } = await tx.incident.create({
    data: { ...facts, said: asJson(learned), organizationId, shopId, bondId },
  })
  await appendToRecord(tx, bond, now, [incidentEvent({ id, said: learned, ...facts })])
  await tell(tx, attentionNeeded, {
    organizationId,
    shopId,
    kind: 'earlyRelease',
    message: message('alert.releasedTooEarly', {
      order: joint.repairOrder.number,
      joint: joint.name,
      learned: { message: learned },
    }),
    subjectKind: 'bond',
    subjectId: bondId,
    repairOrderId: joint.repairOrderId,
    openedAt: now,
  })
  await announce(tx, { organizationId, shopId, topic: 'bonds', subjectId: bondId })
}
