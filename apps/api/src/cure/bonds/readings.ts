import { message } from '@clampclock/messages'
import type { Bond, BodyOf, bondRoutes, readingDecisionRoutes } from '@clampclock/contracts'
import { agree, isOfValue, type Known, type ReadingFinding } from '@clampclock/cure'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { notFound, wrongState } from '../../foundation/problems/problem-error.ts'
import type { RecordEvent } from '../records/chain.ts'
import { instrumentFacts, readingFacts } from './recorded-facts.ts'
import { instrumentOf } from '../../foundation/shops/instruments.ts'
import { findingsOf, storedFindings } from '../temperature/findings.ts'
import { bondRow, lockedBond, type BondRow } from '../estimates/bond-store.ts'
import { isCounted } from '../estimates/history.ts'
import { finish, instantOf, runningBond } from './lifecycle.ts'
import { judgePanel, questionsAbout, requireConfirmed } from './questions.ts'
import { recheckReleases } from './recheck.ts'
import { toBond } from '../estimates/to-bond.ts'

interface Step {
  readonly tx: Tx
  readonly actor: Actor
  readonly now: Date
}

type ReadingRow = BondRow['panelReadings'][number]

/**
 * A panel temperature that somebody read. Doubtful ones are asked about, and stored as suspect once confirmed.
 *
 * @throws {ProblemError} `reading-questioned`, with what is doubtful and not confirmed.
 */
export async function addPanelReading(
  step: Step,
  bondId: string,
  body: BodyOf<typeof bondRoutes.addPanelReading>,
): Promise<Bond> {
  const { tx, now } = step
  const bond = await runningBond(step, bondId, 'makeBonds')
  const at = instantOf(bond, body.at, bond.appliedAt, now)
  const { temperatureC, source, instrumentId, confirmed } = body
  if (isThere(bond, at, body)) return toBond(tx, bond, bond.joint.repairOrder.shop.timeZone, now)
  const instrument = await instrumentOf(tx, bond.shopId, instrumentId, source, 'body.instrumentId')
  const accuracyC = instrument?.accuracyC ?? body.accuracyC
  const taken = { at, temperatureC, accuracyC, source, instrument }
  const events = await keepReading(step, bond, taken, { confirmed, replacesId: null })
  return finish(step, bond, events)
}

/** The same value for the same instant: it was sent again after an answer was lost. */
function isThere(
  bond: BondRow,
  at: Date,
  { temperatureC, source }: { temperatureC: number; source: string },
): boolean {
  return bond.panelReadings.some(
    (reading) =>
      isCounted(reading) &&
      reading.at.getTime() === at.getTime() &&
      reading.temperatureC === temperatureC &&
      reading.source === source,
  )
}

interface Keeping {
  readonly confirmed: BodyOf<typeof bondRoutes.addPanelReading>['confirmed']
  readonly replacesId: string | null
}

async function keepReading(
  { tx, actor, now }: Step,
  bond: BondRow,
  taken: Parameters<typeof judgePanel>[2],
  { confirmed, replacesId }: Keeping,
): Promise<RecordEvent[]> {
  const { at, temperatureC, accuracyC, source, instrument } = taken
  const { repairOrder } = bond.joint
  const { shop } = repairOrder
  const counted = bond.panelReadings.filter((reading) => isCounted(reading) && reading.id !== replacesId)
  const isSame = (reading: ReadingRow) =>
    instrument ? reading.instrumentId === instrument.id : reading.recordedBy === actor.name
  const findings = await judgePanel(
    tx,
    {
      shop,
      bayId: bond.bayId,
      repairOrderId: repairOrder.id,
      appliedAt: bond.appliedAt,
      airAtJointC: bond.airTemperatureC,
    },
    taken,
    {
      metal: counted.filter((reading) => reading.quality === 'good' && reading.at < at).map(toKnown),
      byTheSame: counted.filter(isSame).map(toKnown),
    },
    now,
  )
  const unit = shop.temperatureUnit as 'C' | 'F'
  requireConfirmed(questionsAbout(findings, temperatureC, confirmed, 'body.temperatureC', unit))
  const claim: Known = { atMs: at.getTime(), temperatureC, accuracyC }
  const second = counted.filter(
    (reading) => isOthers(reading, actor, instrument?.id ?? null) && agree(toKnown(reading), claim),
  )
  const left = second.length > 0 ? findings.filter((finding) => !isOfValue(finding)) : findings
  await tx.panelReading.create({
    data: {
      organizationId: bond.organizationId,
      shopId: bond.shopId,
      bondId: bond.id,
      at,
      temperatureC,
      accuracyC,
      source,
      instrumentId: instrument?.id ?? null,
      calibratedUntil: instrument?.calibratedUntil ?? null,
      recordedBy: actor.name,
      recordedAt: now,
      recordedById: actor.id,
      quality: left.length === 0 ? 'good' : 'suspect',
      findings: storedFindings(findings) ?? [],
      replacesId,
    },
  })
  const borneOut = await bearOut(tx, second, findings)
  const facts = {
    by: actor.name,
    temperatureC,
    accuracyC,
    source,
    instrument: instrumentFacts(instrument, at, shop.timeZone),
    ...(left.length === 0 ? {} : { doubts: left.map(({ kind }) => kind) }),
    ...(borneOut.length === 0 ? {} : { bearsOut: borneOut }),
    reading: readingFacts(actor, now, findings, left),
  }
  return [{ kind: 'reading', at, facts }]
}

