import type { Bond, BodyOf, bondRoutes, MoveCheck, ProblemReason } from '@clampclock/contracts'
import { requireIn, type Actor } from '../access/actor.ts'
import { closeAlert, raiseAlert } from '../alerts/raise.ts'
import type { Tx } from '../database/database.ts'
import { invalidField, notFound, wrongState } from '../http/problem-error.ts'
import { announce } from '../live/hub.ts'
import { keepBayBooked } from '../schedule/keep-bay.ts'
import { appendToRecord, type RecordEvent } from '../records/chain.ts'
import { instrumentFacts, qualificationFacts } from '../records/facts.ts'
import { instrumentOf } from '../shops/instruments.ts'
import { shopById } from '../shops/shops.ts'
import { writtenAt } from '../http/dates.ts'
import { bondRow, isRunning, lockedBond, type BondRow } from './bond-store.ts'
import { estimateOf } from './history.ts'
import { moveCheckOf } from './move-check.ts'
import { incidentEvent, overriddenReasons, recordOverrides } from './overrides.ts'
import { toBond } from './to-bond.ts'
import { qualifiedFor } from './who-and-with-what.ts'

/** Who does what to which bond, where and when: what every step of a bond's life needs. */
interface Step {
  readonly tx: Tx
  readonly actor: Actor
  readonly now: Date
}

export async function addPanelReading(
  step: Step,
  bondId: string,
  body: BodyOf<typeof bondRoutes.addPanelReading>,
): Promise<Bond> {
  const { tx, actor, now } = step
  const bond = await runningBond(step, bondId, 'makeBonds')
  const at = instantOf(bond, body.at, bond.appliedAt, now)
  const { temperatureC, source, instrumentId } = body
  const instrument = await instrumentOf(tx, bond.shopId, instrumentId, source, 'body.instrumentId')
  await tx.panelReading.create({
    data: {
      organizationId: bond.organizationId,
      shopId: bond.shopId,
      bondId,
      at,
      temperatureC,
      accuracyC: instrument?.accuracyC ?? body.accuracyC,
      source,
      instrumentId,
      calibratedUntil: instrument?.calibratedUntil ?? null,
      recordedBy: actor.name,
    },
  })
  const { timeZone } = await shopById(tx, bond.shopId)
  const accuracyC = instrument?.accuracyC ?? body.accuracyC
  const taken = { temperatureC, accuracyC, source, instrument: instrumentFacts(instrument, at, timeZone) }
  return finish(step, bond, [{ kind: 'reading', at, facts: { by: actor.name, ...taken } }])
}

export async function clampBond(
  step: Step,
  bondId: string,
  body: BodyOf<typeof bondRoutes.clampBond>,
): Promise<Bond> {
  const { tx, actor, now } = step
  const bond = await runningBond(step, bondId, 'makeBonds')
  if (bond.state === 'clamped') throw wrongState(`${bond.joint.name} is clamped already`)
  const at = instantOf(bond, body.at, bond.appliedAt, now)
  const { timeZone } = await shopById(tx, bond.shopId)
  const { reasons, qualification } = await qualifiedFor(tx, actor, bond.joint.safetyClass, at, timeZone)
  const overridden = overriddenReasons(actor, bond.shopId, reasons, body.overrides, 'bond-refused')
  const { estimate, fault } = await estimateOf(tx, bond, timeZone, at)
  await tx.bond.update({
    where: { id: bondId },
    data: { state: 'clamped', clampedAt: at, clampedBy: actor.name },
  })
  const facts = { by: actor.name, note: body.note, qualification: qualificationFacts(qualification) }
  const events: RecordEvent[] = [{ kind: 'clamped', at, facts }]
  events.push(...(await recordOverrides(step, bond, 'clamped', overridden)))
  // The cautious side of the work time is its earliest end; where it cannot be computed, nobody can say that it lasted.
  if (fault !== null || estimate.workTime.progress.earliest >= 1) {
    const late =
      fault === null
        ? 'Clamped after the work time had run out'
        : 'Clamped while the work time could not be computed'
    const reason = body.note ? `${late}: ${body.note}` : late
    events.push(await recordIncident(step, bond, { kind: 'clampedAfterWorkTime', at, reason }))
  }
  return finish(step, bond, events)
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
  // A late clamp has an incident of its own that waits already; whatever else stood against it makes the release early.
  const against = body.alreadyHappened ? check.reasons.filter(({ code }) => code !== 'clamped-late') : []
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
    data: { state: 'abandoned', abandonedAt: at, abandonedBy: actor.name, abandonReason: body.reason },
  })
  const events: RecordEvent[] = [{ kind: 'abandoned', at, facts: { by: actor.name, reason: body.reason } }]
  // What was done wrong with an attempt that is scraped off no longer waits for anybody.
  for (const incident of bond.incidents.filter(
    ({ kind, disposition }) => kind === 'clampedAfterWorkTime' && !disposition,
  )) {
    events.push(await dispose(step, bond, incident.id, 'redone', `Abandoned: ${body.reason}`))
  }
  return finish(step, bond, events)
}

