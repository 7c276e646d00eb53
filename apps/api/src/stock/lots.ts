import { randomBytes, randomUUID } from 'node:crypto'
import type { BodyOf, Lot, QueryOf, ResultOf, stockRoutes } from '@clampclock/contracts'
import { endOfMonthDate } from '@clampclock/quantities'
import { effectiveExpiry } from '@clampclock/stock'
import { shopsWith, type Actor } from '../access/actor.ts'
import { Prisma } from '../generated/prisma/client.ts'
import type { Tx } from '../database/database.ts'
import { dateOf, isoDate } from '../http/dates.ts'
import { toPage, unpackCursor } from '../http/pages.ts'
import { invalidField, notFound, wrongState } from '../http/problem-error.ts'
import { announce } from '../live/hub.ts'
import { shopById } from '../shops/shops.ts'
import { selectCartridges, toCartridge } from './cartridge-store.ts'
import { post } from './ledger.ts'
import { toMl } from './volumes.ts'

const withTotals = { product: true, stockOnHands: true } satisfies Prisma.LotInclude
type LotRow = NonNullable<Awaited<ReturnType<typeof lotRow>>>

export async function receiveLot(
  tx: Tx,
  actor: Actor,
  shopId: string,
  body: BodyOf<typeof stockRoutes.receiveLot>,
  now: Date,
): Promise<ResultOf<typeof stockRoutes.receiveLot>> {
  const organizationId = actor.organization.id
  const shop = await shopById(tx, shopId)
  const product = await tx.product.findUnique({ where: { id: body.productId } })
  if (!product)
    throw invalidField('body.productId', 'names no product of this chain', 'Add the product first')
  if (body.locationId) await requireLocation(tx, shopId, body.locationId)

  const { printedExpiry, precision } = readExpiry(body.printedExpiry)
  const lot = await findOrAddLot(tx, organizationId, body, printedExpiry, precision)
  const expiry = effectiveExpiry({
    printedExpiry,
    timeZone: shop.timeZone,
    openedAtMs: null,
    openLifeDays: product.openLifeDays,
    warmStorageLossMs: 0,
  })
  const ids = Array.from({ length: body.cartridges }, () => randomUUID())
  await tx.cartridge.createMany({
    data: ids.map((id) => ({
      id,
      organizationId,
      shopId,
      lotId: lot.id,
      locationId: body.locationId,
      code: newCode(),
      receivedAt: now,
      warmLossThrough: now,
      expiresAt: new Date(expiry.atMs),
      expiryLimit: expiry.limit,
    })),
  })
  await post(
    tx,
    actor,
    now,
    ids.map((cartridgeId) => ({
      shopId,
      lotId: lot.id,
      cartridgeId,
      kind: 'received',
      sealedChange: 1,
      openedChange: 0,
      volumeChangeUl: product.cartridgeUl,
      at: now,
      reason: body.reason || 'Delivery',
    })),
  )
  const rows = await selectCartridges(tx, Prisma.sql`c.id = any (${ids}::uuid[])`, ids.length)
  const cartridges = rows.map((row) => toCartridge(row, now))
  const warnings = [
    ...(cartridges[0]?.urgency === 'expired'
      ? [`The lot has expired already: ${cartridges[0].expiryReason}`]
      : []),
    ...(cartridges[0]?.urgency === 'soon'
      ? ['The lot expires within 30 days: is it meant to be so short-dated?']
      : []),
    ...(rows[0]?.fits
      ? []
      : [
          `No dispenser of this shop takes a ${product.cartridgeForm} cartridge: until one does, this is no stock`,
        ]),
    ...(lot.holdReason === null ? [] : [`The lot is on hold: ${lot.holdReason}`]),
  ]
  return { lot: toLot(await requireLot(tx, lot.id), actor), cartridges, warnings }
}

async function findOrAddLot(
  tx: Tx,
  organizationId: string,
  body: BodyOf<typeof stockRoutes.receiveLot>,
  printedExpiry: string,
  precision: 'day' | 'month',
) {
  const known = await tx.lot.findUnique({
    where: { productId_lotNumber: { productId: body.productId, lotNumber: body.lotNumber } },
  })
  if (!known) {
    return tx.lot.create({
      data: {
        organizationId,
        productId: body.productId,
        lotNumber: body.lotNumber,
        printedExpiry: dateOf(printedExpiry),
        expiryPrecision: precision,
      },
    })
  }
  if (isoDate(known.printedExpiry) !== printedExpiry) {
    throw invalidField(
      'body.printedExpiry',
      `is ${printedExpiry}, but lot ${known.lotNumber} is on file with ${isoDate(known.printedExpiry)}`,
      'Look at the cartridge again: one lot has one expiry',
    )
  }
  return known
}

