import { toldOf } from '../../foundation/words/kept.ts'
import { param } from '../../foundation/words/params.ts'
import { message, type Message } from '@clampclock/messages'
import { isSame } from '../../foundation/words/words.ts'
import type { moveRoutes, QueryOf, ResultOf, Shipment } from '@clampclock/contracts'
import { dateOf as dayOf } from '@clampclock/quantities'
import { SOON_DAYS } from '@clampclock/stock'
import { mayIn, visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toPage, unpackCursor } from '../../foundation/http/pages.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'

const withLines = {
  toShop: { include: { dispensers: { where: { active: true } } } },
  shipmentLines: { include: { cartridge: { include: { lot: { include: { product: true } } } } } },
} satisfies Prisma.ShipmentInclude
type ShipmentRow = Prisma.ShipmentGetPayload<{ include: typeof withLines }>

export async function shipmentById(tx: Tx, actor: Actor, id: string, now: Date): Promise<Shipment> {
  const row = await tx.shipment.findUnique({ where: { id }, include: withLines })
  if (!row || !(mayIn(actor, 'readShop', row.fromShopId) || mayIn(actor, 'readShop', row.toShopId)))
    throw notFound('shipment', id)
  return toShipment(row, now)
}

export async function listShipments(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof moveRoutes.listShipments>,
  now: Date,
): Promise<ResultOf<typeof moveRoutes.listShipments>> {
  const shops = visibleShops(actor, query.shopId)
  const after = query.cursor ? shipmentCursor(query.cursor) : undefined
  const open = { shipmentLines: { some: { outcome: null } } }
  const rows = await tx.shipment.findMany({
    where: {
      AND: [
        shops ? { OR: [{ fromShopId: shops }, { toShopId: shops }] } : {},
        query.onTheWay === undefined ? {} : query.onTheWay === 'true' ? open : { NOT: open },
        after ? { OR: [{ sentAt: { lt: after.at } }, { sentAt: after.at, id: { gt: after.id } }] } : {},
      ],
    },
    include: withLines,
    orderBy: [{ sentAt: 'desc' }, { id: 'asc' }],
    take: query.limit + 1,
  })
  return toPage(
    rows,
    query.limit,
    (row) => toShipment(row, now),
    (row) => [row.sentAt.getTime(), row.id],
  )
}

function shipmentCursor(cursor: string): { at: Date; id: string } {
  const [ms, id] = unpackCursor(cursor, 2)
  const at = new Date(Number(ms))
  if (Number.isNaN(at.getTime()) || !/^[0-9a-f-]{36}$/.test(String(id)))
    throw invalidField('query.cursor', message('problem.badCursor'))
  return { at, id: String(id) }
}

function toShipment(row: ShipmentRow, now: Date): Shipment {
  const { id, fromShopId, toShopId, reason, sentAt, sentBy, expectedAt } = row
  const lines = row.shipmentLines.toSorted((a, b) => a.cartridge.code.localeCompare(b.cartridge.code))
  return {
    id,
    fromShopId,
    toShopId,
    reason,
    sentAt,
    sentBy,
    expectedAt,
    onTheWay: lines.filter(({ outcome }) => outcome === null).length,
    lines: lines.map(({ cartridge, cartridgeId, outcome, settledAt, settledBy }) => ({
      cartridgeId,
      code: cartridge.code,
      productName: cartridge.lot.product.name,
      lotId: cartridge.lotId,
      lotNumber: cartridge.lot.lotNumber,
      outcome: outcome as Shipment['lines'][number]['outcome'],
      settledAt,
      settledBy,
    })),
    warnings: warningsOf(row, now),
  }
}

/** What the shop that it goes to should know before it is unpacked; each said once. */
function warningsOf({ toShop, shipmentLines }: ShipmentRow, now: Date): Message[] {
  const soon = now.getTime() + SOON_DAYS * 86_400_000
  const warnings = shipmentLines
    .filter(({ outcome }) => outcome === null)
    .flatMap(({ cartridge: { lot, expiresAt } }) => [
      ...(toShop.dispensers.some(({ cartridgeForms }) => cartridgeForms.includes(lot.product.cartridgeForm))
        ? []
        : [
            message('stock-problem.noDispenserOfShop', {
              shop: toShop.name,
              form: lot.product.cartridgeForm,
            }),
          ]),
      ...(expiresAt.getTime() <= soon
        ? [
            message('stock-problem.usedBy', {
              product: lot.product.name,
              lot: lot.lotNumber,
              day: { day: dayOf(expiresAt.getTime() - 1, toShop.timeZone) },
            }),
          ]
        : []),
      ...(lot.holdReason === null
        ? []
        : [
            message('stock-problem.lotHeld', {
              lot: lot.lotNumber,
              reason: param(toldOf(lot.holdReason, lot.holdSaid)),
            }),
          ]),
    ])
  return warnings.filter((each, i) => warnings.findIndex((other) => isSame(each, other)) === i)
}
