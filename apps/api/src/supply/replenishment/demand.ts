import { dailyDemand, type BookedUse, type DailyDemand } from '@clampclock/stock'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { amountNeededMl } from '../../work/index.ts'
import { nextBooking, whenNeeded } from '../reservations/needed-at.ts'
import { toMl } from '../../foundation/database/volumes.ts'

/** What a product was and will be used in a shop. */
export interface ProductDemand {
  /** Null: nothing was ever used. */
  readonly daily: DailyDemand | null
  readonly booked: readonly BookedUse[]
  readonly usedMl: number
  readonly historyDays: number
}

const HISTORY_DAYS = 365
const DAY_MS = 86_400_000

export const demandKey = (shopId: string, productId: string): string => `${shopId} ${productId}`

/**
 * Demand of every product in these shops: what the ledger says was used on each day of the last year (or since the
 * product first came there: days before it was in the shop say nothing), and what open joints will take.
 *
 * @param shops Null: every shop of the chain.
 */
export async function demands(
  tx: Tx,
  shops: readonly string[] | null,
  now: Date,
): Promise<ReadonlyMap<string, ProductDemand>> {
  const used = await usedByDay(tx, shops, now)
  const booked = await bookedUse(tx, shops, now)
  const found = new Map<string, ProductDemand>()
  for (const [key, { firstDay, byDay }] of used) {
    const historyDays = Math.min(HISTORY_DAYS, firstDay + 1)
    const oldestFirst = Array.from({ length: historyDays }, (_, i) => byDay.get(historyDays - 1 - i) ?? 0)
    found.set(key, {
      daily: dailyDemand(oldestFirst),
      booked: booked.get(key) ?? [],
      usedMl: oldestFirst.reduce((sum, ml) => sum + ml, 0),
      historyDays,
    })
  }
  for (const [key, uses] of booked)
    if (!found.has(key)) found.set(key, { daily: null, booked: uses, usedMl: 0, historyDays: 0 })
  return found
}

interface Used {
  /** Days ago on which the product first came. */
  readonly firstDay: number
  /** mL by days ago. */
  readonly byDay: ReadonlyMap<number, number>
}

async function usedByDay(tx: Tx, shops: readonly string[] | null, now: Date): Promise<Map<string, Used>> {
  const since = new Date(now.getTime() - HISTORY_DAYS * DAY_MS)
  const inShops = shops ? Prisma.sql`and m.shop_id = any (${[...shops]}::uuid[])` : Prisma.empty
  const ofShops = shops ? Prisma.sql`where c.shop_id = any (${[...shops]}::uuid[])` : Prisma.empty
  const firsts = await tx.$queryRaw<{ shop_id: string; product_id: string; first: Date }[]>`
    select c.shop_id, l.product_id, min(c.received_at) as first
      from (select c.shop_id, c.lot_id, min(c.received_at) as received_at from cartridge c ${ofShops} group by 1, 2) c
      join lot l on l.id = c.lot_id
     group by 1, 2`
  const rows = await tx.$queryRaw<{ shop_id: string; product_id: string; days_ago: number; ul: bigint }[]>`
    select m.shop_id, l.product_id, floor(extract(epoch from ${now}::timestamptz - m.at) / 86400)::int as days_ago,
           -sum(m.volume_change_ul) as ul
      from stock_movement m join lot l on l.id = m.lot_id
     where m.kind = 'used' and m.at > ${since}::timestamptz and m.at <= ${now}::timestamptz ${inShops}
     group by 1, 2, 3`
  const used = new Map<string, { firstDay: number; byDay: Map<number, number> }>()
  for (const { shop_id, product_id, first } of firsts) {
    const firstDay = Math.max(0, Math.floor((now.getTime() - first.getTime()) / DAY_MS))
    used.set(demandKey(shop_id, product_id), { firstDay, byDay: new Map() })
  }
  for (const { shop_id, product_id, days_ago, ul } of rows) {
    const key = demandKey(shop_id, product_id)
    // Every cartridge that was used there has gone elsewhere since: its use still tells what the shop needs.
    const known = used.get(key) ?? { firstDay: 0, byDay: new Map<number, number>() }
    used.set(key, {
      firstDay: Math.max(known.firstDay, days_ago),
      byDay: known.byDay.set(days_ago, toMl(ul)),
    })
  }
  return used
}

/** Joints of open repair orders that nobody has started, on the day of their first booking, else on the promised day. */
async function bookedUse(
  tx: Tx,
  shops: readonly string[] | null,
  now: Date,
): Promise<Map<string, BookedUse[]>> {
  const joints = await tx.joint.findMany({
    where: {
      ...(shops ? { shopId: { in: [...shops] } } : {}),
      repairOrder: { state: 'open' },
      bonds: { none: { state: { in: ['applied', 'clamped', 'released'] } } },
    },
    include: {
      product: true,
      repairOrder: {
        include: {
          bookings: {
            ...nextBooking(now),
            take: 1,
          },
        },
      },
    },
  })
  const uses = new Map<string, BookedUse[]>()
  for (const joint of joints) {
    const { bookings, promisedAt } = joint.repairOrder
    if ((!bookings[0] && !promisedAt) || !joint.productId) continue
    const at = whenNeeded(bookings[0] ?? null, promisedAt, now)
    const day = Math.floor((at.getTime() - now.getTime()) / DAY_MS)
    const key = demandKey(joint.shopId, joint.productId)
    uses.set(key, [...(uses.get(key) ?? []), { day, amountMl: amountNeededMl(joint) }])
  }
  return uses
}
