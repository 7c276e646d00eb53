import type { QueryOf, ResultOf, stockLifeRoutes } from '@clampclock/contracts'
import { SOON_DAYS } from '@clampclock/stock'
import { visibleShops, type Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toMl } from '../../foundation/database/volumes.ts'

/** By the month of the last instant that counts, in the zone of the shop that has it. */
export async function expiries(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof stockLifeRoutes.listExpiries>,
  now: Date,
): Promise<ResultOf<typeof stockLifeRoutes.listExpiries>> {
  const shops = visibleShops(actor, query.shopId)
  const soonAt = new Date(now.getTime() + SOON_DAYS * 86_400_000)
  const rows = await tx.$queryRaw<
    { month: string; pieces: bigint; ul: bigint; expired: bigint; soon: bigint }[]
  >`
    select to_char((c.expires_at - interval '1 ms') at time zone s.time_zone, 'YYYY-MM') as month, count(*) as pieces,
           sum(c.remaining_ul) as ul, count(*) filter (where c.expires_at <= ${now}::timestamptz) as expired,
           count(*) filter (where c.expires_at > ${now}::timestamptz and c.expires_at <= ${soonAt}::timestamptz) as soon
      from cartridge c join shop s on s.id = c.shop_id
      ${query.productId ? Prisma.sql`join lot l on l.id = c.lot_id and l.product_id = ${query.productId}::uuid` : Prisma.empty}
     where c.state in ('sealed', 'opened')
       ${shops ? Prisma.sql`and c.shop_id = any (${shops.in}::uuid[])` : Prisma.empty}
     group by 1 order by 1`
  const [clock] = await tx.$queryRaw<[{ month: string }]>`
    select coalesce(min(to_char(${now}::timestamptz at time zone s.time_zone, 'YYYY-MM')), to_char(${now}::timestamptz at time zone 'utc', 'YYYY-MM')) as month
      from shop s ${shops ? Prisma.sql`where s.id = any (${shops.in}::uuid[])` : Prisma.empty}`
  return {
    soonDays: SOON_DAYS,
    thisMonth: clock.month,
    items: rows.map(({ month, pieces, ul, expired, soon }) => ({
      month,
      cartridges: Number(pieces),
      volumeMl: toMl(ul),
      expired: Number(expired),
      soon: Number(soon),
    })),
  }
}
