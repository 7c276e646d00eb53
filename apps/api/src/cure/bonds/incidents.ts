import { message, type Message } from '@clampclock/messages'
import type { ProblemReason } from '@clampclock/contracts'
import { attentionNeeded } from '../../foundation/events/attention.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import type { RecordEvent } from '../records/chain.ts'
import { asJson } from '../../foundation/words/params.ts'
import { incidentEvent, type OverriddenBond } from './overrides.ts'
import type { Step } from './step.ts'

export interface IncidentFacts {
  readonly kind:
    | 'earlyRelease'
    | 'clampedAfterWorkTime'
    | 'movedAfterWorkTime'
    | 'appliedAgainstRefusal'
    | 'leftWithAdhesive'
  readonly at: Date
  readonly reason: string
  readonly fractionReached?: number
  /** What the reason says, as data, where the service says it. */
  readonly said?: Message
}

/** Keeps it for ever, and tells of it. Answers it for the record. */
export async function recordIncident(
  { tx, actor, now }: Step,
  bond: OverriddenBond,
  { said, ...facts }: IncidentFacts,
  against: readonly ProblemReason[] = [],
): Promise<RecordEvent> {
  const scope = { organizationId: bond.organizationId, shopId: bond.shopId }
  const recordedBy = actor.name
  const { id } = await tx.incident.create({
    data: { ...scope, bondId: bond.id, recordedBy, ...facts, ...(said ? { said: asJson(said) } : {}) },
  })
  await tell(tx, attentionNeeded, {
    ...scope,
    kind: facts.kind,
    message: incidentSentence(bond, facts, against),
    subjectKind: 'bond',
    subjectId: bond.id,
    repairOrderId: bond.joint.repairOrderId,
    openedAt: now,
  })
  return incidentEvent({ id, recordedBy, ...(said ? { said } : {}), ...facts })
}

function incidentSentence(
  { joint }: OverriddenBond,
  { kind, fractionReached = 0 }: IncidentFacts,
  against: readonly ProblemReason[],
): Message {
  const what = { order: joint.repairOrder.number, joint: joint.name }
  if (kind !== 'earlyRelease') return message(`alert.${kind}`, what)
  // The gravest of what stood against it.
  const codes = new Set(against.map(({ code }) => code))
  if (codes.has('not-clamped')) return message('alert.releasedNeverClamped', what)
  if (codes.has('handling-strength'))
    return message('alert.releasedAt', { ...what, reached: { share: fractionReached, round: 'down' } })
  return message('alert.releasedBeforeReadings', what)
}
