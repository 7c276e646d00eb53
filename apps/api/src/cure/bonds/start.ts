import { message } from '@clampclock/messages'
import { param, sentences } from '../../foundation/words/params.ts'
import { inEnglish } from '../../foundation/words/words.ts'
import type { Bond, BodyOf, bondRoutes, ResultOf } from '@clampclock/contracts'
import type { ReadingFinding } from '@clampclock/cure'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, ProblemError, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { appendToRecord } from '../records/chain.ts'
import { eventsBefore } from '../attachments/recorded.ts'
import { appliedEvent } from './recorded-facts.ts'
import { tell } from '../../foundation/events/domain-event.ts'
import { bondChanged } from './events.ts'
import { type CartridgeRow, endForBond, lockedCartridge, openLocked, useLocked } from '../../supply/index.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { toMl, toUl } from '../../foundation/database/volumes.ts'
import { storedFindings } from '../temperature/findings.ts'
import { bondRow } from '../estimates/bond-store.ts'
import { checkGates, type Application, type Gates } from './gates.ts'
import { attemptBefore, requireAfter } from './attempt-before.ts'
import { amountOnJoint, amountQuestions, requireEnough, type AmountOnJoint } from './amount.ts'
import { amountNeededMl, isRunning, type JointRow, jointRow, lockedJoint } from '../../work/index.ts'
import { replaceAbandoned } from './dispose.ts'
import { recordIncident } from './incidents.ts'
import { overriddenReasons, recordOverrides } from './overrides.ts'
import { panelTauMinutes } from '../estimates/panel.ts'
import { placeProblem, placeVehicle } from './place-vehicle.ts'
import { promisedTimes } from './promised.ts'
import { judgeApplication, requireConfirmed, type JudgedApplication } from './questions.ts'
import { toBond } from '../estimates/to-bond.ts'

export async function checkBond(
  tx: Tx,
  actor: Actor,
  jointId: string,
  application: BodyOf<typeof bondRoutes.checkBond>,
  now: Date,
): Promise<ResultOf<typeof bondRoutes.checkBond>> {
  const joint = await jointRow(tx, jointId)
  requireIn(actor, 'makeBonds', joint.shopId)
  const at = application.appliedAt ?? now
  requirePast(at, now)
  const { timeZone } = await shopById(tx, joint.shopId)
  requireAfter(await attemptBefore(tx, jointId), at, timeZone)
  const gates = await checkGates(tx, actor, joint, application, at)
  const { questions } = await judgedApplication(tx, joint, application, gates, at, now)
  const place = await placeProblem(tx, joint, application.bayId, timeZone, now)
  const reasons = [...gates.reasons, ...(place?.reasons ?? [])]
  return {
    mayStart: reasons.length === 0,
    dewPointC: gates.dewPointC,
    ...(await promisedTimes(tx, joint, application, gates, at, timeZone)),
    amountNeededMl: amountNeededMl(joint),
    reasons,
    questions: [...questions, ...amountQuestions(amountOnJoint(joint, gates), application.shortAmount)],
  }
}

/**
 * The adhesive has left the nozzle: the clocks start, the cartridges are opened and booked, the bay is kept.
 *
 * @throws {ProblemError} `bond-refused`, with every reason that is not overridden by somebody entitled;
 *   `reading-questioned` for a doubtful temperature that is not confirmed; `amount-questioned` for less than the joint
 *   needs without a reason.
 */
