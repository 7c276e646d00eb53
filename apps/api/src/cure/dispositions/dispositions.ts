import { written } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import type { Bond, BodyOf, bondRoutes, ResultOf } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, notFound, ProblemError, wrongState } from '../../foundation/problems/problem-error.ts'
import type { RecordEvent } from '../records/chain.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { bondRow, lockedBond, type BondRow } from '../estimates/bond-store.ts'
import { acceptable } from './acceptable.ts'
import { asksOfDisposal, isRunning } from '../../work/index.ts'
import { inspectorsFor, makersOf, requireInspector } from './inspectors.ts'
import { dispose } from '../bonds/dispose.ts'
import { finish } from '../bonds/lifecycle.ts'
import { toPhoto } from './photos.ts'
import type { Step } from '../bonds/step.ts'

type Disposal = BodyOf<typeof bondRoutes.disposeIncident>
type Acceptance = Extract<Disposal, { kind: 'inspectedAndAccepted' }>
type IncidentRow = BondRow['incidents'][number]

/**
 * Inspected and accepted, or to be made again. What a class asks for a second person about is kept as an inspection, and
 * disposed of by that person's agreement.
 */
export async function disposeIncident(step: Step, incidentId: string, body: Disposal): Promise<Bond> {
  const { bond, incident } = await openIncident(step, incidentId)
  if (body.kind === 'redone') {
    const event = await dispose(step, bond, incident, { kind: 'redone', reason: body.reason })
    return finish(step, bond, [event])
  }
  if (isRunning(bond) && incident.kind === 'appliedAgainstRefusal')
    throw wrongState(
      message('cure-problem.stillCures', { joint: bond.joint.name }),
      message('cure-problem.inspectLaterFix'),
    )
  await requireCured(step, bond)
  const inspected = await inspect(step, bond, incident, body)
  const { secondPerson } = asksOfDisposal(bond.joint.safetyClass)
  if (secondPerson) return finish(step, bond, [inspected.event])
  const event = await dispose(step, bond, incident, {
    kind: 'inspectedAndAccepted',
    reason: body.result,
    inspectionId: inspected.id,
  })
  return finish(step, bond, [inspected.event, event])
}

/** No inspector makes adhesive cure. */
async function requireCured({ tx, now }: Step, bond: BondRow): Promise<void> {
  const { mayAccept, acceptableAt } = await acceptable(tx, bond, now)
  if (mayAccept) return
  const { timeZone } = await shopById(tx, bond.shopId)
  throw wrongState(
    acceptableAt === null
      ? message('cure-problem.nobodyCanSayReady', { joint: bond.joint.name })
      : message('cure-problem.cannotHaveReached', {
          joint: bond.joint.name,
          at: written(acceptableAt, timeZone),
        }),
    message('cure-problem.inspectOnceFix'),
  )
}

export async function agreeToInspection(
  step: Step,
  inspectionId: string,
  { reason }: BodyOf<typeof bondRoutes.agreeToInspection>,
): Promise<Bond> {
  const inspection = await step.tx.inspection.findUnique({
    where: { id: inspectionId },
    omit: { photo: true },
  })
  if (!inspection) throw notFound('inspection', inspectionId)
  const { bond, incident } = await openIncident(step, inspection.incidentId)
  const { actor } = step
  const isFirst = inspection.recordedById === actor.id
  const isMaker = makersOf(bond).includes(actor.name)
  if (isFirst || isMaker || actor.kind !== 'person')
    throw new ProblemError('not-permitted', message('cure-problem.secondIsAnother'), [
      {
        code: 'same-person',
        message: isMaker
          ? message('cure-problem.madeJoint', { person: actor.name })
          : message('cure-problem.recordedInspection', { person: actor.name }),
        fix: message('cure-problem.anotherEntitledFix'),
      },
    ])
  // What was learned since the inspection counts as well.
  await requireCured(step, bond)
  const event = await dispose(step, bond, incident, {
    kind: 'inspectedAndAccepted',
    reason: message('incident.agreed', { result: inspection.result, reason }),
    inspectionId,
  })
  return finish(step, bond, [event])
}

