import { message } from '@clampclock/messages'
import type { BodyOf, Qualification, qualificationRoutes } from '@clampclock/contracts'
import { endOfDayMs, startOfDayMs } from '@clampclock/quantities'
import type { Tx } from '../database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { dateOf, isoDate } from '../http/dates.ts'
import { notFound, wrongState } from '../problems/problem-error.ts'
import { announce } from '../live/hub.ts'
import type { Actor } from '../permissions/actor.ts'

const withPerson = { person: { select: { name: true } } } satisfies Prisma.QualificationInclude
type QualificationRow = Prisma.QualificationGetPayload<{ include: typeof withPerson }>

export async function listQualifications(tx: Tx, personId?: string): Promise<Qualification[]> {
  const rows = await tx.qualification.findMany({
    where: personId ? { personId } : {},
    include: withPerson,
    orderBy: [{ person: { name: 'asc' } }, { safetyClass: 'asc' }, { validUntil: 'desc' }, { id: 'asc' }],
  })
  return rows.map(toQualification)
}

export async function addQualification(
  tx: Tx,
  actor: Actor,
  personId: string,
  { issuedOn, validUntil, ...facts }: BodyOf<typeof qualificationRoutes.addQualification>,
  now: Date,
): Promise<Qualification> {
  if (!(await tx.person.findUnique({ where: { id: personId }, select: { id: true } })))
    throw notFound('person', personId)
  const organizationId = actor.organization.id
  const row = await tx.qualification.create({
    data: {
      ...facts,
      organizationId,
      personId,
      issuedOn: dateOf(issuedOn),
      validUntil: dateOf(validUntil),
      recordedAt: now,
      recordedBy: actor.name,
    },
    include: withPerson,
  })
  await announce(tx, { organizationId, shopId: null, topic: 'people', subjectId: personId })
  return toQualification(row)
}

export async function endQualification(
  tx: Tx,
  actor: Actor,
  id: string,
  reason: string,
  now: Date,
): Promise<Qualification> {
  const row = await tx.qualification.findUnique({ where: { id } })
  if (!row) throw notFound('qualification', id)
  const { count } = await tx.qualification.updateMany({
    where: { id, endedAt: null },
    data: { endedAt: now, endedBy: actor.name, endReason: reason },
  })
  if (count === 0) throw wrongState(message('setup-problem.qualificationEnded'))
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId: null,
    topic: 'people',
    subjectId: row.personId,
  })
  return toQualification(await tx.qualification.findUniqueOrThrow({ where: { id }, include: withPerson }))
}

/** The qualifications of a person that cover a class, the one that lasts longest first. */
export function qualificationsFor(
  tx: Tx,
  personId: string,
  safetyClass: string,
): Promise<QualificationRow[]> {
  return tx.qualification.findMany({
    // S1 is the gravest: who may make it may make the lighter ones.
    where: { personId, safetyClass: { lte: safetyClass } },
    include: withPerson,
    orderBy: [{ validUntil: 'desc' }, { id: 'asc' }],
  })
}

/** Whether it counts at an instant: days by the calendar of the shop where the joint is made, to their end. */
export function holdsAt(row: QualificationRow, at: Date, timeZone: string): boolean {
  const ms = at.getTime()
  const begun = ms >= startOfDayMs(isoDate(row.issuedOn), timeZone)
  const lasts = ms < endOfDayMs(isoDate(row.validUntil), timeZone)
  return begun && lasts && !(row.endedAt && row.endedAt <= at)
}

function toQualification(row: QualificationRow): Qualification {
  const { endedAt, endedBy, endReason } = row
  return {
    id: row.id,
    personId: row.personId,
    personName: row.person.name,
    safetyClass: row.safetyClass as Qualification['safetyClass'],
    evidence: row.evidence,
    issuedOn: isoDate(row.issuedOn),
    validUntil: isoDate(row.validUntil),
    recordedAt: row.recordedAt,
    recordedBy: row.recordedBy,
    ended:
      endedAt && endedBy !== null && endReason !== null
        ? { at: endedAt, by: endedBy, reason: endReason }
        : null,
  }
}