export async function startBond(
  tx: Tx,
  actor: Actor,
  jointId: string,
  application: Application,
  now: Date,
): Promise<Bond> {
  const joint = await lockedJoint(tx, jointId)
  requireIn(actor, 'makeBonds', joint.shopId)
  if (joint.repairOrder.state !== 'open')
    throw wrongState(message('problem.orderDone', { number: joint.repairOrder.number }))
  if (joint.bonds.some(isRunning)) {
    throw wrongState(
      message('cure-problem.bondRunning', { joint: joint.name }),
      message('cure-problem.abandonFirstFix'),
    )
  }
  const appliedAt = application.appliedAt ?? now
  requirePast(appliedAt, now)
  const { shopId } = joint
  const { timeZone } = await shopById(tx, shopId)
  const before = await attemptBefore(tx, jointId)
  requireAfter(before, appliedAt, timeZone)
  const countsNotBefore = before !== null && before.knownAt > appliedAt ? before.knownAt : null

  const gates = await checkGates(tx, actor, joint, application, appliedAt, lockedCartridge)
  const sheet = requireSheet(gates, application.alreadyHappened)
  const against = application.alreadyHappened ? gates.reasons : []
  const overridden = application.alreadyHappened
    ? []
    : overriddenReasons(actor, joint.shopId, gates.reasons, application.overrides, 'bond-refused')
  const { findings, questions } = await judgedApplication(tx, joint, application, gates, appliedAt, now)
  // What has happened on the floor is recorded as it was said, in doubt where it is doubtful.
  const amount = amountOnJoint(joint, gates)
  if (!application.alreadyHappened) {
    requireConfirmed(questions)
    requireEnough(amount, application.shortAmount)
  }
  const shortBecause = amount.isShort ? (application.shortAmount?.reason ?? application.reason) : null
  await placeVehicle({ tx, actor, now }, joint, application.bayId, timeZone)
  const bondId = await insertBond(tx, actor, joint, application, { ...gates, sheet }, appliedAt, {
    findings,
    amount,
    shortBecause,
    countsNotBefore,
    now,
  })
  const step = { tx, actor, now }
  await replaceAbandoned(step, jointId)
  const booked = bookedOf(gates.cartridges, against.length > 0)
  for (const { row, amountUl } of booked) {
    if (amountUl === 0) continue
    if (row.state === 'sealed')
      await openLocked(
        tx,
        actor,
        row,
        appliedAt,
        now,
        message('stock-reason.openedFor', { order: joint.repairOrder.number, joint: joint.name }),
      )
    await useLocked(tx, actor, row, {
      amountUl,
      at: appliedAt,
      now,
      reason: `${joint.repairOrder.number}, ${joint.name}`,
      bondId,
    })
  }
  const organizationId = actor.organization.id
  await endForBond(
    tx,
    { organizationId, name: actor.name },
    jointId,
    gates.cartridges.map(({ row }) => row.id),
    now,
  )
  const bond = { id: bondId, organizationId, shopId, joint }
  const incidents = await recordOverrides(step, bond, 'started', overridden)
  if (against.length > 0) {
    const said = message('incident.overridden', {
      gate: param(sentences(against.map((each) => each.message))),
      reason: application.reason ?? '',
    })
    const reason = inEnglish(said)
    incidents.push(
      await recordIncident(step, bond, { kind: 'appliedAgainstRefusal', at: appliedAt, reason, said }),
    )
  }

  const applied = await appliedEvent(
    tx,
    actor,
    joint,
    application,
    {
      ...gates,
      sheet,
      amount: { neededMl: toMl(amount.neededUl), shortBecause },
      bookedUl: booked.map(({ amountUl }) => amountUl),
    },
    {
      attempt: joint.bonds.length + 1,
      at: appliedAt,
      now,
      timeZone,
      countsNotBefore,
      findings,
    },
  )
  await appendToRecord(tx, { id: bondId, organizationId, shopId }, now, [
    applied,
    ...(await eventsBefore(tx, jointId)),
    ...incidents,
  ])
  await announce(tx, { organizationId, shopId, topic: 'bonds', subjectId: bondId })
  await tell(tx, bondChanged, { organizationId, bondId, now })
  return toBond(tx, await bondRow(tx, bondId), timeZone, now)
}

type WithSheet = Gates & { readonly sheet: NonNullable<Gates['sheet']> }

