import { param } from '../../foundation/words/params.ts'
import { message, type Message, type Told } from '@clampclock/messages'
import type { BodyOf, Cartridge, QueryOf, ResultOf, stockRoutes } from '@clampclock/contracts'
import { SOON_DAYS, usabilityFaults, type UsabilityFault } from '@clampclock/stock'
import { requireIn, visibleShops, type Actor, type Viewer } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toPage, unpackCursor } from '../../foundation/http/pages.ts'
import { invalidField, wrongState } from '../../foundation/problems/problem-error.ts'
import {
  cartridgeRow,
  expiryOf,
  lockedCartridge,
  ofCartridge,
  selectCartridges,
  toCartridge,
  type CartridgeRow,
} from './cartridge-store.ts'
import { closeQuarantine } from './close-quarantine.ts'
import { post } from './ledger.ts'
import { requireSeen } from './may-see.ts'
import { toMl, toUl } from '../../foundation/database/volumes.ts'

export async function listCartridges(
  tx: Tx,
  viewer: Viewer,
  query: QueryOf<typeof stockRoutes.listCartridges>,
  now: Date,
): Promise<ResultOf<typeof stockRoutes.listCartridges>> {
  const shops = visibleShops(viewer, query.shopId)
  const soon = new Date(now.getTime() + SOON_DAYS * 86_400_000)
  const where: Prisma.Sql[] = [
    query.state ? Prisma.sql`c.state = ${query.state}` : Prisma.sql`c.state in ('sealed', 'opened')`,
    ...(shops ? [Prisma.sql`c.shop_id = any (${shops.in}::uuid[])`] : []),
    ...(query.productId ? [Prisma.sql`l.product_id = ${query.productId}::uuid`] : []),
    ...(query.lotId ? [Prisma.sql`c.lot_id = ${query.lotId}::uuid`] : []),
    ...(query.code ? [Prisma.sql`c.code like ${`${literally(query.code.toUpperCase())}%`}`] : []),
    ...(query.urgency === 'expired' ? [Prisma.sql`c.expires_at <= ${now}::timestamptz`] : []),
    ...(query.urgency === 'soon'
      ? [Prisma.sql`c.expires_at > ${now}::timestamptz and c.expires_at <= ${soon}::timestamptz`]
      : []),
    ...(query.urgency === 'good' ? [Prisma.sql`c.expires_at > ${soon}::timestamptz`] : []),
  ]
  if (query.cursor) {
    const [at, id] = cartridgeCursor(query.cursor)
    where.push(Prisma.sql`(c.expires_at, c.id) > (${at}::timestamptz, ${id}::uuid)`)
  }
  const rows = await selectCartridges(tx, Prisma.join(where, ' and '), query.limit + 1)
  return toPage(
    rows,
    query.limit,
    (row) => toCartridge(row, now),
    (row) => [row.expires_at.getTime(), row.id],
  )
}

/** Text that stands for itself in a pattern. */
function literally(text: string): string {
  return text.replaceAll(/[\\%_]/g, String.raw`\$&`)
}

function cartridgeCursor(cursor: string): [Date, string] {
  const [ms, id] = unpackCursor(cursor, 2)
  const at = new Date(Number(ms))
  if (Number.isNaN(at.getTime()) || !/^[0-9a-f-]{36}$/.test(String(id)))
    throw invalidField('query.cursor', message('problem.badCursor'))
  return [at, String(id)]
}

export async function getCartridge(tx: Tx, actor: Actor, id: string, now: Date): Promise<Cartridge> {
  const row = await cartridgeRow(tx, id)
  await requireSeen(tx, actor, row)
  return toCartridge(row, now)
}

export async function openCartridge(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof stockRoutes.openCartridge>,
  now: Date,
): Promise<Cartridge> {
  const row = await lockedCartridge(tx, id)
  requireIn(actor, 'useStock', row.shop_id)
  if (row.state !== 'sealed')
    throw wrongState(message('stock-problem.cartridgeIsAlready', { code: row.code, state: row.state }))
  const openedAt = body.openedAt ?? now
  if (openedAt > now) throw invalidField('body.openedAt', message('problem.inFuture'))
  if (openedAt < row.received_at) throw invalidField('body.openedAt', message('stock-problem.beforeReceived'))
  const [fault] = usabilityFaults({ ...usability(row), neededMl: 0, atMs: openedAt.getTime() }).filter(
    ({ kind }) => kind !== 'noDispenserFits',
  )
  if (fault) throw wrongState(faultSentence(fault, row), message('cartridge.anotherFix'))
  await openLocked(tx, actor, row, openedAt, now, body.reason || message('stock-reason.openedForJob'))
  return toCartridge(await cartridgeRow(tx, id), now)
}

