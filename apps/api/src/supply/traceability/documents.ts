import { say, type Reader } from '@clampclock/messages'
import { epcisDocument, holdEvent, movementEvents, type Addresses } from '@clampclock/stock'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Answered } from '../../foundation/http/bind.ts'
import { headings, toCsv } from '../../foundation/http/csv.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'
import { toMl } from '../../foundation/database/volumes.ts'
import { holdsOf, movementsOf, traced, type MovementRow } from './movements-of.ts'

export async function lotEvents(
  tx: Tx,
  actor: Actor,
  lotId: string,
  addresses: Addresses,
  now: Date,
): Promise<Answered> {
  const rows = await movementsOfLot(tx, actor, lotId)
  const holds = await holdsOf(tx, lotId, rows[0]?.shop.timeZone ?? 'UTC')
  const events = [...rows.flatMap((row) => movementEvents(traced(row), addresses)), ...holds.map(holdEvent)]
  return jsonLd(`lot-${lotId}`, epcisDocument(events, now.getTime()))
}

export async function lotLifeCsv(tx: Tx, actor: Actor, reader: Reader, lotId: string): Promise<Answered> {
  const rows = await movementsOfLot(tx, actor, lotId)
  return { name: `lot-${lotId}.csv`, render: async () => csvOf(reader, rows) }
}

/** Of the lots that went into the vehicle only what went in: the rest of their life is theirs. */
export async function vehicleEvents(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  addresses: Addresses,
  now: Date,
): Promise<Answered> {
  const rows = await movementsInto(tx, actor, repairOrderId)
  const events = rows.flatMap((row) => movementEvents(traced(row), addresses))
  return jsonLd(`repair-order-${repairOrderId}`, epcisDocument(events, now.getTime()))
}

export async function vehicleAdhesivesCsv(
  tx: Tx,
  actor: Actor,
  reader: Reader,
  repairOrderId: string,
): Promise<Answered> {
  const rows = await movementsInto(tx, actor, repairOrderId)
  return { name: `repair-order-${repairOrderId}.csv`, render: async () => csvOf(reader, rows) }
}

async function movementsOfLot(tx: Tx, actor: Actor, lotId: string): Promise<MovementRow[]> {
  if (!(await tx.lot.findUnique({ where: { id: lotId } }))) throw notFound('lot', lotId)
  return movementsOf(tx, actor, { lotId })
}

async function movementsInto(tx: Tx, actor: Actor, repairOrderId: string): Promise<MovementRow[]> {
  const order = await tx.repairOrder.findUnique({ where: { id: repairOrderId } })
  if (!order) throw notFound('repair order', repairOrderId)
  requireIn(actor, 'readShop', order.shopId)
  return movementsOf(tx, actor, { kind: 'used', bond: { joint: { repairOrderId } } })
}

function jsonLd(name: string, document: object): Answered {
  return { name: `${name}.jsonld`, render: async () => Buffer.from(JSON.stringify(document, null, 2)) }
}

const COLUMNS = [
  'at',
  'what',
  'product',
  'lot',
  'cartridge',
  'shop',
  'shelf',
  'ml',
  'repairOrder',
  'vehicle',
  'joint',
  'attempt',
  'by',
  'reason',
] as const

function csvOf(reader: Reader, rows: readonly MovementRow[]): Uint8Array {
  const table = rows.map(({ shop, cartridge, bond, location, lot, ...row }) => ({
    at: row.at,
    what: say(reader, 'csv.what', { what: row.kind }),
    product: lot.product.name,
    lot: lot.lotNumber,
    cartridge: cartridge.code,
    shop: shop.name,
    shelf: location?.name ?? '',
    ml: toMl(row.volumeChangeUl),
    repairOrder: bond?.joint.repairOrder.number ?? '',
    vehicle: bond?.joint.repairOrder.vehicle ?? '',
    joint: bond?.joint.name ?? '',
    attempt: bond?.attempt ?? '',
    by: row.recordedBy,
    reason: row.reason,
  }))
  return toCsv(table, headings(reader, COLUMNS))
}