function readExpiry(expiry: BodyOf<typeof stockRoutes.receiveLot>['printedExpiry']): {
  printedExpiry: string
  precision: 'day' | 'month'
} {
  if ('date' in expiry) return { printedExpiry: expiry.date, precision: 'day' }
  const [year = 0, month = 0] = expiry.month.split('-').map(Number)
  return { printedExpiry: endOfMonthDate(year, month), precision: 'month' }
}

async function requireLocation(tx: Tx, shopId: string, locationId: string): Promise<void> {
  if (!(await tx.storageLocation.findFirst({ where: { id: locationId, shopId } }))) {
    throw invalidField('body.locationId', 'names no storage location of this shop')
  }
}

/** Crockford's base 32: no I, L, O or U, so that nobody misreads a label. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'

function newCode(): string {
  const letters = Array.from(randomBytes(8), (byte) => LETTERS[byte % 32])
  return `${letters.slice(0, 4).join('')}-${letters.slice(4).join('')}`
}

export async function listLots(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof stockRoutes.listLots>,
): Promise<ResultOf<typeof stockRoutes.listLots>> {
  const after = query.cursor ? unpackCursor(query.cursor, 2) : undefined
  const rows = await tx.lot.findMany({
    where: {
      ...(query.productId ? { productId: query.productId } : {}),
      ...(query.lotNumber ? { lotNumber: query.lotNumber } : {}),
      ...(after
        ? {
            OR: [
              { printedExpiry: { gt: cursorDate(after[0]) } },
              { printedExpiry: cursorDate(after[0]), id: { gt: String(after[1]) } },
            ],
          }
        : {}),
    },
    include: withTotals,
    orderBy: [{ printedExpiry: 'asc' }, { id: 'asc' }],
    take: query.limit + 1,
  })
  return toPage(
    rows,
    query.limit,
    (row) => toLot(row, actor),
    (row) => [isoDate(row.printedExpiry), row.id],
  )
}

function cursorDate(text: string | number | undefined): Date {
  const date = /^\d{4}-\d{2}-\d{2}$/.test(String(text)) ? dateOf(String(text)) : new Date(Number.NaN)
  if (Number.isNaN(date.getTime())) throw invalidField('query.cursor', 'is not a cursor of this list')
  return date
}

export async function getLot(tx: Tx, actor: Actor, id: string): Promise<Lot> {
  return toLot(await requireLot(tx, id), actor)
}

/** One row says that a whole lot is held, so every shop sees it at once and none can be missed. */
export async function holdLot(tx: Tx, actor: Actor, id: string, reason: string, now: Date): Promise<Lot> {
  const { count } = await tx.lot.updateMany({
    where: { id, holdReason: null },
    data: { holdReason: reason, holdSince: now, holdBy: actor.name },
  })
  const lot = await requireLot(tx, id)
  if (count === 0) throw wrongState(`The lot ${lot.lotNumber} is on hold already: ${lot.holdReason ?? ''}`)
  await recordHold(tx, actor, id, 'held', reason, now)
  return toLot(lot, actor)
}

export async function endLotHold(tx: Tx, actor: Actor, id: string, reason: string, now: Date): Promise<Lot> {
  const { count } = await tx.lot.updateMany({
    where: { id, holdReason: { not: null } },
    data: { holdReason: null, holdSince: null, holdBy: null },
  })
  const lot = await requireLot(tx, id)
  if (count === 0) throw wrongState(`The lot ${lot.lotNumber} is not on hold`)
  await recordHold(tx, actor, id, 'ended', reason, now)
  return toLot(lot, actor)
}

async function recordHold(
  tx: Tx,
  actor: Actor,
  lotId: string,
  kind: 'held' | 'ended',
  reason: string,
  at: Date,
): Promise<void> {
  const organizationId = actor.organization.id
  await tx.lotHoldEvent.create({ data: { organizationId, lotId, kind, at, recordedBy: actor.name, reason } })
  await announce(tx, { organizationId, shopId: null, topic: 'stock', subjectId: lotId })
}

function lotRow(tx: Tx, id: string) {
  return tx.lot.findUnique({ where: { id }, include: withTotals })
}

async function requireLot(tx: Tx, id: string): Promise<LotRow> {
  const row = await lotRow(tx, id)
  if (!row) throw notFound('lot', id)
  return row
}

function toLot(row: LotRow, actor: Actor): Lot {
  const visible = shopsWith(actor, 'readShop')
  return {
    id: row.id,
    productId: row.productId,
    productName: row.product.name,
    lotNumber: row.lotNumber,
    printedExpiry: isoDate(row.printedExpiry),
    expiryPrecision: row.expiryPrecision as Lot['expiryPrecision'],
    hold:
      row.holdReason !== null && row.holdSince !== null && row.holdBy !== null
        ? { reason: row.holdReason, since: row.holdSince, by: row.holdBy }
        : null,
    onHand: row.stockOnHands
      .filter(({ shopId }) => visible === 'all' || visible.has(shopId))
      .map(({ shopId, sealed, opened, volumeUl }) => ({ shopId, sealed, opened, volumeMl: toMl(volumeUl) })),
  }
}
