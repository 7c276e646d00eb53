import type { ProblemReason } from '@clampclock/contracts'
import { attentionNeeded } from '../../foundation/events/attention.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import type { RecordEvent } from '../records/chain.ts'
import { incidentEvent, type OverriddenBond } from './overrides.ts'
import type { Step } from './step.ts'

export interface IncidentFacts {
  readonly kind: 'earlyRelease' | 'clampedAfterWorkTime' | 'appliedAgainstRefusal' | 'leftWithAdhesive'
  readonly at: Date
  readonly reason: string
  readonly fractionReached?: number
}

/** Keeps it for ever, and tells of it. Answers it for the record. */
export async function recordIncident(
  { tx, actor, now }: Step,
  bond: OverriddenBond,
  facts: IncidentFacts,
  against: readonly ProblemReason[] = [],
): Promise<RecordEvent> {
  const scope = { organizationId: bond.organizationId, shopId: bond.shopId }
  const recordedBy = actor.name
  const { id } = await tx.incident.create({ data: { ...scope, bondId: bond.id, recordedBy, ...facts } })
  const what = {
    earlyRelease: earlyReleaseSentence(facts, against),
    clampedAfterWorkTime: 'clamped after the work time had run out',
    appliedAgainstRefusal: 'applied although a gate refused',
    leftWithAdhesive: 'given up with adhesive on it',
  }[facts.kind]
  await tell(tx, attentionNeeded, {
    ...scope,
    kind: facts.kind,
    message: `${bond.joint.repairOrder.number}, ${bond.joint.name}: ${what}`,
    subjectKind: 'bond',
    subjectId: bond.id,
    repairOrderId: bond.joint.repairOrderId,
    openedAt: now,
  })
  return incidentEvent({ id, recordedBy, ...facts })
}

/** The gravest of what stood against it. */
function earlyReleaseSentence(
  { fractionReached = 0 }: IncidentFacts,
  against: readonly ProblemReason[],
): string {
  const codes = new Set(against.map(({ code }) => code))
  if (codes.has('not-clamped')) return 'released before it was ever clamped'
  if (codes.has('handling-strength'))
    return `released at ${Math.floor(fractionReached * 100)} % of handling strength`
  return 'released before the readings that its class asks for'
}
