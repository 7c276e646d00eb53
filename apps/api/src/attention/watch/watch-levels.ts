import { message } from '@clampclock/messages'
import { toMl } from '../../foundation/database/volumes.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { refreshLevels } from '../../supply/index.ts'
import type { AttentionNeeded } from '../../foundation/events/attention.ts'

type Found = Omit<AttentionNeeded, 'organizationId' | 'openedAt'>

interface Row {
  shop_id: string
  product_id: string
  product_name: string
  there_ul: bigint
  reorder_point_ul: number
}

/** Products at or below their reorder point, with what is on its way counted as there. */
export async function shortStock(tx: Tx, organizationId: string, now: Date): Promise<Found[]> {
  await refreshLevels(tx, organizationId, now)
  const rows = await tx.$queryRaw<Row[]>`
    select v.shop_id, v.product_id, p.name as product_name, v.reorder_point_ul,
           (coalesce(on_hand.ul, 0) + coming.cartridges * p.cartridge_ul)::bigint as there_ul
      from reorder_level v
      join product p on p.id = v.product_id
      left join lateral (
        select sum(c.remaining_ul)::bigint as ul
          from cartridge c join lot l on l.id = c.lot_id
         where c.shop_id = v.shop_id and l.product_id = v.product_id and c.state in ('sealed', 'opened')
           and l.hold_reason is null and c.expires_at > ${now}::timestamptz
           and not exists (select from cartridge_quarantine q where q.cartridge_id = c.id and q.decided_at is null)
           and exists (select from dispenser d where d.shop_id = c.shop_id and d.active and p.cartridge_form = any (d.cartridge_forms))) on_hand on true
      left join lateral (
        select (select coalesce(sum(l.cartridges - l.received_cartridges), 0)
                  from purchase_order_line l join purchase_order o on o.id = l.order_id
                 where o.shop_id = v.shop_id and o.state = 'placed' and l.product_id = v.product_id)
             + (select count(*)
                  from shipment_line w join shipment s on s.id = w.shipment_id
                  join cartridge c on c.id = w.cartridge_id join lot l on l.id = c.lot_id
                 where s.to_shop_id = v.shop_id and w.outcome is null and l.product_id = v.product_id) as cartridges) coming on true
     where (coalesce(on_hand.ul, 0) + coming.cartridges * p.cartridge_ul)::bigint <= v.reorder_point_ul`
  return rows.map((row) => ({
    shopId: row.shop_id,
    kind: 'belowReorderPoint',
    message: message('alert.belowReorderPoint', {
      product: row.product_name,
      there: { millilitres: toMl(Number(row.there_ul)) },
      reorderPoint: { millilitres: toMl(row.reorder_point_ul) },
    }),
    subjectKind: 'product',
    subjectId: row.product_id,
  }))
}