export async function listInspectors(
  tx: Tx,
  actor: Actor,
  incidentId: string,
  now: Date,
): Promise<ResultOf<typeof bondRoutes.listInspectors>> {
  const incident = await tx.incident.findUnique({ where: { id: incidentId } })
  if (!incident) throw notFound('incident', incidentId)
  requireIn(actor, 'takeResponsibility', incident.shopId)
  const bond = await bondRow(tx, incident.bondId)
  const { joint } = bond
  const { photo, secondPerson } = asksOfDisposal(joint.safetyClass)
  const { timeZone } = await shopById(tx, incident.shopId)
  const able = await inspectorsFor(tx, incident.shopId, joint.safetyClass, now, timeZone)
  // Where a second person is asked for, who made the joint may not inspect it.
  const items = secondPerson ? able.filter(({ name }) => !makersOf(bond).includes(name)) : able
  return {
    items,
    needsPhoto: photo,
    needsSecondPerson: secondPerson,
    ...(await acceptable(tx, bond, now)),
  }
}

export async function photoOf(
  tx: Tx,
  actor: Actor,
  inspectionId: string,
): Promise<ResultOf<typeof bondRoutes.getInspectionPhoto>> {
  const row = await tx.inspection.findUnique({ where: { id: inspectionId } })
  if (!row) throw notFound('inspection', inspectionId)
  requireIn(actor, 'readShop', row.shopId)
  if (!row.photo) throw notFound('photo of the inspection', inspectionId)
  return {
    mediaType: row.photoType as 'image/jpeg' | 'image/png',
    base64: Buffer.from(row.photo).toString('base64'),
    sha256: row.photoSha256!,
  }
}

async function openIncident(
  { tx, actor }: Step,
  incidentId: string,
): Promise<{ bond: BondRow; incident: IncidentRow }> {
  const found = await tx.incident.findUnique({ where: { id: incidentId } })
  if (!found) throw notFound('incident', incidentId)
  const bond = await lockedBond(tx, found.bondId)
  requireIn(actor, 'takeResponsibility', bond.shopId)
  if (found.kind === 'gateOverridden') throw wrongState(message('cure-problem.overriderResponsible'))
  const incident = bond.incidents.find(({ id }) => id === incidentId)!
  if (incident.disposition) throw wrongState(message('cure-problem.disposedAlready'))
  return { bond, incident }
}

async function inspect(
  { tx, actor, now }: Step,
  bond: BondRow,
  incident: IncidentRow,
  { inspectorId, method, result, photo }: Acceptance,
): Promise<{ readonly id: string; readonly event: RecordEvent }> {
  const { organizationId, shopId, joint } = bond
  const { timeZone } = await shopById(tx, shopId)
  const inspector = await requireInspector(tx, inspectorId, bond, now, timeZone)
  if (asksOfDisposal(joint.safetyClass).photo && photo === null)
    throw invalidField(
      'body.photo',
      message('cure-problem.photoAsked', { class: joint.safetyClass }),
      message('cure-problem.addPhotoFix'),
    )
  const kept = photo === null ? null : toPhoto(photo, 'body.photo.base64')
  const { id } = await tx.inspection.create({
    data: {
      organizationId,
      shopId,
      incidentId: incident.id,
      inspectorId,
      inspectorName: inspector.name,
      method,
      result,
      ...kept,
      at: now,
      recordedBy: actor.name,
      recordedById: actor.id,
    },
    select: { id: true },
  })
  const facts = {
    by: actor.name,
    incidentId: incident.id,
    inspector: inspector.name,
    method,
    result,
    photoSha256: kept?.photoSha256 ?? null,
  }
  return { id, event: { kind: 'inspection', at: now, facts } }
}
