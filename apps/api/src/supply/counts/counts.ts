import { message } from '@clampclock/messages'
import type { StockCount } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { notFound, wrongState } from '../../foundation/problems/problem-error.ts'
import { announce } from '../../foundation/live/hub.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { cartridgeRow } from '../cartridges/cartridge-store.ts'
import { countById } from './count-store.ts'
import { requireSeen } from '../cartridges/may-see.ts'
import { requireLocation } from '../receiving/receive.ts'

interface CountHead {
  readonly id: string
  readonly shop_id: string
  readonly location_id: string | null
  readonly started_at: Date
  readonly finished_at: Date | null
}

/** Whoever comes second to a shelf joins: the index lets only one count of it be open. */
export async function startCount(
  tx: Tx,
  actor: Actor,
  shopId: string,
  locationId: string | null,
  now: Date,
): Promise<StockCount> {
  await shopById(tx, shopId)
  if (locationId) await requireLocation(tx, shopId, locationId, 'body.locationId')
  await tx.$executeRaw`
    insert into stock_count (organization_id, shop_id, location_id, started_at, started_by)
    values (${actor.organization.id}::uuid, ${shopId}::uuid, ${locationId}::uuid, ${now}::timestamptz, ${actor.name})
    on conflict (shop_id, location_id) where finished_at is null do nothing`
  const open = await tx.stockCount.findFirstOrThrow({ where: { shopId, locationId, finishedAt: null } })
  await tell(tx, actor, shopId, open.id)
  return countById(tx, actor, open.id)
}

export async function addEntry(
  tx: Tx,
  actor: Actor,
  countId: string,
  cartridgeId: string,
  now: Date,
): Promise<StockCount> {
  const count = await openCount(tx, actor, countId)
  await requireSeen(tx, actor, await cartridgeRow(tx, cartridgeId))
  await tx.stockCountEntry.createMany({
    data: [
      { organizationId: actor.organization.id, countId, cartridgeId, countedAt: now, countedBy: actor.name },
    ],
    skipDuplicates: true,
  })
  await tell(tx, actor, count.shop_id, countId)
  return countById(tx, actor, countId)
}

export async function removeEntry(
  tx: Tx,
  actor: Actor,
  countId: string,
  cartridgeId: string,
): Promise<StockCount> {
  const count = await openCount(tx, actor, countId)
  await tx.stockCountEntry.deleteMany({ where: { countId, cartridgeId } })
  await tell(tx, actor, count.shop_id, countId)
  return countById(tx, actor, countId)
}

/** @throws {ProblemError} `wrong-state` once something was scanned, or it is finished. */
export async function cancelCount(tx: Tx, actor: Actor, countId: string): Promise<void> {
  const count = await lockedCount(tx, actor, countId, 'useStock')
  if (count.finished_at) throw wrongState(message('stock-problem.countFinishedAlready'))
  const scanned = await tx.stockCountEntry.count({ where: { countId } })
  if (scanned > 0)
    throw wrongState(
      message('stock-problem.countedAlready', { scanned }),
      message('stock-problem.takeOutOfCountFix'),
    )
  await tx.stockCount.delete({ where: { id: countId } })
  await tell(tx, actor, count.shop_id, countId)
}

/**
 * Holds what was seen against the record. What moved while the count ran is left out: it was right when it was seen, and
 * is right now.
 */
export async function finishCount(tx: Tx, actor: Actor, countId: string, now: Date): Promise<StockCount> {
  const count = await lockedCount(tx, actor, countId, 'useStock')
  if (count.finished_at) return countById(tx, actor, countId)
  const { organization } = actor
  await tx.$executeRaw`
    insert into stock_count_difference (organization_id, count_id, cartridge_id, kind)
    select ${organization.id}::uuid, ${countId}::uuid, c.id, 'notFound'
      from cartridge c
     where c.shop_id = ${count.shop_id}::uuid and c.location_id is not distinct from ${count.location_id}::uuid
       and c.state in ('sealed', 'opened')
       and not exists (select from stock_count_entry e where e.count_id = ${countId}::uuid and e.cartridge_id = c.id)
       and not exists (select from stock_movement m
                        where m.cartridge_id = c.id and m.recorded_at > ${count.started_at}::timestamptz)
    union all
    select ${organization.id}::uuid, ${countId}::uuid, c.id,
           case when c.state = 'inTransit' then 'inTransit'
                when c.state = 'missing' then 'missing'
                when c.state in ('empty', 'discarded') then 'gone'
                when c.shop_id <> ${count.shop_id}::uuid then 'otherShop'
                else 'otherShelf' end
      from stock_count_entry e join cartridge c on c.id = e.cartridge_id
     where e.count_id = ${countId}::uuid
       and not (c.state in ('sealed', 'opened') and c.shop_id = ${count.shop_id}::uuid
                and c.location_id is not distinct from ${count.location_id}::uuid)
       and not exists (select from stock_movement m where m.cartridge_id = c.id and m.recorded_at > e.counted_at)`
  await tx.stockCount.update({
    where: { id: countId },
    data: { finishedAt: now, finishedBy: actor.name },
  })
  await tell(tx, actor, count.shop_id, countId)
  return countById(tx, actor, countId)
}

/** The count, locked, for somebody who may do that in its shop. */
export async function lockedCount(
  tx: Tx,
  actor: Actor,
  countId: string,
  permission: 'useStock' | 'handleStock',
): Promise<CountHead> {
  const [count] = await tx.$queryRaw<CountHead[]>`
    select id, shop_id, location_id, started_at, finished_at from stock_count where id = ${countId}::uuid for update`
  if (!count) throw notFound('stock count', countId)
  requireIn(actor, permission, count.shop_id)
  return count
}

/** Open, and kept open until the entry is in: a finish waits for it. */
async function openCount(tx: Tx, actor: Actor, countId: string): Promise<CountHead> {
  const count = await lockedCount(tx, actor, countId, 'useStock')
  if (count.finished_at)
    throw wrongState(message('stock-problem.countFinished'), message('stock-problem.newCountFix'))
  return count
}

async function tell(tx: Tx, actor: Actor, shopId: string, countId: string): Promise<void> {
  await announce(tx, {
    organizationId: actor.organization.id,
    shopId,
    topic: 'stock',
    subjectId: countId,
  })
}