/**
 * Nothing can be computed of a bond without a sheet, so even one that was made is recorded once there is one. One that
 * nobody approved will do for the record alone: until it counts, the bond cannot be computed, and is not ready.
 */
function requireSheet({ sheet, proposed, reasons }: Gates, alreadyHappened: boolean): WithSheet['sheet'] {
  if (sheet) return sheet
  if (proposed && alreadyHappened) return proposed
  throw new ProblemError('bond-refused', sentences(reasons.map((each) => each.message)), [...reasons])
}

/** What goes off each cartridge, uL: what happened against a refusal as far as the cartridge is there and holds it. */
function bookedOf(
  cartridges: Gates['cartridges'],
  isAgainst: boolean,
): { readonly row: CartridgeRow; readonly amountUl: number }[] {
  return cartridges.map(({ row, amountMl }) => {
    const isThere = row.state === 'sealed' || row.state === 'opened'
    const holdsUl = isThere ? row.remaining_ul : 0
    return { row, amountUl: isAgainst ? Math.min(toUl(amountMl), holdsUl) : toUl(amountMl) }
  })
}

function requirePast(appliedAt: Date, now: Date): void {
  if (appliedAt > now) throw invalidField('body.appliedAt', message('problem.inFuture'))
}

async function judgedApplication(
  tx: Tx,
  joint: JointRow,
  application: Application,
  { thermometer, panelAccuracyC }: Gates,
  at: Date,
  now: Date,
): Promise<JudgedApplication> {
  const shop = await shopById(tx, joint.shopId)
  const { bayId, airTemperatureC } = application
  const { repairOrderId } = joint
  const place = { shop, bayId, repairOrderId, appliedAt: at, airAtJointC: airTemperatureC }
  return judgeApplication(tx, place, application, thermometer, panelAccuracyC, at, now)
}

interface Judged {
  readonly findings: readonly ReadingFinding[]
  readonly amount: AmountOnJoint
  readonly shortBecause: string | null
  readonly countsNotBefore: Date | null
  readonly now: Date
}

async function insertBond(
  tx: Tx,
  actor: Actor,
  joint: JointRow,
  application: Application,
  gates: WithSheet,
  appliedAt: Date,
  { findings, amount, shortBecause, countsNotBefore, now }: Judged,
): Promise<string> {
  const scope = { organizationId: actor.organization.id, shopId: joint.shopId }
  const { id } = await tx.bond.create({
    data: {
      ...scope,
      jointId: joint.id,
      attempt: joint.bonds.length + 1,
      cartridgeId: application.cartridgeId,
      dispenserId: application.dispenserId,
      sheetId: gates.sheet.id,
      bayId: application.bayId,
      amountUl: amount.amountUl,
      amountNeededUl: amount.neededUl,
      shortAmountReason: shortBecause,
      airTemperatureC: application.airTemperatureC,
      relativeHumidityPercent: application.relativeHumidityPercent,
      dewPointC: gates.dewPointC,
      panelTauMinutes: panelTauMinutes(joint),
      hygrometerId: application.hygrometerId,
      airReadWith: application.airReadWith ?? null,
      procedureDocument: joint.procedureDocument,
      procedureRevision: joint.procedureRevision,
      procedureLookedUpOn: joint.procedureLookedUpOn,
      appliedAt,
      appliedBy: actor.name,
      appliedById: actor.kind === 'person' ? actor.id : null,
      appliedRecordedAt: now,
      countsNotBefore,
    },
  })
  await tx.panelReading.create({
    data: {
      ...scope,
      bondId: id,
      at: appliedAt,
      ...application.panel,
      accuracyC: gates.panelAccuracyC,
      calibratedUntil: gates.thermometer?.calibratedUntil ?? null,
      recordedBy: actor.name,
      recordedAt: now,
      recordedById: actor.id,
      quality: findings.length === 0 ? 'good' : 'suspect',
      findings: storedFindings(findings) ?? [],
    },
  })
  return id
}
