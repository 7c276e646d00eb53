import { message, type Message, type Told } from '@clampclock/messages'
import type { ProblemCode, ProblemReason } from '@clampclock/contracts'
import { mayIn, type Actor } from '../../foundation/permissions/actor.ts'
import { attentionNeeded } from '../../foundation/events/attention.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { ProblemError } from '../../foundation/problems/problem-error.ts'
import { asJson, param, sentences } from '../../foundation/words/params.ts'
import { inEnglish } from '../../foundation/words/words.ts'
import { recordedSaid, type RecordEvent } from '../records/chain.ts'

export interface Overridden {
  readonly code: string
  readonly message: Told
  readonly reason: string
}

/**
 * What somebody goes on in spite of. Nothing overrides a reason that is not `overridable`.
 *
 * @throws {ProblemError} `not-permitted` for overrides without takeResponsibility; `problem` with every reason that
 *   still stands.
 */
export function overriddenReasons(
  actor: Actor,
  shopId: string,
  reasons: readonly ProblemReason[],
  wish: readonly { readonly code: string; readonly reason: string }[],
  problem: ProblemCode,
): Overridden[] {
  const overrides = new Map(wish.map(({ code, reason }) => [code, reason]))
  if (overrides.size > 0 && !mayIn(actor, 'takeResponsibility', shopId)) {
    throw new ProblemError('not-permitted', message('gate.needsPermission'), [
      {
        code: 'takeResponsibility',
        field: 'body.overrides',
        message: message('gate.roleLacks'),
        fix: message('gate.askOwnerFix'),
      },
    ])
  }
  const standing = reasons.filter(({ code, overridable }) => !(overridable && overrides.has(code)))
  if (standing.length > 0) {
    throw new ProblemError(problem, sentences(standing.map((each) => each.message)), standing)
  }
  return reasons.map(({ code, message }) => ({ code, message, reason: overrides.get(code) ?? '' }))
}

export interface OverriddenBond {
  readonly id: string
  readonly organizationId: string
  readonly shopId: string
  readonly joint: {
    readonly name: string
    readonly repairOrderId: string
    readonly repairOrder: { readonly number: string }
  }
}

/** Keeps each with its written reason, for ever, and tells of them. Answers them for the record. */
export async function recordOverrides(
  { tx, actor, now }: { readonly tx: Tx; readonly actor: Actor; readonly now: Date },
  bond: OverriddenBond,
  did: 'started' | 'clamped' | 'released',
  overridden: readonly Overridden[],
): Promise<RecordEvent[]> {
  const events: RecordEvent[] = []
  const { id: bondId, organizationId, shopId, joint } = bond
  for (const { message: gate, reason } of overridden) {
    const said = message('incident.overridden', { gate: param(gate), reason })
    const incident = {
      kind: 'gateOverridden',
      at: now,
      recordedBy: actor.name,
      reason: inEnglish(said),
    }
    const { id } = await tx.incident.create({
      data: { ...incident, said: asJson(said), organizationId, shopId, bondId },
    })
    events.push(incidentEvent({ ...incident, said, id }))
  }
  if (overridden.length === 0) return events
  await tell(tx, attentionNeeded, {
    organizationId,
    shopId,
    kind: 'gateOverridden',
    message: message('alert.gateOverridden', {
      order: joint.repairOrder.number,
      joint: joint.name,
      did,
      gates: overridden.length,
    }),
    subjectKind: 'bond',
    subjectId: bondId,
    repairOrderId: joint.repairOrderId,
    openedAt: now,
  })
  return events
}

/** An incident as the record tells it. */
export function incidentEvent(row: {
  readonly id: string
  readonly kind: string
  readonly at: Date
  readonly recordedBy: string
  readonly reason: string
  readonly said?: Message
  readonly fractionReached?: number
}): RecordEvent {
  const { id, kind, at, recordedBy, reason, said, fractionReached } = row
  return {
    kind: 'incident',
    at,
    facts: {
      incidentId: id,
      incident: kind,
      by: recordedBy,
      reason,
      ...recordedSaid(said),
      fractionReached: fractionReached ?? null,
    },
  }
}
