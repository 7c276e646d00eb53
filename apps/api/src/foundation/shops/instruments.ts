import { message } from '@clampclock/messages'
import type { BodyOf, Instrument, instrumentRoutes } from '@clampclock/contracts'
import { endOfDayMs } from '@clampclock/quantities'
import { requireIn, type Actor } from '../permissions/actor.ts'
import type { Tx } from '../database/database.ts'
import type { Instrument as InstrumentRow } from '../../generated/prisma/client.ts'
import { dateOf, isoDate } from '../http/dates.ts'
import { invalidField, notFound } from '../problems/problem-error.ts'
import { requireVersion } from '../http/versions.ts'
import { announce } from '../live/hub.ts'
import { shopById } from './shops.ts'

export type { InstrumentRow }

export async function listInstruments(tx: Tx, shopId: string, now: Date): Promise<Instrument[]> {
  const { timeZone } = await shopById(tx, shopId)
  const rows = await tx.instrument.findMany({
    where: { shopId },
    orderBy: [{ kind: 'asc' }, { name: 'asc' }],
  })
  return rows.map((row) => toInstrument(row, timeZone, now))
}

export async function addInstrument(
  tx: Tx,
  actor: Actor,
  shopId: string,
  { calibratedUntil, ...facts }: BodyOf<typeof instrumentRoutes.addInstrument>,
  now: Date,
): Promise<Instrument> {
  const { timeZone } = await shopById(tx, shopId)
  const organizationId = actor.organization.id
  const row = await tx.instrument.create({
    data: {
      ...facts,
      organizationId,
      shopId,
      calibratedUntil: calibratedUntil === null ? null : dateOf(calibratedUntil),
    },
  })
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: row.id })
  return toInstrument(row, timeZone, now)
}

export async function editInstrument(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof instrumentRoutes.editInstrument>,
  version: number,
  now: Date,
): Promise<Instrument> {
  const before = await tx.instrument.findUnique({ where: { id } })
  if (!before) throw notFound('instrument', id)
  requireIn(actor, 'manageChain', before.shopId)
  const { name, calibratedUntil, active } = body
  const { count } = await tx.instrument.updateMany({
    where: { id, version },
    data: {
      ...(name === undefined ? {} : { name }),
      ...(calibratedUntil === undefined
        ? {}
        : { calibratedUntil: calibratedUntil === null ? null : dateOf(calibratedUntil) }),
      ...(active === undefined ? {} : { active }),
      version: { increment: 1 },
    },
  })
  const row = await tx.instrument.findUniqueOrThrow({ where: { id } })
  requireVersion(count, row.version)
  const { shopId } = before
  await announce(tx, { organizationId: actor.organization.id, shopId, topic: 'shops', subjectId: id })
  return toInstrument(row, (await shopById(tx, shopId)).timeZone, now)
}

/**
 * The instrument that a request names; null when it names none.
 *
 * @throws {ProblemError} `invalid-request` for one of another shop, of another kind or out of use.
 */
export async function instrumentOf(
  tx: Tx,
  shopId: string,
  id: string | null,
  kind: Instrument['kind'],
  field: string,
): Promise<InstrumentRow | null> {
  if (id === null) return null
  const row = await tx.instrument.findFirst({ where: { id, shopId } })
  if (!row) throw invalidField(field, message('setup-problem.noInstrument'))
  if (row.kind !== kind)
    throw invalidField(
      field,
      message('setup-problem.otherKindOfInstrument', { name: row.name, is: row.kind, asked: kind }),
    )
  if (!row.active) throw invalidField(field, message('problem.outOfUse', { name: row.name }))
  return row
}

/** The day counts to its end in the shop's time zone. */
export function isCalibratedAt(calibratedUntil: Date | null, at: Date, timeZone: string): boolean {
  return calibratedUntil !== null && at.getTime() < endOfDayMs(isoDate(calibratedUntil), timeZone)
}

function toInstrument(row: InstrumentRow, timeZone: string, now: Date): Instrument {
  const { id, shopId, name, serialNumber, accuracyC, accuracyPercent, calibratedUntil, active, version } = row
  return {
    id,
    shopId,
    kind: row.kind as Instrument['kind'],
    name,
    serialNumber,
    accuracyC,
    accuracyPercent,
    calibratedUntil: calibratedUntil && isoDate(calibratedUntil),
    inCalibration: isCalibratedAt(calibratedUntil, now, timeZone),
    active,
    version,
  }
}
