import { keptReason } from '../../foundation/words/kept.ts'
import { message, type Told } from '@clampclock/messages'
import { attentionOver } from '../../foundation/events/attention.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import { recordedSaid, appendToRecord, type RecordedBond, type RecordEvent } from '../records/chain.ts'
import type { Step } from './step.ts'

/** A lifted or abandoned attempt is replaced by the next one: nothing waits for a person then. */
export async function replaceAbandoned(step: Step, jointId: string): Promise<void> {
  const left = await step.tx.incident.findMany({
    where: { kind: 'leftWithAdhesive', disposition: null, bond: { jointId } },
    select: { id: true, kind: true, bondId: true, organizationId: true, shopId: true },
  })
  for (const incident of left) {
    const bond = { ...incident, id: incident.bondId }
    const event = await dispose(step, bond, incident, {
      kind: 'redone',
      reason: message('incident.bondedAgain'),
    })
    await appendToRecord(step.tx, bond, step.now, [event])
  }
}

/** Records how an incident was answered for, and closes its alert. Answers the record's entry. */
export async function dispose(
  { tx, actor, now }: Step,
  bond: RecordedBond,
  incident: { readonly id: string; readonly kind: string },
  how: { readonly kind: string; readonly reason: Told; readonly inspectionId?: string },
): Promise<RecordEvent> {
  const { organizationId, shopId } = bond
  const by = { recordedBy: actor.name, recordedById: actor.id }
  const kept = keptReason(how.reason)
  await tx.disposition.create({
    data: { incidentId: incident.id, organizationId, shopId, at: now, ...by, ...how, ...kept },
  })
  await tell(tx, attentionOver, { organizationId, shopId, kind: incident.kind, subjectId: bond.id, at: now })
  const facts = {
    by: actor.name,
    incidentId: incident.id,
    disposition: how.kind,
    reason: kept.reason,
    ...recordedSaid(how.reason),
  }
  return { kind: 'disposition', at: now, facts }
}
