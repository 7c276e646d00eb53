import { param } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import type { BodyOf, moveRoutes, Shipment } from '@clampclock/contracts'
import { mayIn, requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { comeBack } from './away.ts'
import { lockedCartridges, type CartridgeRow } from '../cartridges/cartridge-store.ts'
import { post } from '../cartridges/ledger.ts'
import { requireSeen } from '../cartridges/may-see.ts'
import { requireOnHand } from './moves.ts'
import { requireLocation } from '../receiving/receive.ts'
import { shipmentById } from './shipment-store.ts'
import { refreshExpiry } from '../lots/storage-life.ts'

export async function sendShipment(
  tx: Tx,
  actor: Actor,
  fromShopId: string,
  body: BodyOf<typeof moveRoutes.sendShipment>,
  now: Date,
): Promise<Shipment> {
  const { toShopId, cartridgeIds, expectedAt, heldToo, reason } = body
  if (toShopId === fromShopId)
    throw invalidField(
      'body.toShopId',
      message('stock-problem.sameShop'),
      message('stock-problem.otherShelfFix'),
    )
  await shopById(tx, fromShopId)
  const to = await tx.shop.findUnique({ where: { id: toShopId } })
  if (!to) throw invalidField('body.toShopId', message('problem.noShopOfChain'))
  const rows = await lockedCartridges(tx, cartridgeIds)
  await requireOnHand(tx, actor, rows, fromShopId)
  if (!heldToo) requireNoneHeld(rows)

  const organizationId = actor.organization.id
  const { id } = await tx.shipment.create({
    data: { organizationId, fromShopId, toShopId, reason, sentAt: now, sentBy: actor.name, expectedAt },
  })
  await tx.shipmentLine.createMany({
    data: rows.map((row) => ({ organizationId, shipmentId: id, cartridgeId: row.id })),
  })
  await post(
    tx,
    actor,
    now,
    rows.map((row) => ({
      ...of(row, id),
      shopId: fromShopId,
      kind: 'sent',
      sealedChange: row.state === 'sealed' ? -1 : 0,
      openedChange: row.state === 'opened' ? -1 : 0,
      volumeChangeUl: -row.remaining_ul,
      at: now,
      reason: message('stock-reason.sentTo', { shop: to.name, reason }),
    })),
  )
  for (const row of rows)
    await tx.cartridge.update({
      where: { id: row.id },
      data: { state: 'inTransit', awayState: row.state, awayUl: row.remaining_ul },
    })
  await announce(tx, { organizationId, shopId: toShopId, topic: 'stock', subjectId: id })
  return shipmentById(tx, actor, id, now)
}

/** @throws {ProblemError} Naming each that nobody may use: whoever sends it says that he knows. */
function requireNoneHeld(rows: readonly CartridgeRow[]): void {
  const held = rows.flatMap((row) => {
    const why = row.hold_reason ?? row.quarantine_reason
    return why === null
      ? []
      : [{ message: message('stock-problem.codeWhy', { code: row.code, why: param(why) }) }]
  })
  if (held.length > 0)
    throw invalidField(
      'body.heldToo',
      message('stock-problem.heldOnes', { codes: { list: held, join: 'plain' } }),
      message('stock-problem.heldTooFix'),
    )
}

export async function arriveShipment(
  tx: Tx,
  actor: Actor,
  shipmentId: string,
  body: BodyOf<typeof moveRoutes.arriveShipment>,
  now: Date,
): Promise<Shipment> {
  const shipment = await shipmentById(tx, actor, shipmentId, now)
  const shopId = shipment.toShopId
  requireIn(actor, 'handleStock', shopId)
  if (body.locationId) await requireLocation(tx, shopId, body.locationId, 'body.locationId')
  const wanted =
    body.cartridgeIds ??
    shipment.lines.filter(({ outcome }) => outcome === null).map(({ cartridgeId }) => cartridgeId)
  const rows = await lockedLines(tx, actor, shipmentId, wanted)
  // Two people who unpack the same box: the second finds it done.
  const coming = rows.filter(({ outcome }) => outcome !== 'arrived')
  for (const line of coming) requireAway(line)
  const { locationId } = body
  const reason = body.reason || message('stock-reason.arrived')
  for (const { row } of coming)
    await comeBack(tx, actor, row, { shopId, locationId, kind: 'arrived', shipmentId, reason }, now)
  await refreshExpiry(
    tx,
    coming.map(({ row }) => row.id),
  )
  await settle(tx, actor, shipmentId, coming, 'arrived', now)
  return shipmentById(tx, actor, shipmentId, now)
}

export async function loseShipment(
  tx: Tx,
  actor: Actor,
  shipmentId: string,
  { cartridgeIds, reason }: BodyOf<typeof moveRoutes.loseShipment>,
  now: Date,
): Promise<Shipment> {
  const shipment = await shipmentById(tx, actor, shipmentId, now)
  const { fromShopId, toShopId } = shipment
  requireIn(actor, 'handleStock', mayIn(actor, 'handleStock', fromShopId) ? fromShopId : toShopId)
  const lines = await lockedLines(tx, actor, shipmentId, cartridgeIds)
  const arrived = lines.find(({ outcome }) => outcome === 'arrived')
  if (arrived)
    throw wrongState(
      message('stock-problem.hasArrived', { code: arrived.row.code }),
      message('problem.leaveItOutFix'),
    )
  const lost = lines.filter(({ outcome }) => outcome === null)
  await post(
    tx,
    actor,
    now,
    lost.map(({ row }) => ({
      ...of(row, shipmentId),
      shopId: fromShopId,
      kind: 'lost',
      sealedChange: 0,
      openedChange: 0,
      volumeChangeUl: 0,
      at: now,
      reason,
    })),
  )
  await tx.cartridge.updateMany({
    where: { id: { in: lost.map(({ row }) => row.id) } },
    data: { state: 'missing' },
  })
  await settle(tx, actor, shipmentId, lost, 'lost', now)
  return shipmentById(tx, actor, shipmentId, now)
}

/** What was given up as lost may have turned up by another way, and be on hand again or in another box. */
function requireAway({ row, outcome }: Line): void {
  if (row.state !== (outcome === 'lost' ? 'missing' : 'inTransit'))
    throw wrongState(message('stock-problem.turnedUp', { code: row.code }), message('problem.leaveItOutFix'))
}

interface Line {
  readonly row: CartridgeRow
  readonly outcome: string | null
}

/** The lines of these cartridges, as they stand once the cartridges are ours. */
async function lockedLines(
  tx: Tx,
  actor: Actor,
  shipmentId: string,
  cartridgeIds: readonly string[],
): Promise<Line[]> {
  if (cartridgeIds.length === 0) return []
  const rows = await lockedCartridges(tx, cartridgeIds)
  const lines = await tx.shipmentLine.findMany({
    where: { shipmentId, cartridgeId: { in: [...cartridgeIds] } },
  })
  const outcomes = new Map(lines.map(({ cartridgeId, outcome }) => [cartridgeId, outcome]))
  const stranger = rows.find(({ id }) => !outcomes.has(id))
  if (stranger) {
    await requireSeen(tx, actor, stranger)
    throw invalidField('body.cartridgeIds', message('stock-problem.notInShipment', { code: stranger.code }))
  }
  return rows.map((row) => ({ row, outcome: outcomes.get(row.id) ?? null }))
}

async function settle(
  tx: Tx,
  actor: Actor,
  shipmentId: string,
  lines: readonly Line[],
  outcome: 'arrived' | 'lost',
  now: Date,
): Promise<void> {
  await tx.shipmentLine.updateMany({
    where: { shipmentId, cartridgeId: { in: lines.map(({ row }) => row.id) } },
    data: { outcome, settledAt: now, settledBy: actor.name },
  })
}

function of(row: CartridgeRow, shipmentId: string) {
  return { lotId: row.lot_id, cartridgeId: row.id, shipmentId }
}
