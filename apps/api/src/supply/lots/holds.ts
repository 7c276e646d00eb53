import { message, type Message, type Told } from '@clampclock/messages'
import type { Lot } from '@clampclock/contracts'
import { mayIn, requireInEach, type Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { lockedCartridges } from '../cartridges/cartridge-store.ts'
import { closeQuarantine } from '../cartridges/close-quarantine.ts'
import { post } from '../cartridges/ledger.ts'
import { degrees, param } from '../../foundation/words/params.ts'
import { keptReason, toldOf } from '../../foundation/words/kept.ts'
import { WATCH } from './holder.ts'
import { requireLot, toLot } from './lots.ts'
import { quarantine } from '../cartridges/quarantine.ts'

type HoldEvent = 'held' | 'ended' | 'scrapped'

/**
 * One row says that a whole lot is held, so every shop sees it at once and none can be missed. Whoever has a say in one
 * shop where it lies or lay may hold it for all: a hold errs on the careful side.
 */
export async function holdLot(tx: Tx, actor: Actor, id: string, reason: string, now: Date): Promise<Lot> {
  await requireLot(tx, id)
  const { there, everThere } = await shopsOfLot(tx, id)
  if (![...there, ...everThere].some((shopId) => mayIn(actor, 'handleStock', shopId)))
    requireInEach(actor, 'handleStock', everThere)
  const { count } = await tx.lot.updateMany({
    where: { id, holdReason: null },
    data: { ...held(reason), holdSince: now, holdBy: actor.name, holdKind: 'person' },
  })
  const lot = await requireLot(tx, id)
  if (count === 0)
    throw wrongState(
      message('stock-problem.heldAlready', {
        lot: lot.lotNumber,
        reason: param(toldOf(lot.holdReason ?? '', lot.holdSaid)),
      }),
    )
  await recordHold(tx, { organizationId: actor.organization.id, by: actor.name }, id, 'held', reason, now)
  return toLot(lot, actor)
}

/** Disposed of as usable, in every shop where it lies: so by who has a say in each of them. */
export async function endLotHold(tx: Tx, actor: Actor, id: string, reason: string, now: Date): Promise<Lot> {
  const before = await requireLot(tx, id)
  await requireEverywhere(tx, actor, id)
  if (before.holdKind === 'scrapped')
    throw wrongState(
      message('stock-problem.lotScrapped', { lot: before.lotNumber }),
      message('stock-problem.notUsedAnyMoreFix'),
    )
  const { count } = await tx.lot.updateMany({
    where: { id, holdKind: { in: ['person', 'excursion'] } },
    data: { holdReason: null, holdSaid: Prisma.DbNull, holdSince: null, holdBy: null, holdKind: null },
  })
  const lot = await requireLot(tx, id)
  if (count === 0) throw wrongState(message('stock-problem.lotNotHeld', { lot: lot.lotNumber }))
  await recordHold(tx, { organizationId: actor.organization.id, by: actor.name }, id, 'ended', reason, now)
  return toLot(lot, actor)
}

/** Disposed of as scrap: everything on hand goes, and the hold stays. */
export async function scrapLot(tx: Tx, actor: Actor, id: string, reason: string, now: Date): Promise<Lot> {
  await requireLot(tx, id)
  await requireEverywhere(tx, actor, id)
  const onHand = await tx.cartridge.findMany({
    where: { lotId: id, state: { in: ['sealed', 'opened'] } },
    select: { id: true, shopId: true },
  })
  // Cartridges before their lot, as readings that hold it have them.
  const rows = await lockedCartridges(
    tx,
    onHand.map((each) => each.id),
  )
  await tx.$queryRaw`select 1 from lot where id = ${id}::uuid for no key update`
  const lot = await requireLot(tx, id)
  if (lot.holdReason === null)
    throw wrongState(
      message('stock-problem.lotNotHeld', { lot: lot.lotNumber }),
      message('stock-problem.holdFirstFix'),
    )
  if (lot.holdKind === 'scrapped')
    throw wrongState(message('stock-problem.lotScrappedAlready', { lot: lot.lotNumber }))
  const lotScrapped = message('stock-reason.lotScrapped', { reason })
  const left = rows.filter(({ state }) => state === 'sealed' || state === 'opened')
  await post(
    tx,
    actor,
    now,
    left.map((row) => ({
      shopId: row.shop_id,
      lotId: id,
      cartridgeId: row.id,
      kind: 'discarded',
      sealedChange: row.state === 'sealed' ? -1 : 0,
      openedChange: row.state === 'opened' ? -1 : 0,
      volumeChangeUl: -row.remaining_ul,
      at: now,
      reason: lotScrapped,
    })),
  )
  await tx.cartridge.updateMany({
    where: { id: { in: left.map((row) => row.id) } },
    data: { state: 'discarded' },
  })
  await closeQuarantine(
    tx,
    actor,
    left.map((row) => row.id),
    'discard',
    lotScrapped,
    now,
  )
  await tx.lot.update({
    where: { id },
    data: { holdKind: 'scrapped', ...held(message('stock-reason.scrapped', { reason })) },
  })
  await recordHold(tx, { organizationId: actor.organization.id, by: actor.name }, id, 'scrapped', reason, now)
  return toLot(await requireLot(tx, id), actor)
}

async function requireEverywhere(tx: Tx, actor: Actor, lotId: string): Promise<void> {
  const { there, everThere } = await shopsOfLot(tx, lotId)
  requireInEach(actor, 'handleStock', there.length > 0 ? there : everThere)
}

/** Where a lot lies or is on its way to, and where any of it ever was. */
async function shopsOfLot(
  tx: Tx,
  lotId: string,
): Promise<{ there: readonly string[]; everThere: readonly string[] }> {
  const rows = await tx.$queryRaw<{ shopId: string; isThere: boolean }[]>`
    select shop_id as "shopId", bool_or(state not in ('empty', 'discarded')) as "isThere"
      from cartridge where lot_id = ${lotId}::uuid group by shop_id
    union all
    select s.to_shop_id, true
      from shipment_line line
      join shipment s on s.id = line.shipment_id
      join cartridge c on c.id = line.cartridge_id
     where c.lot_id = ${lotId}::uuid and line.settled_at is null`
  return {
    there: rows.filter(({ isThere }) => isThere).map(({ shopId }) => shopId),
    everThere: rows.map(({ shopId }) => shopId),
  }
}

/** When lot `l` was last disposed of: what was read before has been dealt with. */
export const DISPOSED_AT = Prisma.sql`
  coalesce((select max(e.at) from lot_hold_event e where e.lot_id = l.id and e.kind <> 'held'), '-infinity')`

interface CartridgeExcursion {
  cartridge_id: string
  shop_id: string
  since: Date
}

interface Excursion {
  lot_id: string
  shop_name: string
  unit: 'C' | 'F'
  place: string
  low: number
  high: number
  coldest: number
  warmest: number
}

/**
 * New readings outside a product's storage range hold every lot that lay there at the time, in every shop, until somebody
 * disposes of it. One reading is enough: a frozen cartridge does not say so later.
 */
export async function holdAfterExcursion(
  tx: Tx,
  organizationId: string,
  locationId: string,
  readings: readonly { readonly at: Date; readonly temperatureC: number }[],
  now: Date,
): Promise<void> {
  if (readings.length === 0) return
  await quarantineAfterExcursion(tx, organizationId, locationId, readings, now)
  const found = await tx.$queryRaw<Excursion[]>`
    select l.id as lot_id, shop.name as shop_name, shop.temperature_unit as unit, place.name as place,
           p.storage_min_c as low, p.storage_max_c as high, min(r.c) as coldest, max(r.c) as warmest
      from (values ${readingRows(readings)}) as r (at, c)
      join cartridge_stay stay on stay.location_id = ${locationId}::uuid and stay.from_at <= r.at
                              and (stay.until_at is null or stay.until_at > r.at)
      join cartridge c on c.id = stay.cartridge_id and c.state not in ('empty', 'discarded')
      join lot l on l.id = c.lot_id and l.hold_reason is null and r.at > ${DISPOSED_AT}
      join product p on p.id = l.product_id and (r.c < p.storage_min_c or r.c > p.storage_max_c)
      join storage_location place on place.id = stay.location_id
      join shop on shop.id = stay.shop_id
     group by l.id, shop.name, shop.temperature_unit, place.name, p.storage_min_c, p.storage_max_c
     order by l.id`
  for (const each of found) {
    const reason = outOfRange(each)
    const { count } = await tx.lot.updateMany({
      where: { id: each.lot_id, holdReason: null },
      data: { ...held(reason), holdSince: now, holdBy: WATCH, holdKind: 'excursion' },
    })
    if (count > 0) await recordHold(tx, { organizationId, by: WATCH }, each.lot_id, 'held', reason, now)
  }
}

/**
 * Each cartridge that lay there then, wherever it is by now and whatever holds its lot: the end of the lot's hold speaks
 * for the lot, not for the one that froze. What was read before its last decision has been dealt with.
 */
async function quarantineAfterExcursion(
  tx: Tx,
  organizationId: string,
  locationId: string,
  readings: readonly { readonly at: Date; readonly temperatureC: number }[],
  now: Date,
): Promise<void> {
  const found = await tx.$queryRaw<(Omit<Excursion, 'lot_id'> & CartridgeExcursion)[]>`
    select c.id as cartridge_id, c.shop_id, min(r.at) as since, shop.name as shop_name, shop.temperature_unit as unit,
           place.name as place, p.storage_min_c as low, p.storage_max_c as high, min(r.c) as coldest, max(r.c) as warmest
      from (values ${readingRows(readings)}) as r (at, c)
      join cartridge_stay stay on stay.location_id = ${locationId}::uuid and stay.from_at <= r.at
                              and (stay.until_at is null or stay.until_at > r.at)
      join cartridge c on c.id = stay.cartridge_id and c.state not in ('empty', 'discarded')
      join lot l on l.id = c.lot_id
      join product p on p.id = l.product_id and (r.c < p.storage_min_c or r.c > p.storage_max_c)
      join storage_location place on place.id = stay.location_id
      join shop on shop.id = stay.shop_id
     where r.at > coalesce((select max(d.decided_at) from cartridge_quarantine d where d.cartridge_id = c.id), '-infinity')
     group by c.id, c.shop_id, shop.name, shop.temperature_unit, place.name, p.storage_min_c, p.storage_max_c
     order by c.id`
  await quarantine(
    tx,
    organizationId,
    found.map((each) => ({
      cartridgeId: each.cartridge_id,
      shopId: each.shop_id,
      since: each.since,
      reason: outOfRange(each),
    })),
    now,
  )
}

function readingRows(readings: readonly { readonly at: Date; readonly temperatureC: number }[]): Prisma.Sql {
  return Prisma.join(
    readings.map(({ at, temperatureC }) => Prisma.sql`(${at}::timestamptz, ${temperatureC}::float8)`),
  )
}

function outOfRange(each: Omit<Excursion, 'lot_id'>): Message {
  const shown = (c: number) => degrees(c, each.unit)
  const worst = each.coldest < each.low ? each.coldest : each.warmest
  return message('stock-reason.outOfRange', {
    shop: each.shop_name,
    place: each.place,
    was: shown(worst),
    low: shown(each.low),
    high: shown(each.high),
  })
}

/** The reason of a hold for its columns. */
function held(reason: Told) {
  const kept = keptReason(reason)
  return { holdReason: kept.reason, holdSaid: kept.said ?? Prisma.DbNull }
}

async function recordHold(
  tx: Tx,
  { organizationId, by }: { organizationId: string; by: string },
  lotId: string,
  kind: HoldEvent,
  reason: Told,
  at: Date,
): Promise<void> {
  await tx.lotHoldEvent.create({
    data: { organizationId, lotId, kind, at, recordedBy: by, ...keptReason(reason) },
  })
  await announce(tx, { organizationId, shopId: null, topic: 'stock', subjectId: lotId })
}