/** Opens a cartridge whose row is locked and which is known to be sealed. */
export async function openLocked(
  tx: Tx,
  actor: Actor,
  row: CartridgeRow,
  openedAt: Date,
  now: Date,
  reason: Told,
): Promise<void> {
  const expiry = expiryOf(row, openedAt)
  await tx.cartridge.update({
    where: { id: row.id },
    data: { state: 'opened', openedAt, expiresAt: new Date(expiry.atMs), expiryLimit: expiry.limit },
  })
  await post(tx, actor, now, [
    {
      ...ofCartridge(row),
      kind: 'opened',
      sealedChange: -1,
      openedChange: 1,
      volumeChangeUl: 0,
      at: openedAt,
      reason,
    },
  ])
}

export async function discardCartridge(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof stockRoutes.discardCartridge>,
  now: Date,
): Promise<Cartridge> {
  const row = await lockedCartridge(tx, id)
  requireIn(actor, 'useStock', row.shop_id)
  await discardLocked(tx, actor, row, body.reason, now)
  return toCartridge(await cartridgeRow(tx, id), now)
}

/** Throws a locked cartridge away; with it goes what was still to be decided about it. */
export async function discardLocked(
  tx: Tx,
  actor: Actor,
  row: CartridgeRow,
  reason: string,
  now: Date,
): Promise<void> {
  if (row.state !== 'sealed' && row.state !== 'opened')
    throw wrongState(message('cartridge.isState', { code: row.code, state: row.state }))
  await post(tx, actor, now, [
    {
      ...ofCartridge(row),
      kind: 'discarded',
      sealedChange: row.state === 'sealed' ? -1 : 0,
      openedChange: row.state === 'opened' ? -1 : 0,
      volumeChangeUl: -row.remaining_ul,
      at: now,
      reason,
    },
  ])
  await tx.cartridge.update({ where: { id: row.id }, data: { state: 'discarded' } })
  await closeQuarantine(tx, actor, [row.id], 'discard', reason, now)
}

export async function correctCartridge(
  tx: Tx,
  actor: Actor,
  id: string,
  body: BodyOf<typeof stockRoutes.correctCartridge>,
  now: Date,
): Promise<Cartridge> {
  const row = await lockedCartridge(tx, id)
  requireIn(actor, 'handleStock', row.shop_id)
  if (row.state !== 'opened')
    throw wrongState(message('stock-problem.onlyOpenedCorrected', { code: row.code, state: row.state }))
  const remainingUl = toUl(body.remainingMl)
  if (remainingUl > row.cartridge_ul) {
    throw invalidField(
      'body.remainingMl',
      message('stock-problem.atMostFull', { most: { millilitres: toMl(row.cartridge_ul) } }),
    )
  }
  const emptied = remainingUl === 0
  await post(tx, actor, now, [
    {
      ...ofCartridge(row),
      kind: 'corrected',
      sealedChange: 0,
      openedChange: emptied ? -1 : 0,
      volumeChangeUl: remainingUl - row.remaining_ul,
      at: now,
      reason: body.reason,
    },
  ])
  if (emptied) await tx.cartridge.update({ where: { id }, data: { state: 'empty' } })
  return toCartridge(await cartridgeRow(tx, id), now)
}

/** What `usabilityFaults` asks of a cartridge, but for when and how much. */
export function usability(row: CartridgeRow) {
  const expiry = expiryOf(row)
  return {
    state: row.state,
    remainingMl: toMl(row.remaining_ul),
    effectiveExpiryMs: expiry.atMs,
    expiryReason: expiry.says,
    holdReason: row.hold_reason,
    quarantineReason: row.quarantine_reason,
    fitsDispenser: row.fits,
  }
}

/** Of a cartridge, in a sentence. */
export function faultSentence(fault: UsabilityFault<Told>, row: CartridgeRow): Message {
  const { code } = row
  switch (fault.kind) {
    case 'usedUp':
    case 'away':
      return message('cartridge.isState', { code, state: fault.state })
    case 'expired':
      return message('cartridge.expired', { code, reason: param(fault.reason) })
    case 'onHold':
      return message('cartridge.onHold', { lot: row.lot_number, reason: param(fault.reason) })
    case 'quarantined':
      return message('cartridge.quarantined', { code, reason: param(fault.reason) })
    case 'noDispenserFits':
      return message('cartridge.noDispenserFits', { form: row.cartridge_form })
    case 'tooLittle':
      return message('cartridge.tooLittle', {
        code,
        remaining: { millilitres: fault.remainingMl },
        needed: { millilitres: fault.neededMl },
      })
  }
}