export async function disposeIncident(
  step: Step,
  incidentId: string,
  body: BodyOf<typeof bondRoutes.disposeIncident>,
): Promise<Bond> {
  const incident = await step.tx.incident.findUnique({ where: { id: incidentId } })
  if (!incident) throw notFound('incident', incidentId)
  const bond = await lockedBond(step.tx, incident.bondId)
  requireIn(step.actor, 'takeResponsibility', bond.shopId)
  if (incident.kind === 'gateOverridden')
    throw wrongState('Who overrode the gate took responsibility then: there is nothing to dispose of')
  return finish(step, bond, [await dispose(step, bond, incidentId, body.kind, body.reason)])
}

async function dispose(
  { tx, actor, now }: Step,
  bond: BondRow,
  incidentId: string,
  kind: string,
  reason: string,
): Promise<RecordEvent> {
  const { organizationId, shopId } = bond
  await tx.disposition.create({
    data: { incidentId, organizationId, shopId, kind, at: now, recordedBy: actor.name, reason },
  })
  const incident = bond.incidents.find(({ id }) => id === incidentId)
  if (incident)
    await closeAlert(tx, { organizationId, shopId, kind: incident.kind, subjectId: bond.id, at: now })
  return { kind: 'disposition', at: now, facts: { by: actor.name, incidentId, disposition: kind, reason } }
}

interface IncidentFacts {
  readonly kind: 'earlyRelease' | 'clampedAfterWorkTime'
  readonly at: Date
  readonly reason: string
  readonly fractionReached?: number
}

async function recordIncident(
  { tx, actor, now }: Step,
  bond: BondRow,
  facts: IncidentFacts,
  against: readonly ProblemReason[] = [],
): Promise<RecordEvent> {
  const scope = { organizationId: bond.organizationId, shopId: bond.shopId }
  const recordedBy = actor.name
  const { id } = await tx.incident.create({ data: { ...scope, bondId: bond.id, recordedBy, ...facts } })
  const what =
    facts.kind === 'earlyRelease'
      ? earlyReleaseSentence(facts, against)
      : 'clamped after the work time had run out'
  await raiseAlert(tx, {
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
  if (codes.has('not-clamped')) return 'moved before it was ever clamped'
  if (codes.has('handling-strength'))
    return `moved at ${Math.floor(fractionReached * 100)} % of handling strength`
  return 'moved before the readings that its class asks for'
}

async function runningBond({ tx, actor }: Step, bondId: string, permission: 'makeBonds'): Promise<BondRow> {
  const bond = await lockedBond(tx, bondId)
  requireIn(actor, permission, bond.shopId)
  if (!isRunning(bond)) throw wrongState(`The bond on ${bond.joint.name} is ${bond.state} already`)
  return bond
}

/** An instant of the request: now when left out, never in the future, never before what it follows. */
function instantOf(bond: BondRow, at: Date | undefined, notBefore: Date, now: Date): Date {
  const instant = at ?? now
  if (instant > now) throw invalidField('body.at', 'is in the future')
  if (instant < notBefore)
    throw invalidField(
      'body.at',
      `is before ${writtenAt(notBefore, bond.joint.repairOrder.shop.timeZone)}, which it must follow`,
    )
  return instant
}

/** Writes the record, tells everybody, keeps the bay as long as the bond now needs it, and answers the bond as it stands. */
async function finish(
  { tx, now }: Step,
  { id, organizationId, shopId }: BondRow,
  events: readonly RecordEvent[],
): Promise<Bond> {
  await appendToRecord(tx, { id, organizationId, shopId }, now, events)
  await announce(tx, { organizationId, shopId, topic: 'bonds', subjectId: id })
  const { timeZone } = await shopById(tx, shopId)
  const bond = await bondRow(tx, id)
  await keepBayBooked(tx, organizationId, bond, timeZone, now)
  return toBond(tx, bond, timeZone, now)
}