/** Read by another instrument, or by another person where no two instruments are named. */
function isOthers(reading: ReadingRow, actor: Actor, instrumentId: string | null): boolean {
  if (instrumentId !== null && reading.instrumentId !== null) return reading.instrumentId !== instrumentId
  return reading.recordedById === null ? reading.recordedBy !== actor.name : reading.recordedById !== actor.id
}

/**
 * Two that agree are no slip of either: what doubted the value of the first is answered.
 *
 * @returns those that are in doubt no more, as the record names them.
 */
async function bearOut(
  tx: Tx,
  first: readonly ReadingRow[],
  findings: readonly ReadingFinding[],
): Promise<{ readonly at: string; readonly temperatureC: number }[]> {
  // A second one that came late, or twice, bears nothing out.
  if (findings.some((finding) => !isOfValue(finding))) return []
  const answered = first.filter(
    ({ findings: stored, quality }) => quality === 'suspect' && findingsOf(stored).every(isOfValue),
  )
  for (const { id } of answered) await tx.panelReading.update({ where: { id }, data: { quality: 'good' } })
  return answered.map(({ at, temperatureC }) => ({ at: at.toISOString(), temperatureC }))
}

function toKnown({ at, temperatureC, accuracyC }: ReadingRow): Known {
  return { atMs: at.getTime(), temperatureC, accuracyC }
}

export async function withdrawPanelReading(
  step: Step,
  readingId: string,
  { reason }: BodyOf<typeof readingDecisionRoutes.withdrawPanelReading>,
): Promise<Bond> {
  const { bond, reading } = await lockedReading(step, readingId)
  return decided(step, bond, [await setAside(step, reading, 'withdrawn', reason)])
}

/** @throws {ProblemError} `reading-questioned`, as a new one. */
export async function correctPanelReading(
  step: Step,
  readingId: string,
  { temperatureC, reason, confirmed }: BodyOf<typeof readingDecisionRoutes.correctPanelReading>,
): Promise<Bond> {
  const { bond, reading } = await lockedReading(step, readingId)
  const withdrawn = await setAside(step, reading, 'replaced', reason)
  const taken = {
    at: reading.at,
    temperatureC,
    accuracyC: reading.accuracyC,
    source: reading.source as 'metalProbe' | 'infrared',
    instrument: reading.instrumentId
      ? await step.tx.instrument.findUnique({ where: { id: reading.instrumentId } })
      : null,
  }
  const kept = await keepReading(step, bond, taken, { confirmed, replacesId: reading.id })
  return decided(step, bond, [withdrawn, ...kept])
}

async function lockedReading(
  { tx, actor }: Step,
  id: string,
): Promise<{ bond: BondRow; reading: ReadingRow }> {
  const found = await tx.panelReading.findUnique({ where: { id } })
  if (!found) throw notFound('panel reading', id)
  const bond = await lockedBond(tx, found.bondId)
  requireIn(actor, 'takeResponsibility', bond.shopId)
  const reading = bond.panelReadings.find((each) => each.id === id)
  if (!reading) throw notFound('panel reading', id)
  if (!isCounted(reading)) throw wrongState(message('cure-problem.readingWas', { quality: reading.quality }))
  return { bond, reading }
}

async function setAside(
  { tx, actor, now }: Step,
  { id, at, temperatureC, recordedBy }: ReadingRow,
  quality: 'withdrawn' | 'replaced',
  reason: string,
): Promise<RecordEvent> {
  await tx.panelReading.update({
    where: { id },
    data: { quality, decidedAt: now, decidedBy: actor.name, decisionReason: reason },
  })
  return {
    kind: 'readingWithdrawn',
    at: now,
    facts: { by: actor.name, reason, readAt: at.toISOString(), temperatureC, readBy: recordedBy, quality },
  }
}

/** The estimate follows by itself; a release that was too early by what counts now does not. */
async function decided(step: Step, { id }: BondRow, events: readonly RecordEvent[]): Promise<Bond> {
  const { tx, now } = step
  const answer = await finish(step, await bondRow(tx, id), events)
  const early = await recheckReleases(tx, { id }, now)
  if (early.length === 0) return answer
  const bond = await bondRow(tx, id)
  return toBond(tx, bond, bond.joint.repairOrder.shop.timeZone, now)
}
